"""The ruler above the strand's picture, and the scales that it comes in."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from companion.core.values.measures.length_grammar import MM_PER_UNIT
from companion.core.values.measures.show_lengths import DisplayUnit


class Scale(Struct, frozen=True):
    """How large the strand is drawn. A label at every inch or centimetre, a tick between every `minor_columns`."""

    unit: DisplayUnit
    major_columns: int
    minor_columns: int

    @property
    def columns_per_mm(self) -> Fraction:
        """Exact: sixteen columns an inch, or six a centimetre, in the usual scales."""
        return self.major_columns / MM_PER_UNIT["in" if self.unit == "in" else "cm"]

    def label(self, column: int) -> str:
        """The number at a column that bears one."""
        return str(column // self.major_columns * (10 if self.unit == "mm" else 1))

    def closing_label(self, column: int) -> str:
        """The number at the end of a row, with its unit: "4 in"."""
        return f"{self.label(column)} {self.unit}"


def _scales(unit: DisplayUnit, *columns: tuple[int, int]) -> tuple[Scale, ...]:
    return tuple(Scale(unit, major, minor) for major, minor in columns)


_CENTIMETRES = ((6, 3), (10, 5), (20, 4), (30, 3))
# The usual scale first; the larger ones are for strands whose parts would be narrower than a column in it.
SCALES: dict[DisplayUnit, tuple[Scale, ...]] = {
    "in": _scales("in", (16, 4), (24, 6), (32, 4), (48, 6), (64, 4)),
    "cm": _scales("cm", *_CENTIMETRES),
    "mm": _scales("mm", *_CENTIMETRES),
}
_ROUND_ROW = 5  # rows of ten centimetres and more begin at a multiple of five: 0, 10, 20 rather than 0, 11, 22


def ruler(scale: Scale, first_column: int, columns: int, room_columns: int = 0) -> str:
    """The ruler over `columns` columns of the picture from `first_column` on: "0───┬───┬───┬───1───┬".

    A mark stands in the column whose left edge it is. Where the far end bears a number, and `room_columns` leave room
    beyond, that number closes the ruler, with its unit if that fits too. A number that would be cut off is a tick.
    """
    end = first_column + columns
    drawn = ["─"] * columns
    for column in range(first_column + -first_column % scale.minor_columns, end, scale.minor_columns):
        drawn[column - first_column] = "┬"
    for column in range(first_column + -first_column % scale.major_columns, end, scale.major_columns):
        label = scale.label(column)
        if column + len(label) <= end:
            drawn[column - first_column : column - first_column + len(label)] = label
    if end % scale.major_columns == 0:
        endings = (scale.closing_label(end), scale.label(end))
        drawn.append(next((ending for ending in endings if columns + len(ending) <= room_columns), ""))
    return "".join(drawn)


def fold_columns(scale: Scale, room_columns: int, total_columns: int) -> int:
    """How many columns of a strand of `total_columns` one row holds, in `room_columns` (1 or more) columns of screen.

    All of it where there is room; else whole inches or centimetres with the closing number beside them; where not even
    one fits, all the room.
    """
    if total_columns <= room_columns:
        return room_columns
    majors = (room_columns - len(scale.closing_label(total_columns + scale.major_columns))) // scale.major_columns
    if scale.unit != "in" and majors >= 2 * _ROUND_ROW:
        majors -= majors % _ROUND_ROW
    return majors * scale.major_columns if majors > 0 else max(1, room_columns)
