"""Knots that tie a cord to a ring, or two ends together."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.tying.scene import UNITS_WIDE, CordPath, Name, Point, Scene
from companion.core.tying.ways import HEIGHT, circle, hitched, turned_about

_UP = HEIGHT * 2


def half_hitches() -> Scene:
    """Two half hitches on the ring of a clasp."""
    level, own = 12.0, 18.0
    there: tuple[Point, ...] = ((0, level, 0), (8, level, 0), (20, level, 0), (34, level, 0), (41, level, 1.5))
    in_the_ring: tuple[Point, ...] = (
        (44.5, level, _UP), (48, level + 0.8, 0), (49.3, 15, -2), (48, own - 0.8, -_UP), (44, own, -_UP),
        (40.5, own, 0),
    )  # fmt: skip
    between: tuple[Point, ...] = ((27.5, 22.6, 0), (24, 20.2, 0))
    out: tuple[Point, ...] = ((13, 24.5, 0), (5, 25.5, 0), (0, 25.5, 0))
    way = (*there, *in_the_ring, *hitched(27, level, own), *between, *hitched(11, level, own), *out)
    names = (
        Name("half hitches", 22, 1), Name("strand", 2, 5), Name("working end", 6, 22), Name("ring", 53, 4)
    )  # fmt: skip
    return Scene((CordPath(way), _ring(51.5, 15, 7.0)), (), names, _HITCHES)


def larks_head() -> Scene:
    """A folded cord on a ring."""
    ring, fold = 9.0, 16.5
    left: tuple[Point, ...] = (
        (27, 27, 0), (27, 21, -1), (27, fold, -HEIGHT), (27, 13, 0), (27, ring, HEIGHT), (26, 5, HEIGHT * 0.7),
        (23, 3, 0), (20, 5, -HEIGHT * 0.7), (19, ring, -HEIGHT), (19.2, 13, 0),
    )  # fmt: skip
    right = tuple(reversed(_facing(left)))
    across: tuple[Point, ...] = (
        (22, fold - 0.6, HEIGHT * 0.8), (27, fold + 0.3, HEIGHT), (33, fold + 0.3, HEIGHT),
        (38, fold - 0.6, HEIGHT * 0.8),
    )  # fmt: skip
    bar = CordPath(((0, ring, 0), (20, ring, 0), (40, ring, 0), (60, ring, 0)), "metal", 1.7)
    names = (Name("ring", 6, 4), Name("fold", 44, 18), Name("both ends", 30, 26))
    return Scene((CordPath((*left, *across, *right)), bar), (), names, _LARKS_HEAD)


def surgeons_knot() -> Scene:
    """Two ends tied together: a reef knot whose first half is passed twice."""
    return _two_ends(15, 5, ("passed once", "passed twice"), _SURGEONS)


def reef_knot() -> Scene:
    """Two ends tied together in two halves that turn opposite ways."""
    return _two_ends(19, 3, ("second half", "first half"), _REEF)


def _two_ends(first_from: float, first_turns: int, halves: tuple[str, str], told: str) -> Scene:
    """Two ends turned about each other, and above that once more the other way. `halves`: the upper one first."""
    low, high = 20.0, 8.5
    left, right = turned_about((first_from, UNITS_WIDE - first_from), low, 3.2, first_turns)
    up_left, up_right = turned_about((21, 39), high, 3.2, 3, hand=-1)
    begins: tuple[Point, ...] = ((0, 24.5, 0), (7, 24.2, 0))
    turn: tuple[Point, ...] = ((49.5, 15.8, 0), (50, 13, 0), (45.5, 11.6, 0))
    ends: tuple[Point, ...] = ((16, 4.6, 0), (8, 2.6, 0), (2, 2, 0))
    one = (*begins, *left, *turn, *reversed(up_right), *ends)
    two = (*_facing(begins), *reversed(right), *_facing(turn), *up_left, *_facing(ends))
    names = (
        Name(halves[0], 30, 2), Name(halves[1], 30, 26.5), Name("end", 5, 7), Name("end", 55, 7)
    )  # fmt: skip
    return Scene((CordPath(one, radius=1.3), CordPath(two, "other cord", radius=1.3)), (), names, told)


def _facing(way: Sequence[Point]) -> tuple[Point, ...]:
    """The same at the other side, at the same height."""
    return tuple((UNITS_WIDE - x, y, z) for x, y, z in way)


def _ring(x: float, y: float, radius: float) -> CordPath:
    return CordPath(circle(x, y, radius), "metal", 1.2, joined=True)


_HITCHES = (
    "The cord comes from the {left}, goes through the ring from the front and comes back below itself. It goes up over "
    "the standing cord, down behind it, and out over itself: a half hitch. A second one, made the same way, lies to "
    "the {left} of it."
)
_LARKS_HEAD = (
    "The folded cord goes through the ring, and its two ends come down through the fold: the fold lies over both of "
    "them, and each goes over the ring and back behind it."
)
_REEF = (
    "The two ends cross three times, over and under in turn, come up at the sides, and cross three times more the "
    "other way round. Each end comes out beside its own cord."
)
_SURGEONS = (
    "The two ends cross five times, over and under in turn, come up at the sides, and cross three times more the other "
    "way round."
)
