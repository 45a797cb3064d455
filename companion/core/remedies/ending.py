"""What can still be done at the end of a strand: bare cord or a small bead before the closure, or another closure."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.joint import EndFigures
from companion.core.closures.table import CLOSURES
from companion.core.cord.holes import least_hole_mm
from companion.core.plan.ends import strand_end
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, Side
from companion.core.remedies.remedy import Idea
from companion.core.values.design import Bead, End, Space, Strand
from companion.core.values.show_lengths import difference, display_unit

LEAST_MM, MOST_BARE_MM = 1.0, 10.0  # bare cord beyond a few beads' gap shows; our own choice
SMALL_BEAD_MM, MOST_SPACERS = 5.0, 3
EFFORT_CLOSURE, EFFORT_BARE, EFFORT_SPACER, EFFORT_A_MM = 1.0, 1.5, 2.0, 0.2


def at_the_end(basis: RemedyBasis, off_mm: float) -> Iterator[Idea]:
    """What makes up for the length that is missing, mm (below nothing: that is too much), at the last end."""
    side = basis.layout.sides[-1]
    if not side.open:
        return
    yield from _closure(basis, side, off_mm)
    if off_mm >= LEAST_MM:
        yield from _bare(basis, side, off_mm)
        yield from _spacers(basis, side, off_mm)


def _closure(basis: RemedyBasis, side: Side, off_mm: float) -> Iterator[Idea]:
    gives = CLOSURES[basis.plan.strands[side.entry].end_closure].gives
    change_mm = min(off_mm, gives.longer_mm) if off_mm > 0 else max(off_mm, -gives.shorter_mm)
    if abs(change_mm) < LEAST_MM:
        return
    word, how = ("longer", gives.longer_how) if change_mm > 0 else ("shorter", gives.shorter_how)
    length = difference(abs(change_mm), display_unit(basis.plan.unit))
    effort = EFFORT_CLOSURE + EFFORT_A_MM * abs(change_mm)
    yield Idea(f"A closure {length} {word} ({how})", ("closure",), effort, side.entry, closure_mm=change_mm)


def _bare(basis: RemedyBasis, side: Side, off_mm: float) -> Iterator[Idea]:
    bare_mm = round(2 * min(off_mm, MOST_BARE_MM)) / 2
    length = difference(bare_mm, display_unit(basis.plan.unit))
    end = len(side.elements)
    edit = Edit(side.entry, end, end, (Space(bare_mm),))
    words = f"{length[:1].upper()}{length[1:]} of bare cord before the closure"
    yield Idea(words, ("bare",), EFFORT_BARE + EFFORT_A_MM * bare_mm, side.entry, (edit,))


def _spacers(basis: RemedyBasis, side: Side, off_mm: float) -> Iterator[Idea]:
    """Small beads that the design has already: the kind and number that come nearest."""
    tray = {element.key for strand in basis.plan.strands for element in strand.elements if isinstance(element, Bead)}
    small = [kind for kind in basis.plan.beads if kind.key in tray and kind.length_mm <= SMALL_BEAD_MM]
    choices = [
        (abs(off_mm - count * kind.length_mm), count, kind)
        for kind in small
        if _passes(basis, side, kind.hole_mm)
        for count in range(1, MOST_SPACERS + 1)
    ]
    if not choices:
        return
    _, count, kind = min(choices, key=lambda choice: choice[:2])
    end = len(side.elements)
    edit = Edit(side.entry, end, end, (Bead(kind.key),) * count)
    more = "One more" if count == 1 else f"{'Two' if count == 2 else 'Three'} more"
    effort = EFFORT_SPACER + 0.5 * (count - 1)
    yield Idea(f"{more} {kind.name} before the closure", ("spacer",), effort, side.entry, (edit,))


def _passes(basis: RemedyBasis, side: Side, hole_mm: float | None) -> bool:
    """Whether all the cords that a bead beside the closure has to pass do pass it; a hole not given is not checked."""
    end = CLOSURES[basis.plan.strands[side.entry].end_closure].end
    cords = basis.plan.cord.layers * (1 + end.passes)
    return hole_mm is None or hole_mm >= least_hole_mm(basis.plan.cord.diameter_mm, cords)


def other_end(basis: RemedyBasis) -> Iterator[Idea]:
    """Another closure at the end that is made last, the one that needs the least cord: where a clasp closes it."""
    side = basis.layout.sides[-1]
    strand = basis.plan.strands[side.entry]
    now = CLOSURES[strand.end_closure]
    if not side.open or now.gives.longer_mm == 0 or now.both_ends:
        return
    has_mm = strand.end_closure_cord_mm + strand.end_tail_mm
    clasps = [one for one in CLOSURES.values() if one.gives.longer_mm and not one.both_ends and not one.end.passes]
    ends = [(one, _end_figures(basis, side, one.name)) for one in clasps]
    best, figures = min(ends, key=lambda one: one[1].cord_mm + one[1].tail_mm)
    if figures.cord_mm + figures.tail_mm >= has_mm - LEAST_MM:
        return
    words = f"End it with a {best.name} instead of {now.name}"
    change_mm = figures.length_mm - _end_figures(basis, side, now.name).length_mm
    yield Idea(words, ("other closure",), 3.0, side.entry, closure_mm=change_mm, end_closure=best.name)


def _end_figures(basis: RemedyBasis, side: Side, closure: str) -> EndFigures:
    plan = basis.plan
    kinds = {kind.key: kind for kind in plan.beads}
    end = strand_end(
        Strand((), end=End(closure)), False, reversed(side.elements), kinds, plan.cord, display_unit(plan.unit)
    )
    return end.figures
