"""Other knots for the rest: doubles for singles, singles for doubles, or a knot at every third bead only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, Side
from companion.core.remedies.remedy import Idea
from companion.core.values.design import Bead, Knot, KnotKind

EFFORT, EFFORT_A_KNOT = 1.5, 0.05
EVERY = 3


def by_knots(basis: RemedyBasis, off_mm: float, taken: Sequence[Edit] = ()) -> Iterator[Idea]:
    """Another kind of knot for as many of the last ones as bring the length nearest to what is missing, mm.

    `taken`: edits that are made besides; knots that they leave out are no longer there.
    """
    old: KnotKind = "single" if off_mm > 0 else "double"
    new: KnotKind = "double" if off_mm > 0 else "single"
    each_mm = basis.mm(Knot(new)) - basis.mm(Knot(old))
    if each_mm * off_mm > 0:
        yield from _exchanged(basis, old, new, off_mm / each_mm, taken)


def fewer_doubles(basis: RemedyBasis) -> Iterator[Idea]:
    """Single knots for all the double ones that are left, for the cord they save."""
    yield from _exchanged(basis, "double", "single", float("inf"), ())


def _exchanged(
    basis: RemedyBasis, old: KnotKind, new: KnotKind, wanted: float, taken: Sequence[Edit]
) -> Iterator[Idea]:
    for side, middle in reversed(list(basis.layout.workable())):
        places = [place for place in _knots_left(basis, side, old, new, middle) if not _inside(side, place, taken)]
        paired = middle is not None
        count = len(places) if wanted == float("inf") else min(len(places), round(wanted / (1 + paired)))
        edits: tuple[Edit, ...] | None = tuple(
            Edit(side.entry, place, place + 1, (Knot(new),)) for place in places[len(places) - count :]
        )
        if edits and paired:
            edits = basis.layout.in_pairs(edits)
        if not edits:
            continue
        uneven = not basis.layout.still_mirrored(edits)
        words = _words(old, new, count, count == _all(side, old), paired)
        effort = EFFORT + EFFORT_A_KNOT * len(edits)
        yield Idea(words, ("knots",), effort, side.entry, edits, uneven=uneven)
        return


def _words(old: KnotKind, new: KnotKind, count: int, everything: bool, paired: bool) -> str:
    if everything:
        return f"A {new} knot instead of every {old} one that is left"
    last = "last one" if count == 1 else f"last {count}"
    if paired:
        many = "knot" if count == 1 else f"{count} knots"
        return f"A {new} knot instead of a {old} one for the {many} on each side of the middle"
    return f"A {new} knot instead of a {old} one for the {last}"


def _all(side: Side, kind: KnotKind) -> int:
    return side.elements[side.made :].count(Knot(kind))


def _inside(side: Side, place: int, taken: Sequence[Edit]) -> bool:
    return any(edit.entry == side.entry and edit.start <= place < edit.stop for edit in taken)


def _knots_left(basis: RemedyBasis, side: Side, old: KnotKind, new: KnotKind, stop: int | None) -> list[int]:
    """Where knots of one kind are still to come that the other kind may stand for, in the order they are tied."""
    elements = side.elements
    last = len(elements) if stop is None else stop
    return [
        place
        for place in range(side.made, last)
        if elements[place] == Knot(old)
        and all(basis.holds(Knot(new), near.key) for near in _neighbours(side, place) if isinstance(near, Bead))
    ]


def _neighbours(side: Side, place: int) -> Sequence[object]:
    return side.elements[max(0, place - 1) : place] + side.elements[place + 1 : place + 2]


def every_third(basis: RemedyBasis) -> Iterator[Idea]:
    """A knot at every third bead only, where every bead has one: for the cord it saves."""
    for side, middle in basis.layout.workable():
        edits: tuple[Edit, ...] | None = tuple(
            Edit(side.entry, place, place + 1, ()) for place in _between(side, middle)
        )
        if edits and middle is not None:
            edits = basis.layout.in_pairs(edits)
        if not edits:
            continue
        uneven = not basis.layout.still_mirrored(edits)
        effort = EFFORT + 2 + EFFORT_A_KNOT * len(edits)
        words = "A knot only at every third bead in what is left"
        yield Idea(words, ("fewer knots",), effort, side.entry, edits, uneven=uneven)
        return


def _between(side: Side, stop: int | None) -> list[int]:
    """Knots on both sides of which a bead stands that has a knot of its own: all but every third of them."""
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
