"""What can still be changed at the end of a strand: bare cord or small beads before the closure, or the closure."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.joint import EndFigures
from companion.core.closures.table import CLOSURES
from companion.core.cord.holes import least_hole_mm
from companion.core.plan.ends import strand_end
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, RemainingSide
from companion.core.remedies.remedy import Candidate
from companion.core.values.design import Bead, BeadKind, Element, End, Space, Strand
from companion.core.values.measures.show_lengths import difference, display_unit
from companion.core.values.text import count_word, plural

LEAST_MM, MOST_BARE_MM = 1.0, 10.0  # bare cord beyond a few beads' gap shows; our own choice
SMALL_BEAD_MM, MOST_SPACERS, MOST_MORE = 5.0, 3, 2
# Closures that the work is drawn up against, or tied close to: no bare cord can be left there.
DRAWN_UP = ("French wire and clasp", "crimp and clasp", "endless")
EFFORT_CLOSURE, EFFORT_BARE, EFFORT_A_MM = 1.0, 1.5, 0.2
EFFORT_SPACER, EFFORT_A_SPACER = 2.0, 0.5  # the first, and each further one
EFFORT_OTHER_CLOSURE = 3.0


def at_the_end(basis: RemedyBasis, off_mm: float) -> Iterator[Candidate]:
    """Changes at the last end that make up for the missing length, mm (negative if the strand is too long)."""
    side = basis.layout.sides[-1]
    if not side.open:
        return
    yield from _closure(basis, side, off_mm)
    if off_mm >= LEAST_MM:
        if basis.plan.strands[side.entry].end_closure in DRAWN_UP:
            yield from _more_beads(basis, side, off_mm)
        else:
            yield _bare(basis, side, off_mm)
        yield from _spacers(basis, side, off_mm)


def _closure(basis: RemedyBasis, side: RemainingSide, off_mm: float) -> Iterator[Candidate]:
    gives = CLOSURES[basis.plan.strands[side.entry].end_closure].gives
    change_mm = min(off_mm, gives.longer_mm) if off_mm > 0 else max(off_mm, -gives.shorter_mm)
    if abs(change_mm) < LEAST_MM:
        return
    word, how = ("longer", gives.longer_how) if change_mm > 0 else ("shorter", gives.shorter_how)
    length = difference(change_mm, display_unit(basis.plan.unit))
    effort = EFFORT_CLOSURE + EFFORT_A_MM * abs(change_mm)
    yield Candidate(f"a closure {length} {word} ({how})", ("closure",), effort, side.entry, closure_mm=change_mm)


def _bare(basis: RemedyBasis, side: RemainingSide, off_mm: float) -> Candidate:
    bare_mm = round(2 * min(off_mm, MOST_BARE_MM)) / 2
    length = difference(bare_mm, display_unit(basis.plan.unit))
    effort = EFFORT_BARE + EFFORT_A_MM * bare_mm
    return _added(basis, side, (Space(bare_mm),), f"{length} of bare cord", "bare", effort)


def _more(basis: RemedyBasis, side: RemainingSide, kind: BeadKind, count: int) -> Candidate:
    """So many more of that bead."""
    words = f"{count_word(count)} more {plural(kind.name, count)}"
    effort = EFFORT_SPACER + EFFORT_A_SPACER * (count - 1)
    return _added(basis, side, (Bead(kind.key),) * count, words, "spacer", effort)


def _added(
    basis: RemedyBasis, side: RemainingSide, new: tuple[Element, ...], words: str, family: str, effort: float
) -> Candidate:
    """These elements after all others of a side."""
    end = len(side.elements)
    edit = Edit(side.entry, end, end, new)
    uneven = not basis.layout.still_mirrored((edit,))
    return Candidate(f"{words} before the closure", (family,), effort, side.entry, (edit,), uneven=uneven)


def _more_beads(basis: RemedyBasis, side: RemainingSide, off_mm: float) -> Iterator[Candidate]:
    """One or two more of the bead beside the closure, where no bare cord can be left."""
    last = next((element for element in reversed(side.elements) if isinstance(element, Bead)), None)
    kind = basis.kinds[last.key] if last else None
    if kind is not None and kind.length_mm > SMALL_BEAD_MM and _passes(basis, side, kind.hole_mm):
        yield _more(basis, side, kind, min(MOST_MORE, max(1, round(off_mm / kind.length_mm))))


def _spacers(basis: RemedyBasis, side: RemainingSide, off_mm: float) -> Iterator[Candidate]:
    """Small beads that the design already uses: the kind and the number that come nearest."""
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
    yield _more(basis, side, kind, count)


def _passes(basis: RemedyBasis, side: RemainingSide, hole_mm: float | None) -> bool:
    """Whether the bead beside the closure lets all the cords there through. A hole whose size is not given always
    does."""
    end = CLOSURES[basis.plan.strands[side.entry].end_closure].end
    cords = basis.plan.cord.layers * (1 + end.passes)
    return hole_mm is None or hole_mm >= least_hole_mm(basis.plan.cord.diameter_mm, cords)


def other_closure(basis: RemedyBasis) -> Iterator[Candidate]:
    """If the end made last is closed with a clasp: the closure with a clasp that needs the least cord instead."""
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
    yield Candidate(
        f"end it with a {best.name} instead of {now.name}",
        ("other closure",),
        EFFORT_OTHER_CLOSURE,
        side.entry,
        closure_mm=figures.length_mm - _end_figures(basis, side, now.name).length_mm,
        end_closure=best.name,
    )


def _end_figures(basis: RemedyBasis, side: RemainingSide, closure: str) -> EndFigures:
    plan = basis.plan
    kinds = {kind.key: kind for kind in plan.beads}
    closed, inward = Strand((), end=End(closure)), reversed(side.elements)
    return strand_end(closed, False, inward, kinds, plan.cord, display_unit(plan.unit)).figures
