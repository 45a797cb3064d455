"""A knot cover: two cups on a hinge, open, with the double knot between them."""

from __future__ import annotations

from math import cos, pi, radians, sin

from companion.core.tying.overhand import bead_body
from companion.core.tying.scene import CordPath, Name, Point, Scene
from companion.core.tying.shown import A_BEAD, BeadLook
from companion.core.tying.ways import circle, turned_about

_LEVEL, _ASIDE = 15.5, 3.0
_HINGE = 14.5
_CUP, _OPEN = 5.2, 80.0  # the radius of a cup; how far each stands open, degrees
_CUP_PLACES = 8
_LOOSE: tuple[Point, ...] = (
    (44, 12, 0), (46.5, 9, 0), (44, 5.4, 0), (37, 4.2, 0), (29, 4.4, 0), (24.5, 6.2, 0), (22.8, 9, 0), (23.4, 11.4, 0),
)  # fmt: skip


def knot_cover(bead: BeadLook = A_BEAD) -> Scene:
    """The cord through the hole in the hinge, and its knot, not tight yet, where the cups will close over it."""
    below, above = turned_about((25, 43), _LEVEL, _ASIDE, 5)
    begins: tuple[Point, ...] = ((0, _LEVEL, 0), (12, _LEVEL, 0), (18, _LEVEL + 0.4, 0), (22, _LEVEL + 2.4, 0))
    out: tuple[Point, ...] = ((47, _LEVEL + _ASIDE, 0), (60, _LEVEL + 2, 0))
    cord = CordPath((*begins, *below, *_LOOSE, *above, *out), radius=1.2)
    metal = (_cup(-1), _cup(1), CordPath(circle(18.2, 3.2, 2.1), "metal", 0.8, joined=True))
    bodies = (bead_body(bead, 9, _LEVEL, 0.75),)
    names = (
        Name("bead", 4, 23), Name("cup", 4, 8), Name("cup", 9, 26), Name("loop", 10, 1.5), Name("double knot", 34, 23),
        Name("tail", 55, 22),
    )  # fmt: skip
    return Scene((cord, *metal), bodies, names, _KNOT_COVER)


def _cup(side: int) -> CordPath:
    """One cup seen from its edge: half a ring from the hinge on, turned open. `side` -1: the upper one."""
    angle = radians(_OPEN)
    points = []
    for place in range(_CUP_PLACES + 1):
        round_it = pi * place / _CUP_PLACES
        along, away = _CUP * (1 - cos(round_it)), _CUP * sin(round_it)
        x, y = along * cos(angle) - away * sin(angle), along * sin(angle) + away * cos(angle)
        points.append((_HINGE + x, _LEVEL + side * (y + 1.2), 9.0))
    return CordPath(tuple(points), "metal", 1.2)


_KNOT_COVER = (
    "The cord comes from the bead at the {left} through the hole in the hinge, between two cups that stand open to the "
    "{right}. A double knot lies loose beyond the hinge, where the cups will close over it, and the tail goes out to "
    "the {right}. One of the cups has the loop on which the clasp hangs."
)
