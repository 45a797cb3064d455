"""A plan's picture as an SVG: the geometry of the drawn strand, in shapes that stay sharp at any size."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from companion.core.drawing.pixels import METAL, lit
from companion.core.drawing.row_ruler import ruler_marks
from companion.core.drawing.strand import DrawnPart, DrawnStrand, drawn_strand
from companion.core.picture.colours import BLACK, WHITE, Colour, ink_on, mixed
from companion.core.picture.marks import BeadMark, legend, marks_of
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_both
from companion.core.values.text import plain

PIXELS_PER_MM = 4.0
ROOM = 960  # pixels of strand in a row
MARGIN = 30
ABOVE, BELOW = 14, 3  # pixels that are written on above where a row begins, and that stay free at its end
FINER = 5  # on paper, where a ruler is laid beside it
RULER = 22  # pixels above each row's beads
PAPER: Colour = (255, 255, 255)
INK: Colour = (32, 36, 40)
CORD: Colour = (150, 140, 122)
PLAIN: Colour = (168, 168, 164)  # a bead whose colour word is not known
CORNERS = {  # of shapes with straight edges, as shares of their box
    "faceted": ((0, 0.35), (0.5, 0), (1, 0.35), (1, 0.65), (0.5, 1), (0, 0.65)),
    "chip": ((0.1, 0.2), (0.55, 0), (0.95, 0.3), (1, 0.7), (0.6, 1), (0.15, 0.9), (0, 0.5)),
}


def picture_svg(plan: Plan) -> str:
    """The whole piece, its strands one under another, with rulers, letters and a legend of the beads. All text is
    escaped; nothing in it runs or loads anything."""
    drawing = _Drawing(plan, ROOM, MARGIN, down=60.0)
    title = escape(plain(plan.design, 200))
    heading = f'<text x="{MARGIN}" y="34" font-size="20" fill="{code(INK)}">{title}</text>'
    return drawing.svg(f'<rect width="100%" height="100%" fill="{code(PAPER)}"/>', heading)


def scaled_svgs(plan: Plan, wide_mm: float) -> Iterator[str]:
    """The same as large as the piece is, on paper that has `wide_mm` of room: without a title, its parts rounded to a
    twentieth of a millimetre. Each row is a picture of its own, so that pages break between them; the first one holds
    the colours of all."""
    return _Drawing(plan, int(wide_mm * PIXELS_PER_MM * FINER) - 1, 0.0, down=0.0, finer=FINER).on_paper(wide_mm)


class _Drawing:
    """Draws from the top down; `down` is where the next thing goes. `room`: pixels of strand in a row; `finer`: how
    often a pixel is parted, with all that is written so much larger."""

    def __init__(self, plan: Plan, room: int, margin: float, down: float, finer: int = 1) -> None:
        self.plan, self.room, self.margin = plan, room, margin
        self.k = finer
        self.marks = {mark.key: mark for mark in marks_of(plan.beads)}
        self.names = {key: f"bead{number}" for number, key in enumerate(self.marks)}
        self.down = down

    def svg(self, *ground: str) -> str:
        """The picture, on what lies below it."""
        body = [line for part in self.parts() for line in part]
        width, height = self.room + 2 * self.margin, self.down + self.margin
        size = f'width="{width:g}" height="{height:g}" viewBox="0 0 {width:g} {height:g}"'
        return "\n".join((_opening(size), self._title(), *self.gradients(), *ground, *body, "</svg>"))

    def on_paper(self, wide_mm: float) -> Iterator[str]:
        """Each part of the picture by itself, as large as the piece is."""
        per_mm, colours = PIXELS_PER_MM * self.k, "".join((self._title(), *self.gradients()))
        begun = self.down
        for part in self.parts():
            body = "\n".join(part)
            top, wide = begun - ABOVE * self.k, wide_mm * per_mm
            high = self.down - BELOW * self.k - top
            size = f'width="{wide_mm:g}mm" height="{high / per_mm:g}mm" viewBox="0 {top:g} {wide:g} {high:g}"'
            yield f"{_opening(size)}{colours}\n{body}</svg>"
            begun, colours = self.down, ""

    def _title(self) -> str:
        own, other = show_both(self.plan.finished_length_mm, display_unit(self.plan.unit))
        return f"<title>{escape(plain(self.plan.design, 200))}, {own} ({other})</title>"

    def gradients(self) -> Iterator[str]:
        """The light on each kind of bead, on cord and on metal."""
        yield "<defs>"
        for name, colour in self._colours():
            stops = ((0, lit(colour, 1.55)), (0.45, colour), (1, lit(colour, 0.5)))
            inside = "".join(f'<stop offset="{at:g}" stop-color="{code(shade)}"/>' for at, shade in stops)
            yield f'<radialGradient id="{name}" cx="0.35" cy="0.3" r="0.75">{inside}</radialGradient>'
        yield "</defs>"

    def parts(self) -> Iterator[Iterator[str]]:
        """Everything below the title: the rows, the first one of a strand with its name, then the legend."""
        for entry, planned in enumerate(self.plan.strands):
            strand = drawn_strand(self.plan, entry, PIXELS_PER_MM * self.k)
            named = planned.title if len(self.plan.strands) > 1 else ""
            for row in strand.rows(self.room):
                yield self._row(strand, row, "" if row[0] else named)
        yield self._legend()

    def _row(self, strand: DrawnStrand, row: tuple[int, int], named: str) -> Iterator[str]:
        first, end = row
        if named:
            yield self._text(self.margin, self.down, plain(named, 60))
            self.down += 14 * self.k
        lead = strand.before.width if strand.before and not first else 0
        left = self.margin + lead
        yield from self._ruler(strand, row, left)
        middle = self.down + RULER * self.k + strand.height / 2
        width = strand.begin(end) - strand.begin(first)
        tail = strand.after.width if strand.after and end == len(strand.order) else 0
        begins = left - lead if strand.before and strand.before.kind == "bare" else left
        ends = left + width + (tail if strand.after and strand.after.kind == "bare" else 0)
        yield (
            f'<line x1="{begins:g}" y1="{middle:g}" x2="{ends:g}" y2="{middle:g}" '
            f'stroke="{code(CORD)}" stroke-width="{strand.cord_pixels}"/>'
        )
        if lead and strand.before:
            yield from self._part(strand.before, left - lead, middle)
        own = strand.own.at_start | strand.own.at_end
        for element in range(first, end):
            part, at = strand.part(element), left + strand.begin(element) - strand.begin(first)
            yield from self._part(part, at, middle)
            if strand.own_knot and element in own:
                yield from self._part(strand.own_knot, at + part.width, middle)
        if tail and strand.after:
            yield from self._part(strand.after, left + width, middle)
        self.down += RULER * self.k + strand.height + 26 * self.k

    def _ruler(self, strand: DrawnStrand, row: tuple[int, int], left: float) -> Iterator[str]:
        k = self.k
        y = self.down + (RULER - 8) * k
        for place, (column, label) in enumerate(ruler_marks(strand, row)):
            x = left + column
            up = (7 if label else 4) * k
            yield f'<line x1="{x:g}" y1="{y:g}" x2="{x:g}" y2="{y - up:g}" stroke="{code(INK)}"{_thick(k)}/>'
            if label:
                unit = f" {strand.unit}" if place == 0 or (not row[0] and label == "0") else ""
                yield self._text(x - 3 * k, y - 9 * k, label + unit, size=11)

    def _part(self, part: DrawnPart, x: float, middle: float) -> Iterator[str]:
        if part.kind == "bare":
            return
        yield shape_of(part, x, middle, self._name(part))
        if part.kind == "bead" and part.width >= 10 * self.k:
            ink = code(ink_on(self._colour(self.marks[part.key])))
            size = min(14.0 * self.k, part.width * 0.6)
            yield (
                f'<text x="{x + part.width / 2:g}" y="{middle + size * 0.36:g}" font-size="{size:g}" '
                f'text-anchor="middle" fill="{ink}">{escape(part.letter)}</text>'
            )

    def _legend(self) -> Iterator[str]:
        unit = display_unit(self.plan.unit)
        for mark in legend(self.plan):
            kind = self.plan.bead(mark.key)
            words = f"{mark.letter}   {plain(mark.name, 60)}, {show(kind.length_mm, unit)}"
            k, left = self.k, self.margin
            fill = f"url(#{self.names[mark.key]})"
            yield f'<circle cx="{left + 7 * k:g}" cy="{self.down + 12 * k:g}" r="{7 * k}" fill="{fill}"/>'
            yield self._text(left + 24 * k, self.down + 17 * k, words, size=14)
            self.down += 24 * k

    def _colours(self) -> Iterator[tuple[str, Colour]]:
        yield from ((self.names[mark.key], self._colour(mark)) for mark in self.marks.values())
        yield "cord", CORD
        yield "metal", METAL

    def _name(self, part: DrawnPart) -> str:
        if part.kind == "bead":
            return self.names[part.key]
        return "metal" if part.kind == "finding" else "cord"

    @staticmethod
    def _colour(mark: BeadMark) -> Colour:
        return mark.colour or PLAIN

    def _text(self, x: float, y: float, text: str, size: float = 13) -> str:
        size *= self.k
        return f'<text x="{x:g}" y="{y:g}" font-size="{size:g}" fill="{code(INK)}">{escape(text)}</text>'


def shape_of(part: DrawnPart, x: float, middle: float, fill: str) -> str:
    """A part as a shape in its box: `x` its left edge, `middle` the line of the hole; `fill`: the name of a gradient,
    or a colour."""
    w, h = part.width, part.height
    cx, top = x + w / 2, middle - h / 2
    filled = fill if fill.startswith("#") else f"url(#{fill})"
    paint = f'fill="{filled}" stroke="{code(mixed(INK, WHITE, 0.45))}" stroke-width="0.7"'
    match part.form:
        case "tube" | "cube" | "coil":
            return f'<rect x="{x:g}" y="{top:g}" width="{w}" height="{h}" rx="{min(w, h) * 0.08:g}" {paint}/>'
        case "disc" | "daisy":
            return f'<rect x="{x:g}" y="{top:g}" width="{w}" height="{h}" rx="{min(w, h) * 0.42:g}" {paint}/>'
        case "faceted" | "chip":
            inside = " ".join(f"{x + w * px:g},{top + h * py:g}" for px, py in CORNERS[part.form])
            return f'<polygon points="{inside}" {paint}/>'
        case "drop":
            return f'<path d="{_drop(x, middle, w, h)}" {paint}/>'
        case "ring":
            return (
                f'<ellipse cx="{cx:g}" cy="{middle:g}" rx="{w * 0.42:g}" ry="{h * 0.42:g}" fill="none" '
                f'stroke="{filled}" stroke-width="{max(1.5, h * 0.16):g}"/>'
            )
        case _:
            return f'<ellipse cx="{cx:g}" cy="{middle:g}" rx="{w / 2:g}" ry="{h / 2:g}" {paint}/>'


def _drop(x: float, middle: float, w: float, h: float) -> str:
    """The outline of a drop in its box, its point at the left."""
    top, bottom, begin, end = middle - h / 2, middle + h / 2, x + w * 0.4, x + w * 0.65
    return (
        f"M {x:g} {middle:g} C {begin:g} {middle - h * 0.2:g} {begin:g} {top:g} {end:g} {top:g} "
        f"A {w * 0.35:g} {h / 2:g} 0 0 1 {end:g} {bottom:g} "
        f"C {begin:g} {bottom:g} {begin:g} {middle + h * 0.2:g} {x:g} {middle:g} Z"
    )


def _opening(size: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" font-family="sans-serif">'


def _thick(pixels: int) -> str:
    """How thick a line is, where that is not the usual one."""
    return f' stroke-width="{pixels}"' if pixels != 1 else ""


def code(colour: Colour) -> str:
    """As SVG writes it: "#20a0ff"."""
    return "#{:02x}{:02x}{:02x}".format(*colour) if colour != BLACK else "#000"
