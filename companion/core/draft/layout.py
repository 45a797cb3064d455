"""The layout that the fields of a pattern describe: letters, where knots go, how often it comes, the middle."""

from __future__ import annotations

from companion.core.draft.draft import Draft, strands_of
from companion.core.draft.pattern import Mirrored, PatternError, Repeated, Typed, has_groups, read_pattern
from companion.core.values.design import Bead, Knot

AS_TYPED = "where I type a space"
BOTH_SIDES = "on both sides of every bead"
AFTER = {"after every bead": 1, "after every 2nd": 2, "after every 3rd": 3, "after every 4th": 4, "after every 5th": 5}
KNOT_RULES = (BOTH_SIDES, *AFTER, AS_TYPED)
FIT = "fit"
_KNOT = Knot("single")


def layout_of(draft: Draft, number: int = 0) -> tuple[Typed, ...]:
    """The layout of one of the draft's strands (from 0). Raises PatternError.

    A pattern with brackets of its own says all itself; without them the fields beside it say where knots go, how often
    it comes, and what stands in the middle of the two sides.
    """
    letters = [bead.letter for bead in draft.beads]
    strand = strands_of(draft)[number]
    pattern = read_pattern(strand.pattern, letters)
    if has_groups(strand.pattern):
        return pattern
    once = _with_knots(pattern, strand.knots)
    count = _count(strand.times)
    side: tuple[Typed, ...] = once if count == 1 else (Repeated(count, once),)
    lead: tuple[Typed, ...] = (_KNOT,) if strand.knots == BOTH_SIDES else ()
    if not strand.middle.strip():
        return (*lead, *side)
    middle = tuple(item for item in read_pattern(strand.middle, letters) if strand.knots == AS_TYPED or item != _KNOT)
    return (*lead, Mirrored(side, middle), *lead)


def _with_knots(pattern: tuple[Typed, ...], rule: str) -> tuple[Typed, ...]:
    if rule == AS_TYPED:
        return pattern
    every, beads, found = AFTER.get(rule, 1), 0, []
    for item in pattern:
        if item == _KNOT:
            continue
        found.append(item)
        if isinstance(item, Bead):
            beads += 1
            if beads % every == 0:
                found.append(_KNOT)
    return tuple(found)


def _count(times: str) -> int | None:
    """How often the pattern comes; None: as often as fits. Raises PatternError."""
    text = times.strip().lower()
    if text in ("", FIT):
        return None
    if not (text.isascii() and text.isdecimal() and 1 <= int(text) <= 100_000):
        raise PatternError(0, "How often: fit, or a whole number from 1 up.")
    return int(text)
