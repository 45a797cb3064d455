"""Ends with a clasp: the knot in a bead tip, French wire, a crimp, a cord end."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.tying.overhand import bead_body, overhand
from companion.core.tying.scene import Body, CordPath, Name, Point, Scene
from companion.core.tying.shown import A_BEAD, BeadLook
from companion.core.tying.ways import HEIGHT, circle, hitched
from companion.core.values.design import Tool

_UP = HEIGHT * 2
_LEVEL = 14.0


def bead_tip(tool: Tool = "awl", bead: BeadLook = A_BEAD) -> Scene:
    """The double knot on its way down into the cup, which is open away from the beads."""
    knot = overhand("double", tool, None)
    (cord, *tools), level = knot.cords, 21.5
    points = ((0.0, level, 0.0), (14.0, level, 0.0), *(point for point in cord.points if point[0] > 15))
    cup = (
        (19, 16.4, 9),
        (15.4, 17.2, 9),
        (13, 19.2, 9),
        (12.4, level, 9),
        (13, 23.4, 9),
        (15.4, 25.2, 9),
        (19, 25.8, 9),
    )
    hook = ((18.5, 25.8, 9), (24, 26, 9), (29, 25.9, 9), (32.5, 25.2, 9), (33.4, 23.9, 9))
    bodies = (bead_body(bead, 11, level, 0.75),)
    names = (
        Name("bead", 6, 13), Name("cup", 12, 13), Name("hook", 37, 26), Name("tail", 56, 25),
        Name("tool" if tool == "knotting tool" else tool, 31, 6), Name("loop", 45, 8),
    )  # fmt: skip
    metal = (CordPath(cup, "metal", 1.3), CordPath(hook, "metal", 0.9))
    return Scene((replace(cord, points=points), *metal, *tools), bodies, names, _BEAD_TIP)


def french_wire(bead: BeadLook = A_BEAD) -> Scene:
    """The coil drawn into a loop round the clasp's ring, and the knot beside the last bead."""
    strand, own = 12.0, 17.5
    there: tuple[Point, ...] = ((0, strand, 0), (10, strand, 0), (32, strand, 0))
    back: tuple[Point, ...] = ((32, own, 0), (28, own, 0))
    last: tuple[Point, ...] = ((12, own - 1, 0), (8, _LEVEL + 1, 0), (0, _LEVEL + 1, 0))
    loop = ((37.5, strand, 0), (42, 10.5, 1.5), (46.5, 11, _UP), (49.5, _LEVEL + 0.7, 0), (46.5, 18.6, -_UP),
            (42, 19.2, -1.5), (37.5, own, 0))  # fmt: skip
    cord = CordPath((*there, *back, *hitched(16, strand, own), *last), radius=1.15)
    bodies = (bead_body(bead, 9, _LEVEL, 0.8), bead_body(bead, 38, _LEVEL + 0.7))
    names = (Name("bead", 5, 20), Name("end bead", 31, 21), Name("knot", 18, 5), Name("coil", 42, 7), _RING, _TAIL)
    return Scene((cord, CordPath(loop, "coil", 1.5), _ring(52.5, _LEVEL + 0.7)), bodies, names, _FRENCH_WIRE)


def round_the_strand(bead: BeadLook = A_BEAD) -> Scene:
    """A tail on its way back: out of one bead, knotted round the strand, and into the next."""
    strand, own = 12.0, 17.5
    there = CordPath(((0, strand, 0), (20, strand, 0), (40, strand, 0), (60, strand, 0)), radius=1.25)
    tail = CordPath(
        (
            (60, own, 0),
            (44, own, 0),
            *hitched(26, strand, own),
            (21, own - 1, 0),
            (17, _LEVEL + 1, 0),
            (6, _LEVEL + 1, 0),
        ),
        "other cord",
        1.25,
    )
    bodies = (bead_body(bead, 18, _LEVEL), bead_body(bead, 55, _LEVEL + 0.7))
    names = (
        Name("next bead", 11, 23), Name("bead", 49, 23), Name("knot", 29, 3), Name("strand", 38, 8),
        Name("tail", 34, 24),
    )  # fmt: skip
    return Scene((there, tail), bodies, names, _ROUND_THE_STRAND)


def crimp(bead: BeadLook = A_BEAD) -> Scene:
    """The cord through the crimp, the clasp's ring, and back through the crimp and two beads."""
    there, back = _LEVEL - 1.6, _LEVEL + 1.6
    way: tuple[Point, ...] = (
        (0, there, 0), (12, there, 0), (26, there, 0), (41, there, 0), (44.5, there - 0.8, 2), (48, there, _UP),
        (50.2, _LEVEL, 0), (48, back, -_UP), (44.5, back + 0.8, -2), (41, back, 0), (26, back, 0), (14, back, 0),
        (4, back + 0.5, 0),
    )  # fmt: skip
    bodies = (
        bead_body(bead, 16, _LEVEL, 0.8), bead_body(bead, 28, _LEVEL, 0.8),
        Body("metal", "tube", (36.5, _LEVEL, 8), 8, 7.5),
    )  # fmt: skip
    names = (Name("bead", 11, 22), Name("crimp", 36.5, 21), Name("tail", 3, 20), _RING)
    return Scene((CordPath(way, radius=1.3), _ring(53.5, _LEVEL)), bodies, names, _CRIMP)


def cord_end(bead: BeadLook = A_BEAD) -> Scene:
    """The cord glued into a cap, and the clasp on its ring."""
    cord = CordPath(((0, _LEVEL, 0), (12, _LEVEL, 0), (30, _LEVEL, 0)), radius=1.9)
    eye = CordPath(circle(45.5, _LEVEL, 2.6), "metal", 1.0, joined=True)
    bodies = (bead_body(bead, 20, _LEVEL), Body("metal", "tube", (36, _LEVEL, 8), 15, 8.5))
    names = (Name("bead", 13, 23), Name("cord", 24, 9), Name("cord end", 36, 21), _RING)
    heights = (_UP, _UP, 0.0, 0.0, -_UP, -_UP)  # it goes through the eye
    ring = CordPath(circle(52.6, _LEVEL, 6.2, heights), "metal", 1.1, joined=True)
    return Scene((cord, eye, ring), bodies, names, _CORD_END)


_RING = Name("clasp", 54, 5)
_TAIL = Name("tail", 11, 19)


def _ring(x: float, y: float) -> CordPath:
    return CordPath(circle(x, y, 6.0), "metal", 1.1, joined=True)


_BEAD_TIP = (
    "The cord comes from the bead at the {left} through the hole of the cup, which is open to the {right}. "
    "A double knot lies loose beyond it, with the point of the tool through its loop down in the cup. The tail goes "
    "out to the {right}."
)
_FRENCH_WIRE = (
    "The cord comes from the {left} through the end bead, runs inside the coil, which bends into a loop through the "
    "ring of the clasp, and goes back through that bead. Beside the bead it is knotted round the strand, and goes on "
    "to the {left} into the next."
)
_ROUND_THE_STRAND = (
    "The strand runs from {left} to {right} through two beads. The tail comes from the {right} out of one bead, goes "
    "up over the strand, down behind it and out over itself, and on to the {left} into the next bead."
)
_CRIMP = (
    "The cord comes from the {left} through two beads and the crimp, passes through the ring of the clasp, "
    "and goes back to the {left} through the crimp and both beads, out of which its tail shows."
)
_CORD_END = (
    "The cord comes from the {left} through the end bead and ends in the cap. The ring of the clasp hangs in the "
    "cap's own eye at the {right}."
)
