"""What a drawing of a knot holds: cords on their way, bodies beside them, the names of the parts, and the same told.

Places are in units of a drawing of UNITS_WIDE by UNITS_HIGH: x to the right, y down, z towards the eye. Of two cords
that cross, the one with more z passes over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, dist, hypot
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from companion.core.drawing.bodies import BodyForm

Point = tuple[float, float, float]
Stuff = Literal["cord", "other cord", "metal", "coil"]
BodyStuff = Literal["bead", "metal", "button"]

UNITS_WIDE, UNITS_HIGH = 60.0, 27.0
CORD_RADIUS = 1.45  # of one cord; of several side by side, each is a little thinner


class CordPath(Struct, frozen=True):
    """A cord, or a wire or the shaft of a tool: the places that it passes, smoothly. `thin`: its radius at the end
    where it tapers; `joined`: whether its end is its beginning; `layers`: whether it is drawn in the cord's layers."""

    points: tuple[Point, ...]
    stuff: Stuff = "cord"
    radius: float = CORD_RADIUS
    thin: float | None = None
    joined: bool = False
    in_layers: bool = True

    def way(self, step: float) -> Iterator[Point]:
        """The places along it, no two farther apart than about `step`."""
        points = self.points
        before = (points[-1],) if self.joined else (_beyond(points[0], points[1]),)
        after = (points[0], points[1]) if self.joined else (_beyond(points[-1], points[-2]),)
        around = (*before, *points, *after)
        for p, q, r, s in zip(around, around[1:], around[2:], around[3:], strict=False):
            pieces = max(1, ceil(dist(q, r) / step))
            for piece in range(pieces):
                yield _between(p, q, r, s, piece / pieces)
        yield around[-2]


class Body(Struct, frozen=True):
    """A bead, a button or a finding, with the middle of it at that place. It hides what has less z."""

    stuff: BodyStuff
    form: BodyForm
    place: Point
    length: float
    across: float
    letter: str = ""


class Name(Struct, frozen=True):
    """The name of a part, to be written as near to that place as there is room."""

    text: str
    x: float
    y: float


class Scene(Struct, frozen=True):
    """A whole drawing. `told`: the same for the ear, with `{left}` and `{right}` for the sides of the right hand."""

    cords: tuple[CordPath, ...]
    bodies: tuple[Body, ...]
    names: tuple[Name, ...]
    told: str
    mirrored: bool = False

    def for_the_ear(self) -> str:
        """What the drawing shows, in words."""
        left, right = ("right", "left") if self.mirrored else ("left", "right")
        return self.told.format(left=left, right=right)

    def for_the_left_hand(self) -> Scene:
        """What was at the left is at the right; what was over stays over."""
        return Scene(
            tuple(replace(cord, points=tuple(_mirrored(point) for point in cord.points)) for cord in self.cords),
            tuple(replace(body, place=_mirrored(body.place)) for body in self.bodies),
            tuple(replace(name, x=UNITS_WIDE - name.x) for name in self.names),
            self.told,
            not self.mirrored,
        )


def beside(points: Sequence[Point], aside: float) -> tuple[Point, ...]:
    """Places that lie beside a way, to the right of it where that is more than 0."""
    found = []
    for place, (x, y, z) in enumerate(points):
        (ax, ay, _), (bx, by, _) = points[max(0, place - 1)], points[min(len(points) - 1, place + 1)]
        along = hypot(bx - ax, by - ay) or 1.0
        found.append((x - (by - ay) / along * aside, y + (bx - ax) / along * aside, z))
    return tuple(found)


def _mirrored(point: Point) -> Point:
    x, y, z = point
    return UNITS_WIDE - x, y, z


def _beyond(end: Point, before: Point) -> Point:
    return tuple(2 * here - there for here, there in zip(end, before, strict=True))  # type: ignore[return-value]


def _between(p: Point, q: Point, r: Point, s: Point, share: float) -> Point:
    """A place between q and r. Source: E. Catmull, R. Rom, "A class of local interpolating splines" (1974)."""
    t, t2, t3 = share, share * share, share**3
    return tuple(  # type: ignore[return-value]
        0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t2 + (3 * b - a - 3 * c + d) * t3)
        for a, b, c, d in zip(p, q, r, s, strict=True)
    )
