"""Which columns of the picture each part of a strand gets: worked out once, so that drawing a row is quick.

Parts of one length are of one width everywhere, whatever lies before them: the ruler's marks carry the rounding.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import cached_property
from itertools import accumulate
from math import floor
from typing import Literal

from msgspec import Struct

from companion.core.picture.marks import marks_of
from companion.core.picture.ruler import SCALES, Scale
from companion.core.plan.plan import Plan, element_mm
from companion.core.values.design import Bead, Knot
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit

PartKind = Literal["bead", "knot", "bare"]
MOST_STRETCH = 1.5  # times as wide as the scale has it; beyond that a larger scale is tried


class Part(Struct, frozen=True):
    """One bead, knot or span of bare cord. `bead` is the bead's key, `letter` its mark."""

    kind: PartKind
    bead: str | None = None
    letter: str = ""


class StrandColumns(Struct, frozen=True, dict=True):
    """A strand laid out in columns. `ends[i]` is the first column after part i, `ends_mm[i]` where it ends, mm.

    `to_scale`: the whole is not much wider than the ruler has it. Where parts are too short for that in every scale,
    each has a column in the usual one, and the picture has to say that it is not to scale.
    """

    parts: Sequence[Part]
    ends: Sequence[int]
    ends_mm: Sequence[float]
    scale: Scale
    to_scale: bool

    @classmethod
    def of(cls, parts: Sequence[Part], lengths_mm: Sequence[float], unit: DisplayUnit) -> StrandColumns:
        """The parts, with their lengths (0 or more), in the smallest scale that has room for them."""
        ends_mm = tuple(accumulate(lengths_mm))
        for scale in SCALES[unit]:
            ends = _whole_columns(lengths_mm, scale)
            if not ends or ends[-1] <= MOST_STRETCH * ends_mm[-1] * float(scale.columns_per_mm):
                return cls(tuple(parts), ends, ends_mm, scale, True)
        usual = SCALES[unit][0]
        return cls(tuple(parts), _whole_columns(lengths_mm, usual), ends_mm, usual, False)

    @property
    def columns(self) -> int:
        """Columns of the whole strand."""
        return self.ends[-1] if self.ends else 0

    @cached_property
    def breaks(self) -> tuple[int, ...]:
        """The columns after each knot, where a row may end."""
        return tuple(end for part, end in zip(self.parts, self.ends, strict=True) if part.kind == "knot")

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

    def place_mm(self, column: int) -> float:
        """The place of the real strand, mm, where a column begins; the strand's end from there on."""
        part = self.part_at(column)
        if part == len(self.ends):
            return self.ends_mm[-1] if self.ends_mm else 0.0
        begin, begin_mm = self.begin(part), self.ends_mm[part - 1] if part else 0.0
        return begin_mm + (column - begin) / (self.ends[part] - begin) * (self.ends_mm[part] - begin_mm)

    def column_at(self, place_mm: float) -> float:
        """Where on the picture a place of the real strand lies, in columns."""
        part = min(bisect_left(self.ends_mm, place_mm), len(self.ends) - 1)
        begin, begin_mm = self.begin(part), self.ends_mm[part - 1] if part else 0.0
        length_mm = self.ends_mm[part] - begin_mm
        share = min(1.0, max(0.0, (place_mm - begin_mm) / length_mm)) if length_mm else 0.0
        return begin + share * (self.ends[part] - begin)

    def rows(self, room: int) -> tuple[int, ...]:
        """The first column of each row in `room` (1 or more) columns. Rows end at knots; where none is in reach, after
        a whole bead; a part that is wider than a row is cut."""
        known: dict[int, tuple[int, ...]] = self.__dict__.setdefault("rows_of", {})
        if room not in known:
            firsts = [0]
            while firsts[-1] + room < self.columns:
                firsts.append(self.last_break(firsts[-1], firsts[-1] + room))
            known[room] = tuple(firsts)
        return known[room]

    def last_break(self, first: int, end: int) -> int:
        """The last column in (first, end] where a row may end, as `rows` says."""
        for places in (self.breaks, self.ends):
            place = places[bisect_right(places, end) - 1] if places and places[0] <= end else first
            if place > first:
                return place
        return end

    def next_break(self, first: int, most: int) -> int:
        """The first column in [first, most] where a row may begin: after a knot, else after any part; else `first`."""
        for places in (self.breaks, self.ends):
            number = bisect_left(places, first)
            if number < len(places) and places[number] <= most:
                return places[number]
        return first


def _whole_columns(lengths_mm: Sequence[float], scale: Scale) -> tuple[int, ...]:
    """The column where each part ends, every part having the whole number of columns nearest its length, one at
    least."""
    per_mm = float(scale.columns_per_mm)
    return tuple(accumulate(max(1, floor(length_mm * per_mm + 0.5)) for length_mm in lengths_mm))


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
