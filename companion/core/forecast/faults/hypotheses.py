"""Which fault hypotheses are weighed: their places, sizes and priors, and the shift that each would make."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate, pairwise

from companion.core.forecast.faults.hypothesis import MISREAD, FaultKind, FaultSize, Hypothesis
from companion.core.forecast.faults.segment import BeadCount, Segment
from companion.core.plan.uncertainty.covariance import CORD, CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions
from companion.core.values.design import KNOT_KINDS
from companion.core.values.measures.units import MM_PER_INCH

MISREAD_MM = (5.0, 10.0, MM_PER_INCH / 2, MM_PER_INCH)
TENSION_STEPS = (0.20, 0.24, 0.28, 0.32, 0.35)  # shares by which tension may have changed at one place
TENSION_DRIFTS = (0.08, 0.12, 0.16, 0.20, 0.25)  # and by which it may have drifted from the first knot to the last
CUT_MM = (MM_PER_INCH, 50.0, 75.0, 100.0, 130.0, 170.0, 250.0)  # by how much a cut may be off, a layer
MOST_STEP_PLACES = 48  # places where tension may have changed, in the whole piece


def segments(model: CovarianceModel, quantities: Sequence[Quantity], counts: Sequence[BeadCount]) -> Iterator[Segment]:
    """Each entry, cut where something was read or counted: faults begun in one segment shift every reading alike."""
    for entry, sums in enumerate(model.entries):
        stops = {quantity.elements for quantity in quantities if quantity.entry == entry} | {0, sums.elements}
        own = [count.segment for count in counts if count.segment.entry == entry]
        stops.update(place for counted in own for place in (counted.first, counted.last))
        for first, last in pairwise(sorted(stops)):
            yield Segment(entry, first, last)


def of_segment(
    model: CovarianceModel, segment: Segment, counted: bool, assumptions: Assumptions
) -> tuple[Hypothesis, ...]:
    """What may have begun, or may still begin, in a segment. `counted`: its beads were counted and found right."""
    if segment.elements <= 0:
        return ()
    beads = () if counted else lost_beads(model, segment, assumptions)
    return (*tension_steps(model, segment, assumptions), *beads, *lost_knots(model, segment, assumptions))


def tension_steps(model: CovarianceModel, segment: Segment, assumptions: Assumptions) -> Iterator[Hypothesis]:
    """Tension that changed at one place of a segment and has stayed so."""
    share = share_of_piece(model, segment)
    places = max(1, min(segment.elements, round(MOST_STEP_PLACES * share)))
    prior = assumptions.prior_tension_step * share / places
    sizes = _either_way(TENSION_STEPS, "tension changed")
    for number in range(places):
        begins = segment.first + round((number + 0.5) * segment.elements / places)
        yield Hypothesis(segment, prior, sizes, _knots_after(model, segment.entry, begins), begins=begins)


def tension_drift(model: CovarianceModel, assumptions: Assumptions) -> tuple[Hypothesis, ...]:
    """Tension that has drifted evenly since the first knot of the piece: weighed whatever is read."""
    *before, total = accumulate((sums.all_knots for sums in model.entries), initial=0)
    if total == 0:
        return ()

    def unit_shift(quantity: Quantity) -> float:
        sums = model.entries[quantity.entry]
        return sums.tension_moment_mm(quantity.elements, quantity.weights, before[quantity.entry]) / total

    sizes = _either_way(TENSION_DRIFTS, "tension drifting")
    return (Hypothesis(Segment(0, 0, 1), assumptions.prior_tension_drift, sizes, unit_shift),)


def lost_beads(model: CovarianceModel, segment: Segment, assumptions: Assumptions) -> Iterator[Hypothesis]:
    """A bead missed or one too many: by itself, or together with its knot, as when a step is counted and not made."""
    sums = model.entries[segment.entry]
    before, after = sums.over(segment.first), sums.over(segment.last)
    all_beads = sum(one.all_beads for one in model.entries)
    knots = [after.knots[number] - before.knots[number] for number in range(len(KNOT_KINDS))]
    knot = model.cord.knot(KNOT_KINDS[knots.index(max(knots))]) if any(knots) else None
    sizes = _one_fewer_or_more("bead missed", "bead too many")
    for key, (length_mm, _) in sums.bead_places.items():
        share = (after.bead_mm[key] - before.bead_mm[key]) / length_mm / all_beads
        if not share:
            continue
        shift = _element_more(segment, length_mm, 0.0)
        yield Hypothesis(segment, 2 * assumptions.prior_bead_lost * share, sizes, shift, key)
        if knot:
            shift = _element_more(segment, length_mm + knot.length_mm, knot.take_up_mm)
            yield Hypothesis(segment, 2 * assumptions.prior_step_lost * share, sizes, shift, key)


def lost_knots(model: CovarianceModel, segment: Segment, assumptions: Assumptions) -> Iterator[Hypothesis]:
    """A knot missed or one too many, and a double knot that was tied as a single one."""
    sums = model.entries[segment.entry]
    before, after = sums.over(segment.first), sums.over(segment.last)
    all_knots = sum(one.all_knots for one in model.entries)
    sizes, single = _one_fewer_or_more("knot missed", "knot too many"), model.cord.single
    for number, kind in enumerate(KNOT_KINDS):
        here = after.knots[number] - before.knots[number]
        if not here:
            continue
        share, knot = here / all_knots, model.cord.knot(kind)
        shift = _element_more(segment, knot.length_mm, knot.take_up_mm)
        yield Hypothesis(segment, 2 * assumptions.prior_knot_lost * share, sizes, shift, kind)
        if kind == "double":
            shift = _element_more(segment, knot.length_mm - single.length_mm, knot.take_up_mm - single.take_up_mm)
            as_single = (FaultSize(-1.0, 1.0, "double as single"),)
            yield Hypothesis(segment, assumptions.prior_double_as_single * share, as_single, shift)


def misreading(number: int, quantity: Quantity, assumptions: Assumptions) -> Hypothesis:
    """Reading `number` (from 0) may have been misread."""
    kind = "free" if quantity.weights == CORD else "strand"
    segment = Segment(quantity.entry, quantity.elements - 1, quantity.elements)
    sizes = _either_way(MISREAD_MM, MISREAD)
    return Hypothesis(segment, assumptions.prior_misread, sizes, lambda _: 0.0, kind, number)


def wrong_cut(entry: int, assumptions: Assumptions) -> Hypothesis:
    """A cord that was cut shorter or longer than anybody thinks: every free-cord reading of its entry says so."""
    share = 1 / (2 * len(CUT_MM))
    shorter = tuple(FaultSize(mm, share, "cut shorter") for mm in CUT_MM)
    longer = tuple(FaultSize(-mm, share, "cut longer") for mm in CUT_MM)
    segment = Segment(entry, 0, 1)
    return Hypothesis(segment, assumptions.prior_cut_misread, (*shorter, *longer), _cord_used_more(entry, 0))


def cord_shortened(model: CovarianceModel, segment: Segment, assumptions: Assumptions) -> Hypothesis:
    """A cord that lost a piece on the way (snipped, frayed, caught): later free-cord readings say so, earlier ones do
    not."""
    sizes = tuple(FaultSize(mm, 1 / len(CUT_MM), "cord shortened") for mm in CUT_MM)
    prior = assumptions.prior_cord_shortened * share_of_piece(model, segment)
    return Hypothesis(segment, prior, sizes, _cord_used_more(segment.entry, segment.last))


def share_of_piece(model: CovarianceModel, segment: Segment) -> float:
    """What part of the whole piece's elements a segment is."""
    return segment.elements / max(1, sum(sums.elements for sums in model.entries))


