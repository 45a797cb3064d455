"""A picture as rows of pixels, and how a row of a strand is painted on it."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from companion.core.drawing.bodies import Shade, body
from companion.core.drawing.strand import DrawnPart, DrawnStrand
from companion.core.picture.colours import BLACK, WHITE, Colour, mixed
from companion.core.picture.marks import coming_letter
from companion.core.picture.picture import State

METAL: Colour = (176, 178, 184)
OUTLINE_SHARE, INSIDE_SHARE = 0.62, 0.18  # of its own colour, in what is still to come
RING = 1  # pixels of the ring round the present step's beads


class Palette(Struct, frozen=True):
    """The colours that a picture is painted in; `beads`: a colour for each bead's key, to be seen on the ground; `own`:
    of those that would not be, the bead's own colour, for what lies within an outline."""

    ground: Colour
    accent: Colour
    cord: Colour
    beads: Mapping[str, Colour]
    own: Mapping[str, Colour] = {}


class Letter(Struct, frozen=True):
    """A bead's letter. Its place: the column, and the row of pixels on the middle line."""

    column: int
    row: int
    text: str
    coming: bool = False


class Pixels(Struct, frozen=True):
    """Rows of pixels from the top; None: the ground. The number of rows is even: two make a line of half blocks."""

    rows: tuple[tuple[Colour | None, ...], ...]
    letters: tuple[Letter, ...] = ()

    @property
    def width(self) -> int:
        """Pixels in each row."""
        return len(self.rows[0]) if self.rows else 0


def lit(colour: Colour, light: float) -> Colour:
    """A colour in that light: below 1 it goes towards black, above 1 towards white."""
    return mixed(colour, WHITE, min(1.0, light - 1)) if light > 1 else mixed(BLACK, colour, max(0.0, light))


def paint_row(
    strand: DrawnStrand, row: tuple[int, int], made: int, until: int, palette: Palette, rest: State = "coming"
) -> Pixels:
    """One row of a strand, elements `row` (first, after the last). Elements before `made` are made, those before
    `until` are the present step's, and after them comes the `rest`."""
    painter = _Painter(strand, palette)
    first, end = row
    at = RING
    if strand.before and not first:
        at = painter.part(strand.before, at, "made" if made else rest)
    for element in range(first, end):
        state: State = "made" if element < made else "present" if element < until else rest
        at = painter.part(strand.part(element), at, state)
        if strand.own_knot and element in strand.own.at_start:
            at = painter.part(strand.own_knot, at, "made" if made else rest)
        elif strand.own_knot and element in strand.own.at_end:
            at = painter.part(strand.own_knot, at, "made" if made > len(strand.order) else rest)
    if strand.after and end == len(strand.order):
        at = painter.part(strand.after, at, "made" if made > len(strand.order) else rest)
    painter.widen(at + RING)
    return painter.done()


class _Painter:
    """Paints parts one after another along the middle line."""

    def __init__(self, strand: DrawnStrand, palette: Palette) -> None:
        self.strand, self.palette = strand, palette
        height = strand.height + 2 * RING
        self.middle = height // 2  # heights are odd
        self.rows: list[list[Colour | None]] = [[] for _ in range(height + height % 2)]
        self.letters: list[Letter] = []
        self.rings: list[tuple[int, int]] = []

    def part(self, part: DrawnPart, at: int, state: State) -> int:
        """Paint a part from that column on; returns the column after it."""
        self.widen(at + part.width)
        if part.kind != "finding" and part.form != "ring":
            self._cord(at, part.width, state)
        if part.kind != "bare":
            self._body(part, at, state)
        if part.kind == "bead":
            self._letter(part, at, state)
        return at + part.width

    def widen(self, width: int) -> None:
        """Make the rows at least that wide."""
        for row in self.rows:
            row += [None] * (width - len(row))

    def done(self) -> Pixels:
        """The picture, the rings round the present step laid over it."""
        for column, row in self.rings:
            if self.rows[row][column] is None:
                self.rows[row][column] = self.palette.accent
        return Pixels(tuple(tuple(row) for row in self.rows), tuple(self.letters))

    def _cord(self, at: int, width: int, state: State) -> None:
        half = self.strand.cord_pixels // 2
        for row in range(self.middle - half, self.middle + half + 1):
            for column in range(at, at + width):
                if (
                    state == "made"
                    or (state == "present" and column % 2 == 0)
                    or (state == "coming" and column % 3 == 0)
                ):
                    self.rows[row][column] = self.palette.cord

    def _body(self, part: DrawnPart, at: int, state: State) -> None:
        top = self.middle - part.height // 2
        colour = self._colour(part)
        for y, line in enumerate(body(part.form, part.width, part.height)):
            for x, shade in enumerate(line):
                painted = self._pixel(shade, colour, state, solid=part.kind != "bead" and part.height < 3)
                if painted is not None:
                    self.rows[top + y][at + x] = painted
                if state == "present" and shade.cover >= 0.5 and part.kind in ("bead", "knot"):
                    self._ring(at + x, top + y)

    def _pixel(self, shade: Shade, colour: Colour, state: State, solid: bool) -> Colour | None:
        """The colour of one pixel of a body; None where nothing of it is to be seen."""
        if shade.cover < 0.2:
            return None
        if state == "coming":  # an outline, and inside it a breath of the colour
            if shade.cover < 0.5:
                return None
            return mixed(self.palette.ground, colour, OUTLINE_SHARE if shade.rim or solid else INSIDE_SHARE)
        return mixed(self.palette.ground, lit(colour, shade.light), min(1.0, 0.15 + shade.cover))

    def _ring(self, column: int, row: int) -> None:
        self.rings += [
            (column + dx, row + dy)
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
            if 0 <= column + dx < len(self.rows[0]) and 0 <= row + dy < len(self.rows)
        ]

    def _letter(self, part: DrawnPart, at: int, state: State) -> None:
        if part.width >= 5 and part.height >= 5:
            text = coming_letter(part.letter) if state == "coming" else part.letter
            self.letters.append(Letter(at + (part.width - 1) // 2, self.middle, text, state == "coming"))

    def _colour(self, part: DrawnPart) -> Colour:
        if part.kind == "bead":
            return self.palette.beads[part.key]
        return METAL if part.kind == "finding" else self.palette.cord
