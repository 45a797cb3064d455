"""One repeat more or fewer, or several: what repeats in the rest of a strand, in pairs where it is a mirror."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from companion.core.plan.steps import step_words
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import Edit, Side
from companion.core.remedies.remedy import Idea
from companion.core.values.design import Bead, Element

MOST_REPEATS = 12
LONGEST_PERIOD = 12  # steps
COVERS = 0.5  # a repeat is one where it makes up so much of what is left
MOST_STEPS = 5  # steps of different kinds that are tried where nothing repeats
NUMBERS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")
BROKEN_PATTERN = 1.0  # what adding or leaving out a part of a repeat counts for, beside a whole one


@dataclass(frozen=True, slots=True)
class Unit:
    """What repeats: its elements, where each of it begins in what is left, and whether it is a whole repeat."""

    elements: tuple[Element, ...]
    places: tuple[int, ...]
    whole: bool

    @property
    def most_fewer(self) -> int:
        """How many may be left out: one stays."""
        return min(len(self.places) - 1, MOST_REPEATS)


def by_repeats(basis: RemedyBasis, off_mm: float) -> Iterator[Idea]:
    """So many more or fewer of what repeats as come nearest the length that is missing, mm: a little under and over."""
    for side, unit, paired in _units(basis):
        each_mm = sum(map(basis.mm, unit.elements)) * (2 if paired else 1)
        if each_mm <= 0:
            continue
        wanted = off_mm / each_mm
        for times in sorted({floor(wanted), ceil(wanted)} - {0}):
            if -unit.most_fewer <= times <= MOST_REPEATS:
                yield from _ideas(basis, side, unit, times, paired)


def fewer_for_cord(basis: RemedyBasis, short_mm: float) -> Iterator[Idea]:
    """As many fewer of what repeats as save that much cord, mm a layer."""
    for side, unit, paired in _units(basis):
        each_mm = sum(map(basis.cord_mm, unit.elements))
        times = ceil(short_mm / each_mm) if each_mm > 0 else 0
        if 0 < times <= unit.most_fewer:
            yield from _ideas(basis, side, unit, -times, paired)


def _units(basis: RemedyBasis) -> Iterator[tuple[Side, Unit, bool]]:
    """What repeats in each side that is not done, and whether it has to change in pairs."""
    for side, middle in basis.layout.workable():
        for unit in units_of(side.elements, side.steps_left(middle)):
            yield side, unit, middle is not None


def _ideas(basis: RemedyBasis, side: Side, unit: Unit, times: int, paired: bool) -> Iterator[Idea]:
    for edits in _edits(side, unit, times):
        both = basis.layout.in_pairs(edits) if paired else edits
        if both is None:
            continue
        uneven = not basis.layout.still_mirrored(both)
        if paired and uneven:
            continue
        words = step_words(unit.elements, basis.names, basis.plan.unit)
        count = f"{NUMBERS[abs(times)]} {'more' if times > 0 else 'fewer'}"
        where = "on each side" if paired else "in what is left"
        text = f"{count} of «{words[:1].lower()}{words[1:]}» {where}"
        effort = abs(times) * (1.2 if paired else 1.0) * (1 if unit.whole else 1 + BROKEN_PATTERN)
        yield Idea(text, ("repeats",), effort, side.entry, both, uneven=uneven)
        return


def _edits(side: Side, unit: Unit, times: int) -> Iterator[tuple[Edit, ...]]:
    """Ways to do it, the likeliest first: more of them before the first, fewer by leaving out the last."""
    if times > 0:
        for place in unit.places:
            yield (Edit(side.entry, place, place, unit.elements * times),)
    else:
        yield tuple(Edit(side.entry, place, place + len(unit.elements), ()) for place in unit.places[times:])


def units_of(elements: Sequence[Element], steps: Sequence[tuple[int, int]]) -> list[Unit]:
    """What repeats in these steps (begin and end of each): the shortest run of steps that makes up most of them.

    Then single steps with a bead in them, the commonest first: where nothing repeats, or the repeat is long, they are
    all there is to go by.
    """
    parts = [tuple(elements[begin:end]) for begin, end in steps]
    found: list[Unit] = []
    period = _period(parts)
    if period:
        length, first, last = period
        unit = tuple(element for part in parts[first : first + length] for element in part)
        places = tuple(steps[number][0] for number in range(first, last - length + 1, length))
        found.append(Unit(unit, places, whole=True))
    counts = Counter(part for part in parts if any(isinstance(element, Bead) for element in part))
    regular = period is not None
    for part, _ in counts.most_common(MOST_STEPS):
        if not any(part == unit.elements for unit in found):
            places = tuple(begin for begin, end in steps if tuple(elements[begin:end]) == part)
            if regular and len(places) == 1:
                continue  # an accent among repeats
            found.append(Unit(part, places, whole=not regular))
    return found


def _period(parts: Sequence[tuple[Element, ...]]) -> tuple[int, int, int] | None:
    """The shortest period that most of the parts follow: its length, and the run that follows it; None: nothing does.

    The run holds its period twice at the least, and a bead.
    """
    for length in range(1, min(LONGEST_PERIOD, len(parts) // 2) + 1):
        first, last = _longest_run(parts, length)
        beads = any(isinstance(element, Bead) for part in parts[first : first + length] for element in part)
        if last - first >= max(2 * length, COVERS * len(parts)) and beads:
            return length, first, last
    return None


def _longest_run(parts: Sequence[tuple[Element, ...]], length: int) -> tuple[int, int]:
    """Begin and end of the longest run in which every part is the same as the one `length` before it."""
    best = (0, 0)
    begin = 0
    for number in range(length, len(parts) + 1):
        if number == len(parts) or parts[number] != parts[number - length]:
            if number - begin > best[1] - best[0] and number - begin > length:
                best = (begin, number)
            begin = number - length + 1
    return best
