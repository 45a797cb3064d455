"""Other knots for the rest: doubles for singles, singles for doubles, or a knot at every third bead only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, RemainingSide
from companion.core.remedies.remedy import Candidate
from companion.core.values.design import Bead, Knot, KnotKind
from companion.core.values.text import count_of

EFFORT, EFFORT_A_KNOT, EFFORT_FEWER_KNOTS = 1.5, 0.05, 2.0
EVERY = 3


def other_knots(basis: RemedyBasis, off_mm: float, taken: Sequence[Edit] = ()) -> Iterator[Candidate]:
    """Another kind of knot for some of the last knots, as many as make up best for `off_mm`, the length that is
    missing.

    `taken`: edits that are made as well; knots that they leave out no longer count.
    """
    old: KnotKind = "single" if off_mm > 0 else "double"
    new: KnotKind = "double" if off_mm > 0 else "single"
    each_mm = basis.mm(Knot(new)) - basis.mm(Knot(old))
    if each_mm * off_mm > 0:
        yield from _exchanged(basis, old, new, off_mm / each_mm, taken)


def singles_for_doubles(basis: RemedyBasis) -> Iterator[Candidate]:
    """Single knots for all the double knots still to come, to save cord."""
    yield from _exchanged(basis, "double", "single", float("inf"), ())


def _exchanged(
    basis: RemedyBasis, old: KnotKind, new: KnotKind, wanted: float, taken: Sequence[Edit]
) -> Iterator[Candidate]:
    """The last `wanted` of the `old` knots replaced by `new`, in the last side that has any."""
    for side, middle in reversed(list(basis.layout.workable())):
        places = [place for place in _knots_left(basis, side, old, new, middle) if not _inside(side, place, taken)]
        paired = middle is not None
        count = len(places) if wanted == float("inf") else min(len(places), round(wanted / (1 + paired)))
        edits = _edits(basis, side, places[len(places) - count :], (Knot(new),), paired)
        if edits:
            uneven = not basis.layout.still_mirrored(edits)
            change = _words(old, new, count, count == _all(side, old), paired)
            effort = EFFORT + EFFORT_A_KNOT * len(edits)
            yield Candidate(change, ("knots",), effort, side.entry, edits, uneven=uneven)
            return


def every_third(basis: RemedyBasis) -> Iterator[Candidate]:
    """A knot at every third bead only, where the design has one at every bead: to save cord."""
    for side, middle in basis.layout.workable():
        edits = _edits(basis, side, _between(side, middle), (), middle is not None)
        if edits:
            uneven = not basis.layout.still_mirrored(edits)
            effort = EFFORT + EFFORT_FEWER_KNOTS + EFFORT_A_KNOT * len(edits)
            change = "a knot only at every third bead from here on"
            yield Candidate(change, ("fewer knots",), effort, side.entry, edits, uneven=uneven)
            return


def _edits(
    basis: RemedyBasis, side: RemainingSide, places: Sequence[int], new: tuple[Knot, ...], paired: bool
) -> tuple[Edit, ...]:
    """The knots at those places replaced by `new`, in the mirror too if `paired`; nothing if that is not possible."""
    edits = tuple(Edit(side.entry, place, place + 1, new) for place in places)
    return (basis.layout.in_pairs(edits) or ()) if paired else edits


def _words(old: KnotKind, new: KnotKind, count: int, everything: bool, paired: bool) -> str:
    if everything:
        return f"a {new} knot instead of every {old} one that is left"
    if paired:
        many = "knot" if count == 1 else count_of(count, "knot")
        return f"a {new} knot instead of a {old} one for the {many} on each side of the middle"
    return f"a {new} knot instead of a {old} one for the {'last one' if count == 1 else f'last {count}'}"


def _all(side: RemainingSide, kind: KnotKind) -> int:
    return side.elements[side.made :].count(Knot(kind))


def _inside(side: RemainingSide, place: int, taken: Sequence[Edit]) -> bool:
    return any(edit.entry == side.entry and edit.start <= place < edit.stop for edit in taken)


def _knots_left(basis: RemedyBasis, side: RemainingSide, old: KnotKind, new: KnotKind, stop: int | None) -> list[int]:
    """Where the knots of one kind that the other kind could replace are still to come, in the order they are tied."""
    elements = side.elements
    last = len(elements) if stop is None else stop
    return [
        place
        for place in range(side.made, last)
        if elements[place] == Knot(old)
        and all(basis.holds(Knot(new), near.key) for near in _neighbours(side, place) if isinstance(near, Bead))
    ]


def _neighbours(side: RemainingSide, place: int) -> Sequence[object]:
    return side.elements[max(0, place - 1) : place] + side.elements[place + 1 : place + 2]


def _between(side: RemainingSide, stop: int | None) -> list[int]:
    """The knots to leave out: of those between two beads that both have a knot, all but every third."""
    elements, found, number = side.elements, [], 0
    last = len(elements) - 1 if stop is None else min(stop, len(elements) - 1)
    for place in range(max(1, side.made), last):
        if not isinstance(elements[place], Knot):
            continue
        lone = place == 1 or not isinstance(elements[place - 2], Bead)
        if lone and isinstance(elements[place - 1], Bead) and isinstance(elements[place + 1], Bead):
            number += 1
            if number % EVERY:
                found.append(place)
        else:
            number = 0
    return found
