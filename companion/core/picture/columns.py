"""Which columns of the picture each part of a strand gets: worked out once, so that drawing a row is quick."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate
from math import floor
from typing import Literal

from msgspec import Struct

from companion.core.picture.marks import marks_of
from companion.core.picture.ruler import SCALES, Scale
from companion.core.plan.plan import Plan
from companion.core.plan.steps import element_mm
from companion.core.values.design import Bead, Knot
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit

PartKind = Literal["bead", "knot", "bare"]
MOST_DRIFT_COLUMNS = 1.0


class Part(Struct, frozen=True):
    """One bead, knot or span of bare cord. `bead` is the bead's key, `letter` its mark."""

    kind: PartKind
    bead: str | None = None
    letter: str = ""


class StrandColumns(Struct, frozen=True):
    """A strand laid out in columns. `ends[i]` is the first column after part i, `ends_mm[i]` where it ends, mm.

    `to_scale`: every part begins and ends within a column of its place on the ruler. Where parts are too short for that
    in every scale, each has a column in the usual one, and the picture has to say that it is not to scale.
    """

    parts: Sequence[Part]
    ends: Sequence[int]
    ends_mm: Sequence[float]
    scale: Scale
    to_scale: bool

    @classmethod
    def of(cls, parts: Sequence[Part], lengths_mm: Sequence[float], unit: DisplayUnit) -> StrandColumns:
        """The parts, with their lengths (0 or more), in the smallest scale that keeps them in step with the ruler."""
        ends_mm = tuple(accumulate(lengths_mm))
        for scale in SCALES[unit]:
            ends, drift_columns = _whole_columns(ends_mm, scale)
            if drift_columns <= MOST_DRIFT_COLUMNS:
                return cls(tuple(parts), ends, ends_mm, scale, True)
        usual = SCALES[unit][0]
        return cls(tuple(parts), _whole_columns(ends_mm, usual)[0], ends_mm, usual, False)

    @property
    def columns(self) -> int:
        """Columns of the whole strand."""
        return self.ends[-1] if self.ends else 0

    def begin(self, part: int) -> int:
        """The first column of a part (from 0); for the number after the last one, the strand's end."""
        return self.ends[part - 1] if part else 0

    def part_at(self, column: int) -> int:
        """The part in whose columns this one lies; the number after the last part beyond the strand's end."""
        return bisect_right(self.ends, column)

    def span_mm(self, first_column: int, end_column: int) -> tuple[float, float]:
        """Where the parts that these columns touch begin and end, mm; the columns must touch one."""
        first, last = self.part_at(first_column), self.part_at(end_column - 1)
        return self.ends_mm[first - 1] if first else 0.0, self.ends_mm[last]


def _whole_columns(ends_mm: Sequence[float], scale: Scale) -> tuple[tuple[int, ...], float]:
    """The column where each part ends, every part having one column at least, and the largest distance, in columns,
    from where the ruler has it.

    Where parts are long enough, each end is the nearest column. Where they are not, the ends stray as little as they
    can, forward and backward alike, and are back in step as soon as longer parts come: roundings never add up.
    """
    per_mm = float(scale.columns_per_mm)
    exact = [end_mm * per_mm for end_mm in ends_mm]
    # Taking one column from each part, what is spare may not decrease from part to part. Half-way between the most so
    # far and the least to come is the nearest such sequence, by the largest distance (minimax isotonic regression).
    spare = [end - number for number, end in enumerate(exact, start=1)]
    most_so_far = accumulate(spare, max)
    least_to_come = reversed(list(accumulate(reversed(spare), min)))
    ends = tuple(
        number + max(0, floor((most + least) / 2 + 0.5))
        for number, (most, least) in enumerate(zip(most_so_far, least_to_come, strict=True), start=1)
    )
    return ends, max((abs(end - wanted) for end, wanted in zip(ends, exact, strict=True)), default=0.0)


def strand_columns(plan: Plan, entry: int) -> StrandColumns:
    """One entry of a plan (from 0) laid out in columns, in the maker's unit."""
    beads = {kind.key: kind for kind in plan.beads}
    letters = {mark.key: mark.letter for mark in marks_of(plan.beads)}
    elements = plan.strands[entry].elements
    parts: dict[object, Part] = {}
    lengths_mm: dict[object, float] = {}
    for element in set(elements):
        match element:
            case Bead(key=key):
                parts[element] = Part("bead", key, letters[key])
            case Knot():
                parts[element] = Part("knot")
            case _:
                parts[element] = Part("bare")
        lengths_mm[element] = element_mm(element, beads, plan.cord)
    unit = display_unit(plan.unit)
    return StrandColumns.of([parts[e] for e in elements], [lengths_mm[e] for e in elements], unit)
