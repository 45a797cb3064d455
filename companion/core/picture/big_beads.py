"""The present step drawn large: its beads in their outlines on the cord, and the knot that follows."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from companion.core.picture.marks import BeadMark
from companion.core.values.design import KnotKind

MOST_BOXES = 3
LINES = 3


class Stroke(Struct, frozen=True):
    """A stretch of one line; `bead` is the key of the bead that it belongs to, if any."""

    text: str
    bead: str | None = None


StrokeRow = tuple[Stroke, ...]


def big_beads(
    beads: Sequence[BeadMark], knot: KnotKind | None, most_boxes: int = MOST_BOXES
) -> tuple[StrokeRow, StrokeRow, StrokeRow]:
    """Three lines of equal width: up to `most_boxes` beads, "… ×10" where there are more, and a dot for the knot.

    A single dot whichever the kind of knot: the words beside it say which. A step with neither gives empty lines.
    """
    lines: tuple[list[Stroke], ...] = ([], [], [])
    for mark in beads[:most_boxes]:
        for line, text in zip(lines, mark.outline.lines(mark.letter), strict=True):
            line.append(Stroke(text, mark.key))
    if len(beads) > most_boxes:
        _beside(lines, f" … {_how_many(beads)}")
    if knot:
        _beside(lines, "─•─")
    top, middle, bottom = lines
    return tuple(top), tuple(middle), tuple(bottom)


def line_text(line: StrokeRow) -> str:
    """A line without its colours."""
    return "".join(stroke.text for stroke in line)


def _beside(lines: tuple[list[Stroke], ...], text: str) -> None:
    for number, line in enumerate(lines):
        line.append(Stroke(text if number == LINES // 2 else " " * len(text)))


def _how_many(beads: Sequence[BeadMark]) -> str:
    """The whole step's count: "×10" of one kind, "10 beads" of several."""
    return f"×{len(beads)}" if len({mark.key for mark in beads}) == 1 else f"{len(beads)} beads"
