"""One-fault stories: what may have gone wrong, where it may have begun, and how it would shift what the ruler says.

Every story moves means and leaves covariances alone, so it is weighed over the forecast's own factor: with readings'
innovation u and a story's shift d, both whitened, the log of its odds against "nothing wrong" is u·d - d·d/2. A shift
is its unit times a size (a share of tension, a bead more or fewer, millimetres misread): all sizes cost one whitening.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from companion.core.plan.covariance import CORD, CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions
from companion.core.values.design import KNOT_KINDS
from companion.core.values.lengths import MM_PER_INCH

FaultKind = Literal[
    "tension changed",
    "tension drifting",
    "bead missed",
    "bead too many",
    "knot missed",
    "knot too many",
    "double as single",
    "misread",
    "cut shorter",
    "cut longer",
    "cord shortened",
]
Size = tuple[float, float, FaultKind]  # size, its share of the cause's prior, what it is called


@dataclass(frozen=True, slots=True)
class Count:
    """The beads in elements (first, last] of an entry were counted: `beads` more than planned, 0: as many. Where a
    count goes over several entries, `beads` is that of all of them, and `part` the same number for each."""

    entry: int
    first: int
    last: int
    beads: int = 0
    part: int = 0

    def holds(self, entry: int, first: int, last: int) -> bool:
        """Whether a stretch lies inside."""
        return entry == self.entry and self.first <= first and last <= self.last


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """Something that may have begun in elements (first, last] of one entry. `prior`: its chance, all sizes together.

    `unit(look)`: by how many mm a size of 1 shifts that quantity; `reading`: the one that was misread, else None.
    """

    entry: int
    first: int
    last: int
    prior: float
    sizes: tuple[Size, ...]
    unit: Callable[[Quantity], float]
    detail: str = ""
    reading: int | None = None
    begins: int | None = None  # after how many elements, where that is one place


def lasting(model: CovarianceModel, assumptions: Assumptions) -> tuple[Hypothesis, ...]:
    """The causes that are weighed whatever is read: they began with the piece."""
    return tuple(_drifts(model, assumptions))


def of_stretch(
    model: CovarianceModel, entry: int, first: int, last: int, counted: bool, assumptions: Assumptions
) -> tuple[Hypothesis, ...]:
    """What may have begun, or may still begin, in elements (first, last] of an entry, between two places that were
    read. `counted`: its beads were counted and found right."""
    share = (last - first) / max(1, sum(running.elements for running in model.entries))
    if share <= 0:
        return ()
    beads = () if counted else _beads(model, entry, first, last, assumptions)
    knots = _knots(model, entry, first, last, assumptions)
    return (*_steps(model, entry, first, last, share, assumptions), *beads, *knots)


def misreading(number: int, quantity: Quantity, assumptions: Assumptions) -> Hypothesis:
    """Reading `number` (from 0) may have been misread."""
    sizes = tuple((sign * mm, 1 / (2 * len(MISREAD_MM)), MISREAD) for mm in MISREAD_MM for sign in (-1, 1))
    kind = "free" if quantity.weights == CORD else "strand"
    first = quantity.elements - 1
    return Hypothesis(
        quantity.entry, first, quantity.elements, assumptions.prior_misread, sizes, _nothing, kind, number
    )


def wrong_cut(entry: int, assumptions: Assumptions) -> Hypothesis:
    """A cord that was cut shorter or longer than anybody thinks: every free-cord reading of its entry says so."""
    each = 1 / (2 * len(CUT_MM))
    short: list[Size] = [(mm, each, "cut shorter") for mm in CUT_MM]
    long: list[Size] = [(-mm, each, "cut longer") for mm in CUT_MM]

    def unit(quantity: Quantity) -> float:
        return float(quantity.entry == entry and quantity.weights == CORD)

    return Hypothesis(entry, 0, 1, assumptions.prior_cut_misread, (*short, *long), unit)


def shortened(entry: int, first: int, last: int, share: float, assumptions: Assumptions) -> Hypothesis:
    """A cord that lost a piece on the way (snipped, frayed, caught) in elements (first, last]: later free-cord readings
    say so, earlier ones do not. `share`: what part of the piece the stretch is."""
    sizes: tuple[Size, ...] = tuple((mm, 1 / len(CUT_MM), "cord shortened") for mm in CUT_MM)

    def unit(quantity: Quantity) -> float:
        return float(quantity.entry == entry and quantity.weights == CORD and quantity.elements >= last)

    return Hypothesis(entry, first, last, assumptions.prior_cord_shortened * share, sizes, unit)


def stretches(
    model: CovarianceModel, quantities: Sequence[Quantity], counts: Sequence[Count]
) -> Iterator[tuple[int, int, int]]:
    """Between the readings and counts of each entry: faults that begin in one stretch shift every reading alike."""
    for entry, running in enumerate(model.entries):
        stops = {quantity.elements for quantity in quantities if quantity.entry == entry} | {0, running.elements}
        stops.update(place for count in counts if count.entry == entry for place in (count.first, count.last))
        for first, last in pairwise(sorted(stops)):
            yield entry, first, last


MISREAD: FaultKind = "misread"
MISREAD_MM = (5.0, 10.0, MM_PER_INCH / 2, MM_PER_INCH)  # ±5 mm, ±1 cm, ±½ in, ±1 in
STEP_SIZES = (0.20, 0.24, 0.28, 0.32, 0.35)
DRIFT_SIZES = (0.08, 0.12, 0.16, 0.20, 0.25)
CUT_MM = (MM_PER_INCH, 50.0, 75.0, 100.0, 130.0, 170.0, 250.0)  # by how much a cut may be off, a layer
MOST_STEP_PLACES = 48  # places where tension may have changed, in the whole piece


def _nothing(quantity: Quantity) -> float:
    return 0.0


def knots_beyond(model: CovarianceModel, entry: int, begin: int, quantity: Quantity) -> float:
    """Length and take-up, weighed, of the knots up to a place that were tied after `begin` in `entry`, mm."""
    if quantity.entry < entry:
        return 0.0
    place = model.sums(quantity)
    value = quantity.weights[0] * place.knot_mm + quantity.weights[1] * place.take_up_mm
    if quantity.entry == entry:
        before = model.entries[entry].over(min(begin, quantity.elements))
        value -= quantity.weights[0] * before.knot_mm + quantity.weights[1] * before.take_up_mm
    return value


def _steps(
    model: CovarianceModel, entry: int, first: int, last: int, share: float, assumptions: Assumptions
) -> list[Hypothesis]:
    places = max(1, min(last - first, round(MOST_STEP_PLACES * share)))
    sizes: tuple[Size, ...] = tuple(
        (sign * size, 1 / (2 * len(STEP_SIZES)), "tension changed") for size in STEP_SIZES for sign in (-1, 1)
    )
    found = []
    for number in range(places):
        begin = first + round((number + 0.5) * (last - first) / places)
        prior = assumptions.prior_tension_step * share / places

        def unit(quantity: Quantity, begin: int = begin) -> float:
            return knots_beyond(model, entry, begin, quantity)

        found.append(Hypothesis(entry, first, last, prior, sizes, unit, begins=begin))
    return found


def _drifts(model: CovarianceModel, assumptions: Assumptions) -> list[Hypothesis]:
    """Tension that has drifted evenly since the first knot of the piece, by so much at its end."""
    before: list[int] = []
    total = 0
    for running in model.entries:
        before.append(total)
        total += running.all_knots
    if total == 0:
        return []

    def unit(quantity: Quantity) -> float:
        entry = model.entries[quantity.entry]
        return entry.tension_moment_mm(quantity.elements, quantity.weights, before[quantity.entry]) / total

    sizes: tuple[Size, ...] = tuple(
        (sign * size, 1 / (2 * len(DRIFT_SIZES)), "tension drifting") for size in DRIFT_SIZES for sign in (-1, 1)
    )
    return [Hypothesis(0, 0, 1, assumptions.prior_tension_drift, sizes, unit)]


def _beads(model: CovarianceModel, entry: int, first: int, last: int, assumptions: Assumptions) -> Iterator[Hypothesis]:
    """A bead missed or one too many: by itself, or together with its knot, as when a step is counted and not made."""
    running = model.entries[entry]
    all_beads = sum(one.all_beads for one in model.entries)
    before, after = running.over(first), running.over(last)
    sizes: tuple[Size, ...] = ((-1.0, 0.5, "bead missed"), (1.0, 0.5, "bead too many"))
    knots = [after.knots[number] - before.knots[number] for number in range(len(KNOT_KINDS))]
    knot = model.cord.knot(KNOT_KINDS[knots.index(max(knots))]) if any(knots) else None
    for key, (length_mm, _) in running.bead_places.items():
        here = (after.bead_mm[key] - before.bead_mm[key]) / length_mm / all_beads
        if not here:
            continue
        yield Hypothesis(
            entry, first, last, 2 * assumptions.prior_bead_lost * here, sizes, _once(entry, last, length_mm, 0.0), key
        )
        if knot:
            unit = _once(entry, last, length_mm + knot.length_mm, knot.take_up_mm)
            yield Hypothesis(entry, first, last, 2 * assumptions.prior_step_lost * here, sizes, unit, key)


def _knots(model: CovarianceModel, entry: int, first: int, last: int, assumptions: Assumptions) -> Iterator[Hypothesis]:
    running = model.entries[entry]
    all_knots = sum(one.all_knots for one in model.entries)
    before, after = running.over(first), running.over(last)
    for number, kind in enumerate(KNOT_KINDS):
        here = after.knots[number] - before.knots[number]
        if not here:
            continue
        figures = model.cord.knot(kind)
        prior = assumptions.prior_knot_lost * here / all_knots
        sizes: tuple[Size, ...] = ((-1.0, 0.5, "knot missed"), (1.0, 0.5, "knot too many"))
        unit = _once(entry, last, figures.length_mm, figures.take_up_mm)
        yield Hypothesis(entry, first, last, 2 * prior, sizes, unit, kind)
        if kind == "double":
            single = model.cord.single
            unit = _once(entry, last, figures.length_mm - single.length_mm, figures.take_up_mm - single.take_up_mm)
            as_single: tuple[Size, ...] = ((-1.0, 1.0, "double as single"),)
            yield Hypothesis(entry, first, last, assumptions.prior_double_as_single * here / all_knots, as_single, unit)


def _once(entry: int, last: int, length_mm: float, take_up_mm: float) -> Callable[[Quantity], float]:
    """The shift of one element more, once the stretch that ends at `last` is passed."""

    def unit(quantity: Quantity) -> float:
        if quantity.entry != entry or quantity.elements < last:
            return 0.0
        return quantity.weights[0] * length_mm + quantity.weights[1] * take_up_mm

    return unit
