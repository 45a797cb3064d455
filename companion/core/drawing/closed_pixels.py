"""A closed piece painted in pixels: what is made as lit bodies, what is to come as outlines."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain
from math import inf

from companion.core.drawing.bodies import BodyForm
from companion.core.drawing.closed import Closed, Laid
from companion.core.drawing.links import Link
from companion.core.drawing.pixels import INSIDE_SHARE, METAL, OUTLINE_SHARE, Letter, Palette, Pixels, lit
from companion.core.drawing.turned import painted_body
from companion.core.picture.colours import Colour, mixed, readable_on, relative_luminance
from companion.core.picture.marks import coming_letter

LEAST_CORD, LEAST_KNOT = 1.0, 2.0  # pixels across, to be seen at all
SEEN = 3.0  # the least contrast of a finding with the page
APART = 0.4  # pixels between two beads that touch, for both to be seen
OUTLINED = 5  # pixels: the least length and width of a bead that shows its own colour within an outline
LETTERED = 6  # pixels: the least length and width of a bead with its letter on it
_FAINTEST = 0.12  # cover below which nothing is painted
_LIGHT_PAGE, _SOFTER = 0.4, 0.55  # luminance of a page on which shade is so much softer: dark rims would run together


def paint_closed(closed: Closed, palette: Palette, letters: bool = True, beads_on: float = inf) -> Pixels:
    """The picture; `letters`: with those of the beads that have room for one; `beads_on`: so many of the piece's beads
    are on it, in the order of the work, and what comes after them is only outlined."""
    painter = _Painter(closed, palette, beads_on)
    for strand in closed.strands:
        painter.strand(strand)
    lettered = beads_with_room(closed) if letters else ()
    written = tuple(painter.letter(one) for one in lettered)
    return Pixels(tuple(tuple(row) for row in painter.rows), written)


def beads_with_room(closed: Closed) -> tuple[Laid, ...]:
    """The beads that have room for their letters."""
    least_mm = LETTERED / closed.pixels_per_mm
    return tuple(
        one
        for one in chain.from_iterable(closed.strands)
        if one.link.kind == "bead" and min(one.link.length_mm, one.link.across_mm) >= least_mm
    )


class _Painter:
    """Paints strands over one another."""

    def __init__(self, closed: Closed, palette: Palette, beads_on: float) -> None:
        self.scale, self.palette, self.beads_on = closed.pixels_per_mm, palette, beads_on
        self.shade = _SOFTER if relative_luminance(palette.ground) > _LIGHT_PAGE else 1.0
        self.cord = max(LEAST_CORD, closed.cord_mm * self.scale)
        self.rows: list[list[Colour | None]] = [[None] * closed.width for _ in range(closed.height + closed.height % 2)]

    def strand(self, laid: Iterable[Laid]) -> None:
        """The cord where nothing hides it, and the links on it."""
        for one in laid:
            if one.link.kind in ("knot", "bare") and one.link.across_mm:
                self._paint(one, "tube", one.link.length_mm * self.scale + 1, self.cord, self.palette.cord)
            if one.link.kind != "bare":
                least = LEAST_KNOT if one.link.kind == "knot" else 1.0
                length, across = (max(least, mm * self.scale) for mm in (one.link.length_mm, one.link.across_mm))
                if one.link.kind == "bead":
                    length = max(least, length - APART)
                self._paint(one, one.link.form, length, across, self._colour(one.link))

    def letter(self, one: Laid) -> Letter:
        """A bead's letter, on the bead's own colour, so that it looks alike on every bead of a kind."""
        column, row, coming = int(one.x), 2 * round((one.y - 1) / 2), not self._is_on(one)
        plate = self._colour(one.link)
        for covered in (row, row + 1):
            self.rows[covered][column] = mixed(self.palette.ground, plate, INSIDE_SHARE) if coming else plate
        return Letter(column, row, coming_letter(one.link.letter) if coming else one.link.letter, coming)

    def _is_on(self, one: Laid) -> bool:
        return one.order < self.beads_on if one.link.kind == "bead" else one.order <= self.beads_on

    def _colour(self, link: Link) -> Colour:
        if link.kind == "bead":
            return self.palette.beads[link.key]
        if link.kind == "finding":
            return readable_on(self.palette.ground, link.colour or METAL, SEEN)
        return self.palette.cord

    def _paint(self, one: Laid, form: BodyForm, length: float, across: float, colour: Colour) -> None:
        """A body, laid over what is there already."""
        body = painted_body(form, length, across, (one.x, one.y), one.turn)
        own = self.palette.own.get(one.link.key) if min(length, across) >= OUTLINED else None
        is_on, ground = self._is_on(one), self.palette.ground
        left, top = int(one.x) + body.left, int(one.y) + body.top
        for y, shades in enumerate(body.rows, top):
            row = self.rows[y] if 0 <= y < len(self.rows) else []
            for x, shade in enumerate(shades, left):
                if shade.cover < _FAINTEST or not 0 <= x < len(row):
                    continue
                inside = own if own and not shade.rim else colour
                seen = lit(inside, shade.light if shade.light > 1 else 1 - (1 - shade.light) * self.shade)
                if not is_on:
                    seen = mixed(ground, colour, OUTLINE_SHARE if shade.rim else INSIDE_SHARE)
                row[x] = mixed(row[x] or ground, seen, shade.cover)
