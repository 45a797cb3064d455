"""Beads as small lit bodies: for each form, which pixels it covers and how much light each of them gets."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import cos, pi, sqrt
from typing import Literal

from msgspec import Struct

from companion.core.picture.outlines import Form

# A finding's forms besides those of beads.
FindingForm = Literal["ring", "coil"]
BodyForm = Form | FindingForm

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


def light_at(form: BodyForm, u: float, v: float) -> float | None:
    """The light at a place of the body's box, from -1 to 1 both along the hole (u) and across it (v, down); None
    outside the body."""
    return _FORMS[form](u, v)


def _lit(nx: float, ny: float) -> float:
    """The light on a surface that leans so far along and across; it faces the eye with what is left."""
    nz = sqrt(max(0.0, 1 - nx * nx - ny * ny))
    diffuse = max(0.0, nx * _LIGHT[0] + ny * _LIGHT[1] + nz * _LIGHT[2])
    shine = max(0.0, nx * _HALF_WAY[0] + ny * _HALF_WAY[1] + nz * _HALF_WAY[2]) ** _SHINE_POWER
    return _AMBIENT + _DIFFUSE * diffuse + _SHINE * shine


def _ball(u: float, v: float) -> float | None:
    return _lit(u, v) if u * u + v * v <= 1 else None


def _tube(u: float, v: float) -> float | None:
    light = _lit(0.0, v * 0.95)
    return light * (0.8 if abs(u) > 0.86 else 1.0)


def _cube(u: float, v: float) -> float | None:
    if v < -0.62:
        return 1.2
    return 0.6 if u > 0.72 or v > 0.72 else 0.92


def _disc(u: float, v: float) -> float | None:
    return _lit(u**3 * 0.8, v * 0.9) if u**4 + v**4 <= 1 else None


def _faceted(u: float, v: float) -> float | None:
    if abs(v) > 1 - 0.7 * abs(u):
        return None
    upper, left = v < 0, u < 0
    return {(True, True): 1.25, (True, False): 0.98, (False, True): 0.78, (False, False): 0.56}[upper, left]


def _drop(u: float, v: float) -> float | None:
    along = (u + 1) / 2
    radius = sqrt(max(0.0, 1 - ((along - 0.62) / 0.38) ** 2)) if along > 0.62 else (along / 0.62) ** 1.15
    if radius <= 0 or abs(v) > radius:
        return None
    return _lit(0.5 * u, 0.92 * v / radius * min(1.0, radius + 0.3))


def _daisy(u: float, v: float) -> float | None:
    petal = cos(3.5 * pi * v)
    if u**4 + v**4 > 0.8 + 0.25 * petal:
        return None
    return _lit(u * 0.6, v * 0.8) * (0.88 + 0.22 * petal)


def _chip(u: float, v: float) -> float | None:
    if u + v > 1.3 or v - u > 1.55 or u - v > 1.5 or -u - v > 1.7:
        return None
    if 0.9 * u + 0.5 * v > 0.45:
        return 0.62
    return 1.14 if 0.4 * u + v < -0.25 else 0.88


def _ring(u: float, v: float) -> float | None:
    reach = u * u + v * v
    return _lit(u * 0.8, v * 0.8) if 0.35 <= reach <= 1 else None


def _coil(u: float, v: float) -> float | None:
    return _lit(0.0, v * 0.9) * (0.75 + 0.35 * cos(7 * pi * u))


_FORMS: dict[BodyForm, Callable[[float, float], float | None]] = {
    "round": _ball, "oval": _ball, "tube": _tube, "cube": _cube, "disc": _disc, "faceted": _faceted, "drop": _drop,
    "daisy": _daisy, "chip": _chip, "ring": _ring, "coil": _coil,
}  # fmt: skip
