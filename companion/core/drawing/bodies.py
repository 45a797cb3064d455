"""Beads as small lit bodies: for each form, which pixels it covers and how much light each of them gets."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import cos, pi, sqrt
from typing import Literal

from msgspec import Struct

from companion.core.picture.outlines import Form

# A finding's forms besides those of beads.
FindingForm = Literal["ring", "coil", "loop"]
BodyForm = Form | FindingForm
Turn = tuple[float, float]  # cosine and sine of the angle that a body is turned by, clockwise as it is seen
UPRIGHT: Turn = (1.0, 0.0)

_LIGHT = (-0.44, -0.62, 0.65)  # from the upper left, in front; y runs down
_HALF_WAY = (-0.24, -0.34, 0.91)  # between the light and the eye, where a shine is seen
_AMBIENT, _DIFFUSE, _SHINE = 0.36, 0.74, 0.55
_SHINE_POWER = 22
_SAMPLES = 4  # across each pixel, either way
_RIM = 0.5  # a pixel covered by less than this is outside


class Shade(Struct, frozen=True):
    """A pixel of a body. `cover`: how much of it the body covers, 0 to 1; `light`: what its own colour is multiplied
    by, 1 for the colour itself, above it a shine towards white; `rim`: whether it lies on the body's outline."""

    cover: float
    light: float
    rim: bool


Body = tuple[tuple[Shade, ...], ...]


@cache
def body(form: BodyForm, width: int, height: int) -> Body:
    """The body of that form in a box of so many pixels, rows from the top. Every box of one size is the same."""
    lit = [[_pixel(form, x, y, width, height) for x in range(width)] for y in range(height)]

    def outside(x: int, y: int) -> bool:
        return not (0 <= x < width and 0 <= y < height) or lit[y][x][0] < _RIM

    return tuple(
        tuple(
            Shade(cover, light, any(outside(x + dx, y + dy) for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))))
            for x, (cover, light) in enumerate(row)
        )
        for y, row in enumerate(lit)
    )


def _pixel(form: BodyForm, x: int, y: int, width: int, height: int) -> tuple[float, float]:
    """Cover and mean light of one pixel, from samples on a grid across it."""
    lights = []
    for i in range(_SAMPLES):
        for j in range(_SAMPLES):
            u = (x + (i + 0.5) / _SAMPLES) / width * 2 - 1
            v = (y + (j + 0.5) / _SAMPLES) / height * 2 - 1
            light = light_at(form, u, v)
            if light is not None:
                lights.append(light)
    return (len(lights) / _SAMPLES**2, sum(lights) / len(lights)) if lights else (0.0, 0.0)


def light_at(form: BodyForm, u: float, v: float, turned: Turn = UPRIGHT) -> float | None:
    """The light at a place of the body's box, from -1 to 1 both along the hole (u) and across it (v, down); None
    outside the body. However the body is turned, the light comes from the upper left of the picture."""
    surface = _FORMS[form](u, v)
    if surface is None:
        return None
    (along, across, share), (cosine, sine) = surface, turned
    return share * _lit(along * cosine - across * sine, along * sine + across * cosine)


def _lit(nx: float, ny: float) -> float:
    """The light on a surface that leans so far to the right and down; it faces the eye with what is left."""
    nz = sqrt(max(0.0, 1 - nx * nx - ny * ny))
    diffuse = max(0.0, nx * _LIGHT[0] + ny * _LIGHT[1] + nz * _LIGHT[2])
    shine = max(0.0, nx * _HALF_WAY[0] + ny * _HALF_WAY[1] + nz * _HALF_WAY[2]) ** _SHINE_POWER
    return _AMBIENT + _DIFFUSE * diffuse + _SHINE * shine


# What is seen at a place of a body: how far its surface leans along the hole and across it, and which share of the
# light on it comes back.
Surface = tuple[float, float, float]


def _face(along: float, across: float, light: float) -> Surface:
    """A flat face that leans so, and has that light where the body is not turned: about what the lean itself gives."""
    return along, across, light / _lit(along, across)


def _ball(u: float, v: float) -> Surface | None:
    return (u, v, 1.0) if u * u + v * v <= 1 else None


def _tube(u: float, v: float) -> Surface | None:
    return 0.0, v * 0.95, 0.8 if abs(u) > 0.86 else 1.0


_TOP, _SIDE, _BASE, _FRONT = _face(0, -0.25, 1.2), _face(0.52, 0, 0.6), _face(0, 0.43, 0.6), _face(0, 0, 0.92)


def _cube(u: float, v: float) -> Surface | None:
    if v < -0.62:
        return _TOP
    if u > 0.72:
        return _SIDE
    return _BASE if v > 0.72 else _FRONT


def _disc(u: float, v: float) -> Surface | None:
    return (u**3 * 0.8, v * 0.9, 1.0) if u**4 + v**4 <= 1 else None


_FACETS = {
    (True, True): _face(-0.48, -0.48, 1.25),
    (True, False): _face(0.2, -0.2, 0.98),
    (False, True): _face(-0.26, 0.26, 0.78),
    (False, False): _face(0.3, 0.3, 0.56),
}


def _faceted(u: float, v: float) -> Surface | None:
    return None if abs(v) > 1 - 0.7 * abs(u) else _FACETS[v < 0, u < 0]


def _drop(u: float, v: float) -> Surface | None:
    along = (u + 1) / 2
    radius = sqrt(max(0.0, 1 - ((along - 0.62) / 0.38) ** 2)) if along > 0.62 else (along / 0.62) ** 1.15
    if radius <= 0 or abs(v) > radius:
        return None
    return 0.5 * u, 0.92 * v / radius * min(1.0, radius + 0.3), 1.0


def _daisy(u: float, v: float) -> Surface | None:
    petal = cos(3.5 * pi * v)
    if u**4 + v**4 > 0.8 + 0.25 * petal:
        return None
    return u * 0.6, v * 0.8, 0.88 + 0.22 * petal


_CHIP_EDGE, _CHIP_TOP, _CHIP_FRONT = _face(0.3, 0.2, 0.62), _face(-0.35, -0.69, 1.14), _face(0, 0.03, 0.88)


def _chip(u: float, v: float) -> Surface | None:
    if u + v > 1.3 or v - u > 1.55 or u - v > 1.5 or -u - v > 1.7:
        return None
    if 0.9 * u + 0.5 * v > 0.45:
        return _CHIP_EDGE
    return _CHIP_TOP if 0.4 * u + v < -0.25 else _CHIP_FRONT


def _ring(u: float, v: float) -> Surface | None:
    return (u * 0.8, v * 0.8, 1.0) if 0.35 <= u * u + v * v <= 1 else None


def _loop(u: float, v: float) -> Surface | None:
    return (u * 0.8, v * 0.8, 1.0) if 0.7 <= u * u + v * v <= 1 else None


def _coil(u: float, v: float) -> Surface | None:
    return 0.0, v * 0.9, 0.75 + 0.35 * cos(7 * pi * u)


_FORMS: dict[BodyForm, Callable[[float, float], Surface | None]] = {
    "round": _ball, "oval": _ball, "tube": _tube, "cube": _cube, "disc": _disc, "faceted": _faceted, "drop": _drop,
    "daisy": _daisy, "chip": _chip, "ring": _ring, "coil": _coil, "loop": _loop,
}  # fmt: skip
