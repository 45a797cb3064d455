"""The steps of an entry as rows of boxes: what repeats is one row, with a box for each step."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.maths.repeats import longest_repeat
from companion.core.plan.plan import Plan, Step
from companion.core.words.step_words import step_sentence

LONGEST_PATTERN = 4  # steps that repeat together; the eye loses its place in more
GROUP = 5  # boxes that are counted at a look


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
        """How many boxes stand together: five, or those of one repeat."""
        size = len(self.texts) if len(self.texts) > 1 else GROUP
        whole, rest = divmod(self.boxes, size)
        return (*([size] * whole), *([rest] if rest else []))


def step_rows(plan: Plan, entry: int, first: int, last: int, done: int = 0) -> Iterator[StepRow]:
    """The rows of some of an entry's steps: from number `first` to `last`, as the entry counts them. `done`: how many
    of the piece's steps are made."""
    steps = plan.strands[entry].steps
    beads = sum(len(step.beads) for step in steps[: first - 1])
    units = [_alike(step) for step in steps[first - 1 : last]]
    place = 0
    while place < len(units):
        length, times = longest_repeat(units, place, LONGEST_PATTERN)
        some = steps[first - 1 + place : first - 1 + place + length]
        beads += times * sum(len(step.beads) for step in some)
        number = plan.piece_step(entry, some[0].number)
        made = min(max(0, done - number + 1), length * times)
        yield StepRow(number, tuple(map(step_sentence, some)), times, made, beads)
        place += length * times


def _alike(step: Step) -> tuple[str, str]:
    """Steps that say the same may share a row, but for those at an end: each of them is done by itself."""
    return (step.kind, step.text) if step.kind == "string" else (str(step.number), step.text)