# -- sizes and shifts -------------------------------------------------------------------------------------------------


def _either_way(sizes: Sequence[float], kind: FaultKind) -> tuple[FaultSize, ...]:
    """These sizes, down and up alike likely."""
    return tuple(FaultSize(sign * size, 1 / (2 * len(sizes)), kind) for size in sizes for sign in (-1, 1))


def _one_fewer_or_more(fewer: FaultKind, more: FaultKind) -> tuple[FaultSize, ...]:
    return FaultSize(-1.0, 0.5, fewer), FaultSize(1.0, 0.5, more)


def _knots_after(model: CovarianceModel, entry: int, begins: int) -> Callable[[Quantity], float]:
    """Length and take-up, weighed, of the knots that were tied after the first `begins` elements of an entry, mm."""

    def unit_shift(quantity: Quantity) -> float:
        if quantity.entry < entry:
            return 0.0
        sums = model.sums(quantity)
        value = quantity.weights[0] * sums.knot_mm + quantity.weights[1] * sums.take_up_mm
        if quantity.entry == entry:
            before = model.entries[entry].over(min(begins, quantity.elements))
            value -= quantity.weights[0] * before.knot_mm + quantity.weights[1] * before.take_up_mm
        return value

    return unit_shift


def _element_more(segment: Segment, length_mm: float, take_up_mm: float) -> Callable[[Quantity], float]:
    """One element more, in everything from the end of the segment on."""
    entry, last = segment.entry, segment.last

    def unit_shift(quantity: Quantity) -> float:
        if quantity.entry != entry or quantity.elements < last:
            return 0.0
        return quantity.weights[0] * length_mm + quantity.weights[1] * take_up_mm

    return unit_shift


def _cord_used_more(entry: int, last: int) -> Callable[[Quantity], float]:
    """1 mm more of cord used, in every cord quantity of an entry after its first `last` elements."""

    def unit_shift(quantity: Quantity) -> float:
        return float(quantity.entry == entry and quantity.weights == CORD and quantity.elements >= last)

    return unit_shift
