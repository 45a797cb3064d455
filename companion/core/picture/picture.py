"""The strand drawn to scale under its ruler: made, present and coming parts each in a form of their own.

    made      a solid bead with its letter, █G██     a knot •   bare cord ─
    present   a bead in brackets, [G ]               a knot ×   bare cord ═
    coming    an outline with a small letter, ░g░░   a knot ◦   bare cord ┄

A knot is one mark however many columns it has, so that knots can be counted; so are the letters. Two beads that touch
are parted by half a column. A bead of one column is its letter alone, and there the pointer line, which runs under
the whole present step, is what tells present from made.
"""

from __future__ import annotations

from bisect import bisect_right
from math import floor
from typing import Literal

from msgspec import Struct

from companion.core.picture.columns import Part, StrandColumns
from companion.core.picture.marks import coming_letter
from companion.core.picture.ruler import ruler
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.measures.show_lengths import show

State = Literal["made", "present", "coming"]

KNOT: dict[State, str] = {"made": "•", "present": "×", "coming": "◦"}
BARE: dict[State, str] = {"made": "─", "present": "═", "coming": "┄"}
BODY: dict[State, str] = {"made": "█", "present": " ", "coming": "░"}
PARTING: dict[State, str] = {"made": "▌", "present": "]", "coming": " "}
_HERE = "▲"
_HERE_WORD = "here"
MOVES = 4  # of the window, in its own width


class Cell(Struct, frozen=True):
    """One column of the strand. `bead`: the bead's key, where the part is one."""

    char: str
    bead: str | None
    state: State


class PictureRow(Struct, frozen=True):
    """A stretch of the strand and what stands above and below it; all three begin in the same column.

    `here_column`: where, in this row, made ends and present begins; None where that lies in another row. `pointer`:
    the line below, "▲── here", running under the present step; empty where the row has nothing of it.
    """

    ruler: str
    cells: tuple[Cell, ...]
    here_column: int | None
    pointer: str


class Picture(Struct, frozen=True):
    """A strand's picture in `columns` columns of screen. Parts [0, made) are made, [made, until) are the present
    step's, the rest are coming; `progress` gives both numbers."""

    strand: StrandColumns
    columns: int

    def rows(self) -> int:
        """How many rows the whole strand folds into; one at least."""
        return len(self.strand.rows(self.columns))

    def row_of(self, part: int) -> int:
        """The row (from 0) in which a part begins; the last row for the number after the last part."""
        return bisect_right(self.strand.rows(self.columns), self.strand.begin(part)) - 1

    def row(self, number: int, made: int, until: int) -> PictureRow:
        """One row (from 0). Raises IndexError past the last."""
        firsts = self.strand.rows(self.columns)
        if not 0 <= number < len(firsts):
            raise IndexError(number)
        end = firsts[number + 1] if number + 1 < len(firsts) else self.strand.columns
        return self._stretch(firsts[number], end, made, until)

    def window(self, made: int, until: int) -> PictureRow:
        """The one row around the place where made ends.

        It begins after a knot, where one is near, and moves on by a part of its width at a time, so that it mostly
        stands still; past the strand's end it shows blank for less than one such move.
        """
        jump = max(1, self.columns // MOVES)
        here, furthest = self.strand.begin(made), max(0, self.strand.columns - self.columns)
        wanted = min(max(0, here - self.columns // 2) // jump * jump, furthest)
        first = self.strand.next_break(wanted, min(here, wanted + jump - 1)) if wanted else 0
        return self._stretch(first, min(first + self.columns, self.strand.columns), made, until)

    def _stretch(self, first: int, end: int, made: int, until: int) -> PictureRow:
        here = self.strand.begin(made)
        is_last = end == self.strand.columns
        here_column = here - first if first <= here < end or (here == end and is_last) else None
        pointer = _pointer(
            here - first, min(self.strand.begin(until), end) - first, here_column is not None, self.columns
        )
        return PictureRow(self._ruler(first, end), self._cells(first, end, made, until), here_column, pointer)

    def _ruler(self, first: int, end: int) -> str:
        strand = self.strand
        if not strand.to_scale:
            begins, ends = (show(mm, strand.scale.unit) for mm in strand.span_mm(first, end))
            return f"{begins} to {ends}, not to scale"[: self.columns]

        def column_at(place_mm: float) -> int:
            return floor(strand.column_at(place_mm) + 0.5) - first

        return ruler(strand.scale, end - first, strand.place_mm(first), strand.place_mm(end), column_at)

    def _cells(self, first: int, end: int, made: int, until: int) -> tuple[Cell, ...]:
        cells: list[Cell] = []
        part = self.strand.part_at(first)
        while len(cells) < end - first:
            state: State = "made" if part < made else "present" if part < until else "coming"
            cells += self._part_cells(part, state, first, end)
            part += 1
        return tuple(cells)

    def _part_cells(self, number: int, state: State, first: int, end: int) -> list[Cell]:
        """Those cells of a part that lie in these columns; never more, however long the part is."""
        part, after = self.strand.parts[number], self.strand.ends[number]
        begin = self.strand.begin(number)
        touches = number + 1 < len(self.strand.parts) and self.strand.parts[number + 1].kind == "bead"
        return [
            Cell(_char(part, column - begin, after - begin, state, touches), part.bead, state)
            for column in range(max(begin, first), min(after, end))
        ]


def progress(strand: PlannedStrand, steps_made: int) -> tuple[int, int]:
    """`made` and `until` for a picture of this entry when so many of its steps are made."""
    made = strand.steps[steps_made - 1].elements if steps_made else 0
    until = strand.steps[steps_made].elements if steps_made < len(strand.steps) else made
    return made, until


def made_in_picture(plan: Plan, entry: int, steps_done: int | None) -> int:
    """How many elements of an entry are made once so many of the piece's steps are, None: all; one more than there are
    where the entry's end is made too."""
    strand = plan.strands[entry]
    before = sum(len(other.steps) for other in plan.strands[:entry])
    done = len(strand.steps) if steps_done is None else min(steps_done - before, len(strand.steps))
    if done >= len(strand.steps):
        return len(strand.elements) + 1
    return strand.steps[done - 1].elements if done > 0 else 0


def _char(part: Part, offset: int, width: int, state: State, touches: bool) -> str:
    """The character in column `offset` of a part that has `width` columns."""
    if part.kind == "bare":
        return BARE[state]
    if offset == (width - 1) // 2:
        if part.kind == "knot":
            return KNOT[state]
        return coming_letter(part.letter) if state == "coming" else part.letter
    if part.kind == "knot":
        return BARE[state]
    if offset == width - 1 and (touches or state == "present"):
        return PARTING[state]
    return "[" if state == "present" and offset == 0 else BODY[state]


def _pointer(here: int, until: int, is_here: bool, room: int) -> str:
    """The line under a row, from the present step's first column (below 0: in a row before) to the one after it."""
    begin = min(max(0, here), room - 1)
    if not is_here:
        return " " * begin + "─" * max(0, until - begin) if here < 0 else ""
    drawn = " " * begin + _HERE + "─" * (until - begin - 1)
    if len(drawn) + 1 + len(_HERE_WORD) <= room:
        return f"{drawn} {_HERE_WORD}"
    if begin > len(_HERE_WORD):
        return f"{_HERE_WORD:>{begin - 1}} {drawn[begin:]}"
    return drawn
