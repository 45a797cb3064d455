"""What would make a design come out, in words: each way with the length that it gives."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from companion.core.draft.cures import Cure, Cured, has_tight_holes, misses, off_mm
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import DisplayUnit, difference, display_unit, show
from companion.core.values.text import count_word, join_words, plain, plural, sentences
from companion.core.words.notices import Notice

MOST_NAME = 40


def cures_notice(plan: Plan, cured: Sequence[Cured]) -> Iterator[Notice]:
    """What doesn't come out, and the ways, numbered: "8 mm too long: 1 a clasp 8 mm shorter · 2 …"."""
    lead = ", ".join(_wrong(plan))
    if not lead:
        return
    ways = " · ".join(f"{number} {cured_words(one)}" for number, one in enumerate(cured, 1))
    if ways:
        yield Notice("watch", f"{lead}: {ways}.")
    else:
        yield Notice("watch", f"{lead}. Change the length, the beads or the pattern.")


def _wrong(plan: Plan) -> Iterator[str]:
    if misses(plan):
        over_mm = off_mm(plan)
        yield f"{difference(over_mm, display_unit(plan.unit))} too {'long' if over_mm > 0 else 'short'}"
    if has_tight_holes(plan):
        yield "the cord fills the holes"


def cured_words(one: Cured) -> str:
    """A way, with the length it gives."""
    unit = display_unit(one.plan.unit)
    words = _way(one.cure if one.cure.count else replace(one.cure, count=one.plan.fit or 1), unit)
    if one.cure.kind in ("ease", "length", "tolerance"):
        return words  # it stays as long as it is
    return f"{words} ({show(one.plan.finished_length_mm, unit)})"


def taken_words(one: Cured) -> str:
    """That a way was taken."""
    return sentences(f"Taken: {cured_words(one)}.", "u undoes it.")


def _way(cure: Cure, unit: DisplayUnit) -> str:
    sides = " on each side" if cure.each_side else ""
    match cure.kind:
        case "clasp":
            return f"a clasp {difference(cure.by_mm, unit)} {'longer' if cure.by_mm > 0 else 'shorter'}"
        case "one fewer":
            return f"one {plain(cure.beads[0][0], MOST_NAME)} fewer{sides}"
        case "count":
            return f"{_repeats(cure.count)}{sides}"
        case "repeats":
            beads = [f"{count} {plain(plural(name, count), MOST_NAME)}" for name, count in cure.beads]
            return f"{join_words([_repeats(cure.count), *beads])}{sides}"
        case "ease":
            return f"an ease of {show(cure.by_mm, unit)}"
        case "length":
            return f"a length of {show(cure.by_mm, unit)}"
        case "tolerance":
            return f"let it be within {show(cure.by_mm, unit)}"
        case "one cord":
            return "one cord alone"


def _repeats(count: int) -> str:
    return f"{count_word(count)} {plural('repeat', count)}"
