"""The steps of an entry as rows of boxes: what repeats is one row, with a box for each step."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from itertools import groupby

from msgspec import Struct

from companion.core.maths.repeats import longest_repeat
from companion.core.plan.plan import Plan, Step
from companion.core.words.step_words import step_sentence

LONGEST_PATTERN = 6  # steps that repeat together; the eye loses its place in more
GROUP = 5  # boxes that are counted at a look
_Unit = tuple[str, str]


class StepRow(Struct, frozen=True):
    """Steps to be ticked: what each of the repeating ones says, and how often they come. `first`: the piece's number
    of the first; `done`: how many are made already; `beads`: on the strand once all are."""

    first: int
    texts: tuple[str, ...]
    times: int
    done: int
    beads: int

    @property
    def last(self) -> int:
        """The piece's number of its last step."""
        return self.first + self.boxes - 1

    @property
    def boxes(self) -> int:
        """One for each step."""
        return len(self.texts) * self.times

    @property
    def groups(self) -> tuple[int, ...]:
        """How many boxes stand together: five at most, of equal steps or of one repeat."""
        if 1 < len(self.texts) <= GROUP:
            return (len(self.texts),) * self.times
        equal = [len(list(run)) for _, run in groupby(self.texts * self.times)]
        return tuple(size for count in equal for size in _in_fives(count))


def _in_fives(count: int) -> tuple[int, ...]:
    whole, rest = divmod(count, GROUP)
    return (*([GROUP] * whole), *([rest] if rest else []))


def step_rows(plan: Plan, entry: int, stops: Collection[int] = (), done: int = 0) -> Iterator[StepRow]:
    """All rows of an entry (from 0). `stops`: the numbers of steps, as the entry counts them, after which a row ends;
    `done`: how many of the piece's steps are made."""
    steps = plan.strands[entry].steps
    beads = 0
    for place, length, times in _parts([_alike(step) for step in steps], sorted({*stops, len(steps)})):
        some = steps[place : place + length]
        beads += times * sum(len(step.beads) for step in some)
        number = plan.piece_step(entry, some[0].number)
        made = min(max(0, done - number + 1), length * times)
        yield StepRow(number, tuple(map(step_sentence, some)), times, made, beads)


def _parts(units: Sequence[_Unit], stops: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Where each row begins, how many steps repeat in it, and how often. What a stop cuts is finished first."""
    place = 0
    while place < len(units):
        length, times = longest_repeat(units, place, LONGEST_PATTERN)
        at, end = place, place + length * times
        while at < end:
            limit = min(end, stops[bisect_right(stops, at)])
            into = (at - place) % length
            whole = 0 if into else (limit - at) // length
            if whole > 1 or (whole and length == 1):
                yield at, length, whole
                at += whole * length
            else:
                last = min(limit, at + length - into)
                yield from _runs(units, at, last)
                at = last
        place = end


def _runs(units: Sequence[_Unit], begin: int, end: int) -> Iterator[tuple[int, int, int]]:
    """A part of a repeat: equal steps together."""
    for _, equal in groupby(range(begin, end), key=lambda at: units[at]):
        places = tuple(equal)
        yield places[0], 1, len(places)


def _alike(step: Step) -> _Unit:
    """Steps that say the same may share a row, but for those at an end: each of them is done by itself."""
    return (step.kind, step.text) if step.kind == "string" else (str(step.number), step.text)
