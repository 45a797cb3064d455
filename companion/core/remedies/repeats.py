"""One repeat more or fewer, or several: what repeats in the rest of a strand, changed in pairs if it is a mirror."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import ceil, floor

from msgspec import Struct

from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, RemainingSide
from companion.core.remedies.remedy import Candidate
from companion.core.values.design import Bead, Element, Knot
from companion.core.values.element_words import string_step_text
from companion.core.values.text import count_word, plural, uncapitalised

MOST_REPEATS = 12
LONGEST_PERIOD = 12  # steps
COVERS = 0.5  # a repeat is one where it makes up so much of what is left
MOST_STEPS = 5  # steps of different kinds that are tried where nothing repeats
EFFORT_PAIRED = 1.2  # of a repeat that changes on both sides of a mirror, a repeat on one side being 1
EFFORT_BROKEN_PATTERN = 1.0  # besides, where it is only a part of a repeat


class RepeatUnit(Struct, frozen=True):
    """Something that repeats: its elements, where each copy begins in what is left, and whether it is a whole repeat.

    `regular`: whether the rest repeats at all, so that adding a part of a repeat breaks the pattern.
    """

    elements: tuple[Element, ...]
    places: tuple[int, ...]
    whole: bool
    regular: bool = True

    @property
    def most_fewer(self) -> int:
        """How many may be left out; one always stays."""
        return min(len(self.places) - 1, MOST_REPEATS)


def more_or_fewer_repeats(basis: RemedyBasis, off_mm: float) -> Iterator[Candidate]:
    """More repeats or fewer: the two numbers whose length comes nearest to what is missing, mm, just below it and just
    above."""
    for side, unit, paired in _units(basis):
        each_mm = sum(map(basis.mm, unit.elements)) * (2 if paired else 1)
        if each_mm <= 0:
            continue
        wanted = off_mm / each_mm
        for times in sorted({floor(wanted), ceil(wanted)} - {0}):
            if -unit.most_fewer <= times <= MOST_REPEATS:
                yield from _candidates(basis, side, unit, times, paired)


def fewer_repeats(basis: RemedyBasis, short_mm: float) -> Iterator[Candidate]:
    """As many repeats fewer as save that much cord, mm a layer."""
    for side, unit, paired in _units(basis):
        each_mm = sum(map(basis.cord_mm, unit.elements))
        times = ceil(short_mm / each_mm) if each_mm > 0 else 0
        if 0 < times <= unit.most_fewer:
            yield from _candidates(basis, side, unit, -times, paired)


def _units(basis: RemedyBasis) -> Iterator[tuple[RemainingSide, RepeatUnit, bool]]:
    """What repeats in each side that is not done, and whether it must change in pairs."""
    for side, middle in basis.layout.workable():
        for unit in units_of(side.elements, side.steps_left(middle)):
            yield side, unit, middle is not None


def _candidates(
    basis: RemedyBasis, side: RemainingSide, unit: RepeatUnit, times: int, paired: bool
) -> Iterator[Candidate]:
    for edits in _edits(side, unit, times):
        both = basis.layout.in_pairs(edits) if paired else edits
        if both is None:
            continue
        uneven = not basis.layout.still_mirrored(both)
        if paired and uneven:
            continue
        effort = abs(times) * (EFFORT_PAIRED if paired else 1.0) * (1 if unit.whole else 1 + EFFORT_BROKEN_PATTERN)
        change = _words(basis, unit, times, paired)
        breaks = _breaks(basis, both, unit)
        yield Candidate(change, ("repeats",), effort, side.entry, both, uneven=uneven, breaks=breaks)
        return


def _words(basis: RemedyBasis, unit: RepeatUnit, times: int, paired: bool) -> str:
    more = "more" if times > 0 else "fewer"
    where = "on each side" if paired else "from here on"
    return f'{count_word(abs(times))} {more} "{_named(basis, unit)}" {where}'


def _named(basis: RemedyBasis, unit: RepeatUnit) -> str:
    """A repeat written out, with every knot: "slate, double knot, bone, double knot"."""
    named: list[str] = []
    for element, group in groupby(unit.elements):
        count = len(list(group))
        if isinstance(element, Knot):
            named += [f"{element.kind} knot"] * count
        else:
            named.append(uncapitalised(string_step_text([element] * count, basis.names, basis.plan.unit)))
    return ", ".join(named)


def _breaks(basis: RemedyBasis, edits: Sequence[Edit], unit: RepeatUnit) -> str:
    """What an edit does to the pattern: it puts beads side by side that never were, or leaves a part of a repeat by
    itself."""
    new = _neighbours(basis.layout.after(edits)) - _neighbours(basis.layout.whole)
    same = next((one for one, other in sorted(new) if one == other), None)
    if same is not None:
        return f"two {uncapitalised(plural(basis.names[same], 2))} then lie together: this breaks the pattern"
    return "this breaks the pattern" if new or (unit.regular and not unit.whole) else ""


def _neighbours(elements: Sequence[Element]) -> set[tuple[str, str]]:
    keys = [element.key for element in elements if isinstance(element, Bead)]
    return {(min(pair), max(pair)) for pair in pairwise(keys)}


def _edits(side: RemainingSide, unit: RepeatUnit, times: int) -> Iterator[tuple[Edit, ...]]:
    """Ways to do it, the most likely first: extra repeats go before the first one, and the last ones are left out."""
    if times > 0:
        for place in unit.places:
            yield (Edit(side.entry, place, place, unit.elements * times),)
    else:
        yield tuple(Edit(side.entry, place, place + len(unit.elements), ()) for place in unit.places[times:])


def units_of(elements: Sequence[Element], steps: Sequence[tuple[int, int]]) -> list[RepeatUnit]:
    """What repeats in these steps (start and end of each): the shortest run of steps that makes up most of them.

    After that, single steps with a bead in them, the most common first, in case nothing repeats or the repeat is long.
    """
    parts = [tuple(elements[begin:end]) for begin, end in steps]
    found: list[RepeatUnit] = []
    period = _period(parts)
    if period:
        length, first, last = period
        repeat = tuple(element for part in parts[first : first + length] for element in part)
        places = tuple(steps[number][0] for number in range(first, last - length + 1, length))
        found.append(RepeatUnit(repeat, places, whole=True))
    counts = Counter(part for part in parts if any(isinstance(element, Bead) for element in part))
    regular = period is not None
    for part, _ in counts.most_common(MOST_STEPS):
        if not any(part == unit.elements for unit in found):
            places = tuple(begin for begin, end in steps if tuple(elements[begin:end]) == part)
            if regular and len(places) == 1:
                continue  # an accent among repeats
            found.append(RepeatUnit(part, places, whole=not regular, regular=regular))
    return found


def _period(parts: Sequence[tuple[Element, ...]]) -> tuple[int, int, int] | None:
    """The shortest period that most of the parts follow: its length and the run that follows it. The run has its period
    at least twice, and a bead in it. None if there is none."""
    for length in range(1, min(LONGEST_PERIOD, len(parts) // 2) + 1):
        first, last = _longest_run(parts, length)
        beads = any(isinstance(element, Bead) for part in parts[first : first + length] for element in part)
        if last - first >= max(2 * length, COVERS * len(parts)) and beads:
            return length, first, last
    return None


def _longest_run(parts: Sequence[tuple[Element, ...]], length: int) -> tuple[int, int]:
    """Start and end of the longest run in which every part equals the one `length` places before it."""
    best = (0, 0)
    begin = 0
    for number in range(length, len(parts) + 1):
        if number == len(parts) or parts[number] != parts[number - length]:
            if number - begin > best[1] - best[0] and number - begin > length:
                best = (begin, number)
            begin = number - length + 1
    return best
