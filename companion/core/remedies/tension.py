"""A little looser or tighter from here on: what a maker tries first, with how much."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from msgspec.structs import replace

from companion.core.journal.piece import Join
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.remedy import Remedy
from companion.core.values.design import Bead, Element, Knot, KnotKind
from companion.core.values.expected import Z95
from companion.core.values.measures.show_lengths import display_unit, show, show_plus_minus

MOST_CHANGE = 0.15  # of a knot's length: more is no longer "a little"; our own choice
LEAST_CHANGE = 0.01
LEAST_KNOTS = 3
HIT_SD = 1 / 3  # hands told to change by a tenth change by 7 to 13 in a hundred, two times in three; our own choice
# Three changes that stand for all that the hands may make of it, in sd about what was asked, and the weight of each:
# they have its mean, its variance, and no skewness (Gauss and Hermite's rule of three points).
HITS = ((-(3**0.5), 1 / 6), (0.0, 2 / 3), (3**0.5, 1 / 6))
SPANS = (10, 20, 50)  # knots that are measured together, where one alone is too short for the ruler's fractions


def other_tension(baseline: Baseline) -> Iterator[Remedy]:
    """All remaining knots a little longer or shorter, by as much as makes up for what is missing; nothing if that is
    more than a little. The plan stays the same: the next reading shows whether the hands follow."""
    basis = baseline.basis(baseline.plan.longest)
    left = list(_knots_left(basis))
    knots_mm = sum(basis.mm(knot) for _, knot in left)
    if len(left) < LEAST_KNOTS or knots_mm <= 0:
        return
    change = -baseline.over_mm / knots_mm
    if not LEAST_CHANGE <= abs(change) <= MOST_CHANGE:
        return
    kind = Counter(knot.kind for _, knot in left).most_common(1)[0][0]
    cord_mm = {entry: 0.0 for entry, _ in left}
    for entry, knot in left:
        cord_mm[entry] += change * basis.cord_mm(knot)
    words, more_mm = _words(basis, kind, change), sum(cord_mm.values())
    draft = Remedy("", words, 0.0, 0.0, None, more_mm, 0.0, advice=True, knots_longer=change, family=("tension",))
    remedy = _mixed(
        [(weight, _forecast(baseline, draft, -baseline.over_mm, cord_mm, 1 + off * HIT_SD)) for off, weight in HITS],
        baseline.plan.unit,
    )
    if baseline.is_bettered_by(remedy):
        yield remedy


def _knots_left(basis: RemedyBasis) -> Iterator[tuple[int, Knot]]:
    """Every knot that is not tied yet, with its entry."""
    for side in basis.layout.sides:
        if side.open:
            yield from ((side.entry, knot) for knot in side.elements[side.made :] if isinstance(knot, Knot))


def _forecast(baseline: Baseline, draft: Remedy, gain_mm: float, cord_mm: dict[int, float], share: float) -> Remedy:
    """What to expect if the strand comes out that much longer and takes that much more cord, in each entry. `share`:
    how much of the change the hands really make.

    The length is added to the closure, and the cord is taken off as a join of negative length, so that the readings
    taken so far keep their meaning.
    """
    plan, piece = baseline.plan, baseline.piece
    strands = list(plan.strands)
    last = plan.longest[-1]
    strands[last] = replace(strands[last], closure_length_mm=strands[last].closure_length_mm + share * gain_mm)
    less = tuple(
        Join(max(piece.done, plan.piece_step(entry, 1)), -share * mm, piece.readings) for entry, mm in cord_mm.items()
    )
    supposed = replace(piece, joins=(*piece.joins, *less))
    return baseline.with_outlook(draft, baseline.forecast(replace(plan, strands=tuple(strands)), supposed))


def _mixed(hits: Sequence[tuple[float, Remedy]], unit: str) -> Remedy:
    """One remedy for everything that the hands may make of it, each outcome with its weight."""

    def mean(figure: Callable[[Remedy], float]) -> float:
        return sum(weight * figure(one) for weight, one in hits)

    middle = hits[len(hits) // 2][1]
    finished_mm = mean(lambda one: one.finished_mm)
    half95_mm = mean(lambda one: one.half95_mm**2 + (Z95 * (one.finished_mm - finished_mm)) ** 2) ** 0.5
    return replace(
        middle,
        text=f"{middle.what}. It would finish at {show_plus_minus(finished_mm, half95_mm, display_unit(unit))}.",
        finished_mm=finished_mm,
        half95_mm=half95_mm,
        p_in_tolerance=mean(lambda one: one.p_in_tolerance or 0.0),
        p_run_out=mean(lambda one: one.p_run_out),
        p_short_to_hold=mean(lambda one: one.p_short_to_hold),
    )


def _words(basis: RemedyBasis, kind: KnotKind, change: float) -> str:
    """ "Tie a little looser from here on: knots of 2.2 mm instead of 2.0 mm". In inches one knot is too short for the
    ruler: "Tie a little looser from here on. The next 10 knots with their beads should measure 4 in, not 3 7/8 in"."""
    begin = f"Tie a little {'looser' if change > 0 else 'tighter'} from here on"
    if display_unit(basis.plan.unit) == "in":
        return f"{begin}. {_of_a_span(basis, change)}"
    now_mm = basis.mm(Knot(kind))
    then_mm = now_mm * (1 + change)
    places = 1 if f"{now_mm:.1f}" != f"{then_mm:.1f}" else 2
    named = "knots" if kind == "single" else f"{kind} knots"
    return f"{begin}: {named} of {then_mm:.{places}f} mm instead of {now_mm:.{places}f} mm"


def _of_a_span(basis: RemedyBasis, change: float) -> str:
    """How long the next knots and what lies between them are to be: knots never lie in a row, but beside their
    beads."""
    left = (one.elements[one.made :] for one in basis.layout.sides if one.open)
    coming = next(elements for elements in left if any(isinstance(one, Knot) for one in elements))
    places = [place for place, element in enumerate(coming, start=1) if isinstance(element, Knot)]
    counts = [count for count in SPANS if count < len(places)] + [len(places)]
    shown = [(count, *_span(basis, coming[: places[count - 1]], change)) for count in counts]
    count, then, now = next((one for one in shown if one[1] != one[2]), shown[-1])
    beads = " with their beads" if any(isinstance(element, Bead) for element in coming[: places[count - 1]]) else ""
    which = "next knot" if count == 1 else f"next {count} knots"
    return f"The {which}{beads} should measure {then}, not {now}"


def _span(basis: RemedyBasis, elements: Sequence[Element], change: float) -> tuple[str, str]:
    """How long these are to be, and would be as they are tied today; in inches."""
    now_mm = sum(map(basis.mm, elements))
    more_mm = sum(change * basis.mm(element) for element in elements if isinstance(element, Knot))
    return show(now_mm + more_mm, "in"), show(now_mm, "in")
