"""The drawing of a knot in lines for paper: what passes over is drawn later, with a gap beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby
from math import dist, floor

from msgspec import Struct
from msgspec.structs import replace

from companion.core.drawing.pixels import METAL, Palette, lit
from companion.core.drawing.strand import DrawnPart
from companion.core.drawing.svg import CORD, INK, PAPER, PLAIN, code, shape_of
from companion.core.picture.colours import Colour, ink_on, mixed
from companion.core.tying.knot_picture import BUTTON, GILT, KnotPicture, knot_picture, scene_of
from companion.core.tying.painting import APART, layers_of
from companion.core.tying.scene import UNITS_HIGH, UNITS_WIDE, Body, CordPath, Point, beside
from companion.core.tying.shown import KnotShown

STEP = 1.0  # units of a cord that are drawn straight
GAP = 0.7  # units of paper beside a cord that passes over another
WIDE_MM = 84.0  # on paper: two side by side
FINE = 12  # parts of a unit in which beads are measured
LETTER = 1.9  # units: as large as a name can be and still stand where the screen has room for it
_SHINE = 0.35  # of a cord's thickness
_EDGE = 0.35  # units: the line along what ends in a point


class _Run(Struct, frozen=True):
    """A part of a cord that lies at about one height. `begins`, `ends`: how thick it is there, as a radius; `band`: how
    high it lies, in APART."""

    points: tuple[Point, ...]
    begins: float
    ends: float
    band: int


def knot_svg(shown: KnotShown) -> str:
    """The drawing, WIDE_MM wide, with the names of its parts; "" for what has none. All text is escaped."""
    scene = scene_of(shown)
    palette = Palette(PAPER, INK, CORD, {"": shown.colour or PLAIN})
    named = knot_picture(shown, 1.0, palette)
    if scene is None or named is None:
        return ""
    high = UNITS_HIGH + 2
    size = f'width="{WIDE_MM:g}mm" height="{WIDE_MM * high / UNITS_WIDE:.1f}mm"'
    drawn = [(float(run.band), _cord(run, cord, shown.layers)) for cord in scene.cords for run in _runs(cord)]
    drawn += [(body.place[2] / APART, _body(body, shown.colour or PLAIN)) for body in scene.bodies]
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {UNITS_WIDE:g} {high:g}" role="img" '
            'font-family="sans-serif" stroke-linejoin="round" fill="none">',
            f"<title>{escape(scene.for_the_ear())}</title>",
            *(text for _, text in sorted(drawn, key=lambda one: one[0])),
            *_names(named),
            "</svg>",
        )
    )


def _runs(cord: CordPath) -> Iterator[_Run]:
    """A cord in parts that each lie within one band of height, so that of two that cross the higher one is drawn later.
    Each begins a little before the one before it ends."""
    way = _thinned(tuple(cord.way(STEP)))
    thin = cord.radius if cord.thin is None else cord.thin

    def radius(place: int) -> float:
        return cord.radius + (thin - cord.radius) * place / (len(way) - 1)

    end = 0
    for band, places in groupby(range(len(way) - 1), key=lambda place: _band(way[place], way[place + 1])):
        begin, end = end, end + len(tuple(places))
        yield _Run(way[max(0, begin - 1) : end + 1], radius(max(0, begin - 1)), radius(end), band)


def _band(one: Point, other: Point) -> int:
    return floor((one[2] + other[2]) / 2 / APART)


def _thinned(way: Sequence[Point]) -> tuple[Point, ...]:
    """Without the places that are hardly apart, but for the last."""
    kept = [way[0]]
    for point in way[1:-1]:
        if dist(kept[-1], point) >= STEP / 2:
            kept.append(point)
    return (*kept, way[-1])


def _cord(run: _Run, cord: CordPath, layers: int) -> str:
    """A gap in what it passes over; then each of the cords that lie side by side: its edge, itself, the light on it."""
    colour = {"cord": CORD, "other cord": mixed(CORD, INK, 0.4), "metal": METAL, "coil": GILT}[cord.stuff]
    if run.begins != run.ends:
        return _tapered(run, colour)
    side_by_side = tuple(layers_of(replace(cord, points=run.points), layers, run.points))
    wide = 2 * sum(one.radius for one in side_by_side)
    parts = [_stroke(run.points, PAPER, wide + 2 * GAP)]
    for number, one in enumerate(side_by_side):
        own, across = lit(colour, 0.86 if number % 2 else 1.0), 2 * one.radius
        parts.append(_stroke(one.points, lit(own, 0.5), across))
        parts.append(_stroke(one.points, own, across * 0.76))
        parts.append(_stroke(one.points, lit(own, 1.35), across * _SHINE))
    return "".join(parts)


def _stroke(points: Sequence[Point], colour: Colour, across: float) -> str:
    places = " ".join(f"{x:.1f},{y:.1f}" for x, y, _ in points)
    return f'<polyline points="{places}" stroke="{code(colour)}" stroke-width="{across:.2f}"/>'


def _tapered(run: _Run, colour: Colour) -> str:
    """What ends in a point, such as an awl."""
    parts = [_filled(_sides(run, GAP), PAPER), _filled(_sides(run, 0.0), colour)]
    parts += [_stroke(side, lit(colour, 0.5), _EDGE) for side in _sides(run, -_EDGE / 2)]
    return "".join(parts)


def _sides(run: _Run, more: float) -> tuple[Sequence[Point], Sequence[Point]]:
    """Both its sides, or what lies so much farther out."""
    last = len(run.points) - 1
    radii = [run.begins + (run.ends - run.begins) * place / last + more for place in range(last + 1)]
    one, other = (tuple(beside(run.points, side * r)[n] for n, r in enumerate(radii)) for side in (1, -1))
    return one, other


def _filled(sides: tuple[Sequence[Point], Sequence[Point]], colour: Colour) -> str:
    places = " ".join(f"{x:.1f},{y:.1f}" for x, y, _ in (*sides[0], *reversed(sides[1])))
    return f'<polygon points="{places}" fill="{code(colour)}"/>'


def _body(body: Body, bead: Colour) -> str:
    colour = {"bead": bead, "metal": METAL, "button": BUTTON}[body.stuff]
    part = DrawnPart("bead", body.form, round(body.length * FINE), round(body.across * FINE), 0.0)
    x, y, _ = body.place
    shape = shape_of(part, -part.width / 2, 0.0, code(colour))
    letter = ""
    if body.letter:
        letter = (
            f'<text x="{x:g}" y="{y + 1.0:g}" font-size="2.8" text-anchor="middle" fill="{code(ink_on(colour))}">'
            f"{escape(body.letter)}</text>"
        )
    return f'<g transform="translate({x:g} {y:g}) scale({1 / FINE:.4f})">{shape}</g>{letter}'


def _names(picture: KnotPicture) -> Iterator[str]:
    """Where the screen has room for them."""
    for name in picture.names:
        yield (
            f'<text x="{name.column + len(name.text) / 2:g}" y="{2 * name.line + 1.6:g}" font-size="{LETTER}" '
            f'text-anchor="middle" fill="{code(INK)}">{escape(name.text)}</text>'
        )
