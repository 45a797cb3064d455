"""A drawing of a knot painted in pixels: cords as round bodies with light on them, a gap where one dives under."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import cos, hypot, pi, sqrt

from msgspec.structs import replace

from companion.core.drawing.bodies import UPRIGHT, Turn, light_at
from companion.core.drawing.pixels import Letter, Palette, Pixels, lit
from companion.core.picture.colours import Colour, mixed, relative_luminance
from companion.core.tying.scene import UNITS_HIGH, UNITS_WIDE, Body, CordPath, Point, Scene, beside

SAMPLES = 3  # across a pixel, either way
MOST_LAYERS = 3  # that are drawn side by side
THINNER = {1: 1.0, 2: 0.66, 3: 0.52}  # the radius of each of so many, in that of one
GAP, GAP_PIXELS = 0.9, 1.0  # units, and at least pixels, beside a cord in which what passes under it is not seen
APART = 1.2  # units of height between two cords that cross
TWIST, TWIST_LENGTH = 0.13, 2.6  # how much lighter and darker the plies of a cord are; units of one
TWISTED_FROM = 1.2  # pixels a unit, from which plies are seen
COILED = 0.4  # how much lighter and darker the turns of a coil are
OF_LAYERS = (1.12, 0.72)  # the light on cords that lie side by side, in turn
FAINTEST = 0.15  # cover below which nothing is painted
_LIGHT_PAGE, _SOFTER = 0.4, 0.6  # luminance of a page on which shade is so much softer


Colours = Mapping[str, Colour]  # by what a thing is made of


def paint_scene(scene: Scene, scale: float, colours: Colours, palette: Palette, layers: int = 1) -> Pixels:
    """The drawing at so many pixels a unit, its cords in so many layers. `palette`: of the page."""
    painter = _Painter(scale, colours, palette)
    for cord in scene.cords:
        for number, one in enumerate(side_by_side := tuple(layers_of(cord, layers))):
            painter.cord(one, OF_LAYERS[number % 2] if len(side_by_side) > 1 else 1.0)
    for body in scene.bodies:
        painter.body(body)
    return painter.done(scene.bodies)


def size_at(scale: float) -> tuple[int, int]:
    """Pixels of a drawing, wide and high; the height is even."""
    high = round(UNITS_HIGH * scale)
    return round(UNITS_WIDE * scale), high + high % 2


def layers_of(cord: CordPath, layers: int, way: Sequence[Point] | None = None) -> Iterator[CordPath]:
    """The cords that lie side by side in it; `way`: its places, where they are known already."""
    side_by_side = min(layers, MOST_LAYERS) if cord.in_layers and cord.stuff in ("cord", "other cord") else 1
    radius = cord.radius * THINNER[side_by_side]
    if side_by_side == 1:
        yield cord
        return
    way = tuple(cord.way(1.0)) if way is None else way
    for number in range(side_by_side):
        aside = (2 * number - side_by_side + 1) * radius
        yield replace(cord, points=beside(way, aside), radius=radius)


class _Sample:
    """What is seen at one place."""

    __slots__ = ("colour", "height", "light", "middle")

    def __init__(self) -> None:
        self.height, self.middle, self.light = float("-inf"), float("-inf"), 1.0
        self.colour: Colour | None = None


class _Painter:
    """Sweeps cords over a grid of samples; what has more height is seen."""

    def __init__(self, scale: float, colours: Colours, palette: Palette) -> None:
        self.colours, self.palette = colours, palette
        self.wide, self.high = size_at(scale)
        self.scale = scale * SAMPLES  # samples a unit
        self.gap, self.twist = max(GAP, GAP_PIXELS / scale), TWIST if scale >= TWISTED_FROM else 0.0
        self.columns, self.lines = self.wide * SAMPLES, self.high * SAMPLES
        self.samples = [_Sample() for _ in range(self.columns * self.lines)]
        self.above = [float("-inf")] * (self.columns * self.lines)  # the height of what passes over near by
        self.shade = _SOFTER if relative_luminance(palette.ground) > _LIGHT_PAGE else 1.0

    def cord(self, cord: CordPath, light: float) -> None:
        """Sweep a cord's cross-section along its way. `light`: on its own colour."""
        step, colour = 0.5 / self.scale, lit(self.colours[cord.stuff], light)
        way = list(cord.way(step * 1.4))
        along, twist = 0.0, COILED if cord.stuff == "coil" else self.twist
        for place, (x, y, z) in enumerate(way):
            (ax, ay, _), (bx, by, _) = way[max(0, place - 1)], way[min(len(way) - 1, place + 1)]
            length = hypot(bx - ax, by - ay) or 1.0
            turned = ((bx - ax) / length, (by - ay) / length)
            if place:
                along += hypot(x - ax, y - ay)
            radius = _radius(cord, place / max(1, len(way) - 1))
            ply = 1 + twist * cos(2 * pi * along / TWIST_LENGTH) if cord.stuff != "metal" else 1.0
            self._across((x, y, z), turned, radius, step, lit(colour, ply))

    def _across(
        self, place: tuple[float, float, float], turned: Turn, radius: float, step: float, colour: Colour
    ) -> None:
        (x, y, z), reach = place, radius + self.gap
        steps = int(reach / step)
        for number in range(-steps, steps + 1):
            aside = number * step
            column = int((x - turned[1] * aside) * self.scale)
            line = int((y + turned[0] * aside) * self.scale)
            if not (0 <= column < self.columns and 0 <= line < self.lines):
                continue
            at = line * self.columns + column
            self.above[at] = max(self.above[at], z)
            share = aside / radius
            if abs(share) > 1:
                continue
            height, sample = z + radius * sqrt(1 - share * share), self.samples[at]
            if height > sample.height:
                sample.height, sample.middle, sample.colour = height, z, colour
                sample.light = _tube_light(share, turned)

    def body(self, body: Body) -> None:
        """Lay a bead, a button or a finding over what is lower."""
        (x, y, z), colour = body.place, self.colours[body.stuff]
        half_wide, half_high = body.length / 2 * self.scale, body.across / 2 * self.scale
        middle_x, middle_y = x * self.scale, y * self.scale
        for line in range(max(0, int(middle_y - half_high)), min(self.lines, int(middle_y + half_high) + 1)):
            for column in range(max(0, int(middle_x - half_wide)), min(self.columns, int(middle_x + half_wide) + 1)):
                u, v = (column + 0.5 - middle_x) / half_wide, (line + 0.5 - middle_y) / half_high
                light = light_at(body.form, u, v, UPRIGHT) if abs(u) <= 1 and abs(v) <= 1 else None
                sample = self.samples[line * self.columns + column]
                if light is not None and z > sample.height:
                    sample.height, sample.middle, sample.colour, sample.light = z, z, colour, light

    def done(self, bodies: Iterable[Body]) -> Pixels:
        """The picture, with the letters of its beads."""
        rows = [[self._pixel(column, line) for column in range(self.wide)] for line in range(self.high)]
        letters = []
        for body in bodies:
            if body.letter:
                column, row = (int(part * self.scale / SAMPLES) for part in body.place[:2])
                letters.append(Letter(column, row, body.letter))
                for covered in (row - row % 2, row - row % 2 + 1):
                    rows[covered][column] = self.colours[body.stuff]
        return Pixels(tuple(map(tuple, rows)), tuple(letters))

    def _pixel(self, column: int, line: int) -> Colour | None:
        """One pixel, from its samples."""
        seen: list[Colour] = []
        for down in range(SAMPLES):
            first = (line * SAMPLES + down) * self.columns + column * SAMPLES
            for at in range(first, first + SAMPLES):
                sample = self.samples[at]
                if sample.colour is not None and self.above[at] < sample.middle + APART:
                    light = sample.light if sample.light > 1 else 1 - (1 - sample.light) * self.shade
                    seen.append(lit(sample.colour, light))
        cover = len(seen) / SAMPLES**2
        if cover < FAINTEST:
            return None
        red, green, blue = (round(sum(part) / len(seen)) for part in zip(*seen, strict=True))
        return mixed(self.palette.ground, (red, green, blue), min(1.0, 0.1 + cover))


def _radius(cord: CordPath, share: float) -> float:
    return cord.radius if cord.thin is None else cord.radius + (cord.thin - cord.radius) * share


def _tube_light(share: float, turned: Turn) -> float:
    light = light_at("tube", 0.0, share, turned)
    assert light is not None
    return light
