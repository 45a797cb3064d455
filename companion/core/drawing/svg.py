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
    drawing = _Drawing(plan)
    body = list(drawing.lines())
    width, height = ROOM + 2 * MARGIN, drawing.down + MARGIN
    title = escape(plain(plan.design, 200))
    own, other = show_both(plan.finished_length_mm, display_unit(plan.unit))
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height:g}" '
            f'viewBox="0 0 {width} {height:g}" role="img" font-family="sans-serif">',
            f"<title>{title}, {own} ({other})</title>",
            *drawing.gradients(),
            f'<rect width="100%" height="100%" fill="{_code(PAPER)}"/>',
            f'<text x="{MARGIN}" y="34" font-size="20" fill="{_code(INK)}">{title}</text>',
            *body,
            "</svg>",
        )
    )


class _Drawing:
    """Draws from the top down; `down` is where the next thing goes."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.marks = {mark.key: mark for mark in marks_of(plan.beads)}
        self.names = {key: f"bead{number}" for number, key in enumerate(self.marks)}
        self.down = 60.0

    def gradients(self) -> Iterator[str]:
        """The light on each kind of bead, on cord and on metal."""
        yield "<defs>"
        for name, colour in self._colours():
            stops = ((0, lit(colour, 1.55)), (0.45, colour), (1, lit(colour, 0.5)))
            inside = "".join(f'<stop offset="{at:g}" stop-color="{_code(shade)}"/>' for at, shade in stops)
            yield f'<radialGradient id="{name}" cx="0.35" cy="0.3" r="0.75">{inside}</radialGradient>'
        yield "</defs>"

    def lines(self) -> Iterator[str]:
        """Everything below the title."""
        for entry, planned in enumerate(self.plan.strands):
            strand = drawn_strand(self.plan, entry, PIXELS_PER_MM)
            if len(self.plan.strands) > 1:
                yield self._text(MARGIN, self.down, plain(planned.title, 60))
                self.down += 14
            for row in strand.rows(ROOM):
                yield from self._row(strand, row)
        yield from self._legend()

    def _row(self, strand: DrawnStrand, row: tuple[int, int]) -> Iterator[str]:
        first, end = row
        lead = strand.before.width if strand.before and not first else 0
        left = MARGIN + lead
        yield from self._ruler(strand, row, left)
        middle = self.down + RULER + strand.height / 2
        width = strand.begin(end) - strand.begin(first)
        tail = strand.after.width if strand.after and end == len(strand.order) else 0
        begins = left - lead if strand.before and strand.before.kind == "bare" else left
        ends = left + width + (tail if strand.after and strand.after.kind == "bare" else 0)
        yield (
            f'<line x1="{begins:g}" y1="{middle:g}" x2="{ends:g}" y2="{middle:g}" '
            f'stroke="{_code(CORD)}" stroke-width="{strand.cord_pixels}"/>'
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
        self.down += RULER + strand.height + 26

    def _ruler(self, strand: DrawnStrand, row: tuple[int, int], left: float) -> Iterator[str]:
        y = self.down + RULER - 8
        for place, (column, label) in enumerate(ruler_marks(strand, row)):
            x = left + column
            up = 7 if label else 4
            yield f'<line x1="{x:g}" y1="{y:g}" x2="{x:g}" y2="{y - up:g}" stroke="{_code(INK)}"/>'
            if label:
                unit = f" {strand.unit}" if place == 0 or (not row[0] and label == "0") else ""
                yield self._text(x - 3, y - 9, label + unit, size=11)

    def _part(self, part: DrawnPart, x: float, middle: float) -> Iterator[str]:
        if part.kind == "bare":
            return
        yield shape_of(part, x, middle, self._name(part))
        if part.kind == "bead" and part.width >= 10:
            ink = _code(ink_on(self._colour(self.marks[part.key])))
            size = min(14.0, part.width * 0.6)
            yield (
                f'<text x="{x + part.width / 2:g}" y="{middle + size * 0.36:g}" font-size="{size:g}" '
                f'text-anchor="middle" fill="{ink}">{escape(part.letter)}</text>'
            )

    def _legend(self) -> Iterator[str]:
        unit = display_unit(self.plan.unit)
        for mark in legend(self.plan):
            kind = self.plan.bead(mark.key)
            words = f"{mark.letter}   {plain(mark.name, 60)}, {show(kind.length_mm, unit)}"
            yield (f'<circle cx="{MARGIN + 7}" cy="{self.down + 12:g}" r="7" fill="url(#{self.names[mark.key]})"/>')
            yield self._text(MARGIN + 24, self.down + 17, words, size=14)
            self.down += 24

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

    @staticmethod
    def _text(x: float, y: float, text: str, size: float = 13) -> str:
        return f'<text x="{x:g}" y="{y:g}" font-size="{size:g}" fill="{_code(INK)}">{escape(text)}</text>'


def shape_of(part: DrawnPart, x: float, middle: float, fill: str) -> str:
    """A part as a shape in its box: `x` its left edge, `middle` the line of the hole."""
    w, h = part.width, part.height
    cx, top = x + w / 2, middle - h / 2
    paint = f'fill="url(#{fill})" stroke="{_code(mixed(INK, WHITE, 0.45))}" stroke-width="0.7"'
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
                f'stroke="url(#{fill})" stroke-width="{max(1.5, h * 0.16):g}"/>'
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


def _code(colour: Colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour) if colour != BLACK else "#000"
