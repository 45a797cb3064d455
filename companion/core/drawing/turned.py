"""Bodies turned any way round, as they lie on a piece that is drawn closed."""

from __future__ import annotations

from functools import cache
from math import ceil, cos, hypot, pi, sin

from msgspec import Struct

from companion.core.drawing.bodies import Body, BodyForm, Shade, Turn, light_at

TURNS = 64  # ways round that a body is drawn in
PARTS = 3  # places across a pixel, either way, where its middle may lie
_ELLIPSES = ("round", "oval", "ring", "loop")  # the other forms reach into the corners of their boxes
_RIM = 0.5  # cover below which a pixel is hardly the body any more
_THICK = 7  # pixels; so thick a body needs fewer samples across each of its pixels


class Stamp(Struct, frozen=True):
    """A turned body. `left` and `top`: its first pixel, counted from the one that its middle lies in."""

    left: int
    top: int
    rows: Body


def painted_body(form: BodyForm, length: float, across: float, place: tuple[float, float], angle: float) -> Stamp:
    """The body of that length along its hole and that width across it, pixels, its middle at that place; the hole
    turned clockwise by that angle, radians."""
    (x, y), whole = place, form == "round" and length == across
    turn = 0 if whole else round(angle / (2 * pi) * TURNS) % TURNS
    return _stamp(form, length, across, turn, int(x % 1 * PARTS), int(y % 1 * PARTS))


@cache
def _stamp(form: BodyForm, length: float, across: float, turn: int, part_x: int, part_y: int) -> Stamp:
    angle = turn / TURNS * 2 * pi
    turned, middle = (cos(angle), sin(angle)), ((part_x + 0.5) / PARTS, (part_y + 0.5) / PARTS)
    reach_x, reach_y = _reach(form, length, across, turned), _reach(form, length, across, (turned[1], turned[0]))
    left, top = ceil(reach_x - middle[0]), ceil(reach_y - middle[1])
    width, height = left + ceil(reach_x + middle[0]), top + ceil(reach_y + middle[1])
    samples = 4 if min(length, across) < _THICK else 2
    steps = [(step + 0.5) / samples for step in range(samples)]

    def shade(x: int, y: int) -> Shade:
        lights = []
        for dx in steps:
            for dy in steps:
                right, down = x - left + dx - middle[0], y - top + dy - middle[1]
                u = (right * turned[0] + down * turned[1]) * 2 / length
                v = (down * turned[0] - right * turned[1]) * 2 / across
                light = light_at(form, u, v, turned) if -1 <= u <= 1 and -1 <= v <= 1 else None
                if light is not None:
                    lights.append(light)
        return Shade(len(lights) / samples**2, sum(lights) / len(lights) if lights else 0.0, False)

    return Stamp(-left, -top, _rimmed([[shade(x, y) for x in range(width)] for y in range(height)]))


def _rimmed(rows: list[list[Shade]]) -> Body:
    """The body with its outline marked: the pixels that it covers not all of, or that have such a neighbour."""

    def partly(x: int, y: int) -> bool:
        return not (0 <= y < len(rows) and 0 <= x < len(rows[y])) or rows[y][x].cover < _RIM

    def rim(x: int, y: int) -> bool:
        return any(partly(x + dx, y + dy) for dx, dy in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1)))

    return tuple(
        tuple(Shade(shade.cover, shade.light, rim(x, y)) for x, shade in enumerate(row)) for y, row in enumerate(rows)
    )


def _reach(form: BodyForm, length: float, across: float, turned: Turn) -> float:
    """How far a turned body reaches to the right of its middle; downward, for its turn told from there."""
    along, aside = abs(length * turned[0]), abs(across * turned[1])
    return (hypot(along, aside) if form in _ELLIPSES else along + aside) / 2
