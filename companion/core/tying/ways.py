"""The ways that cords take in knots: two turned about each other, a hitch, wraps, a loop."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from companion.core.tying.scene import Point, beside

HEIGHT = 2.4  # how far above or below the middle a cord lies where it crosses another
_A_TURN = 8  # places of a half turn that are written down


def turned_about(x: tuple[float, float], y: float, aside: float, half_turns: int, hand: int = 1) -> list[list[Point]]:
    """Two cords turned about each other between those places, each from the left: the one that begins below, then the
    other. `hand` 1: the first goes under at the first crossing; -1: over."""
    places = [turn / _A_TURN for turn in range(half_turns * _A_TURN + 1)]
    across = [x[0] + (x[1] - x[0]) * place / half_turns for place in places]
    return [
        [
            (at, y + side * aside * cos(pi * place), -side * hand * HEIGHT * sin(pi * place))
            for at, place in zip(across, places, strict=True)
        ]
        for side in (1, -1)
    ]


def hitched(x: float, round_y: float, own_y: float) -> list[Point]:
    """A half hitch round a cord that runs along at `round_y`, by one that comes from the right below it, at `own_y`: up
    over it at `x`, back behind it, and out over itself."""
    top, back = 2 * round_y - own_y - 1.5, x + 6.5
    return [
        (back, own_y, -HEIGHT),
        (x + 2, own_y - 0.3, 0.0),
        (x, round_y + 1.2, HEIGHT * 0.8),
        (x, round_y, HEIGHT),
        (x + 0.4, round_y - 2.2, HEIGHT * 0.7),
        (x + 3.2, top, 0.0),
        (back - 0.4, round_y - 2.2, -HEIGHT * 0.7),
        (back, round_y, -HEIGHT),
        (back, round_y + 2.4, 0.0),
        (back, own_y, HEIGHT),
        (back - 1.0, own_y + 3.4, 0.0),
    ]


def wrapped_round(x: tuple[float, float], y: float, aside: float, turns: int) -> list[Point]:
    """A cord wrapped round what lies along y, so many whole turns from the first place to the second; it begins below
    and comes up in front."""
    steps = 2 * _A_TURN * turns
    return [
        (
            x[0] + (x[1] - x[0]) * step / steps,
            y + aside * cos(pi * step / _A_TURN),
            HEIGHT * 1.5 * sin(pi * step / _A_TURN),
        )
        for step in range(steps + 1)
    ]


def as_a_fold(way: Sequence[Point], aside: float, loop: Sequence[Point]) -> tuple[Point, ...]:
    """There and back: the cord runs along a way, round a loop at its end, and back beside itself."""
    return (*beside(way, -aside), *loop, *reversed(beside(way, aside)))


def circle(x: float, y: float, radius: float, heights: Sequence[float] = (0.0,)) -> tuple[Point, ...]:
    """Places round a circle, clockwise from the left; `heights` are theirs, evenly spread over it."""
    parts = 4 * max(4, len(heights))
    return tuple(
        (
            x - radius * cos(2 * pi * part / parts),
            y - radius * sin(2 * pi * part / parts),
            heights[part * len(heights) // parts],
        )
        for part in range(parts)
    )
