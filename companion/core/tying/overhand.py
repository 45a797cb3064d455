"""The knot between beads, before it is drawn tight: single, double and triple, with the tool in its loop."""

from __future__ import annotations

from companion.core.tying.scene import CORD_RADIUS, Body, CordPath, Name, Point, Scene
from companion.core.tying.shown import A_BEAD, BeadLook
from companion.core.tying.ways import turned_about
from companion.core.values.design import KnotKind, Tool

HALF_TURNS: dict[KnotKind, int] = {"single": 3, "double": 5, "triple": 7}
BEAD_LONG, BEAD_HIGH = 12.0, 13.0  # units at most
_LEGS_FROM = 22.0  # where the two legs begin to be turned about each other
_LEGS_TO: dict[KnotKind, float] = {"single": 46.0, "double": 49.0, "triple": 51.5}
_RADIUS: dict[KnotKind, float] = {"single": CORD_RADIUS, "double": 1.3, "triple": 1.1}
_LEVEL, _ASIDE = 17.8, 3.7
_RIGHT_OF_THE_LOOP = ((4.2, 12.6), (6.2, 8.8), (3, 4.2), (-5, 2.6))  # from where the legs end
_LEFT_OF_THE_LOOP: tuple[Point, ...] = (
    (32, 2.4, 0), (24.5, 2.8, 0), (19.6, 5.8, 0), (18.6, 10.0, 0), (19.6, 13.4, 0),
)  # fmt: skip
_AWL: tuple[Point, ...] = ((35, -4.2, 5), (29.5, 1.3, 5), (25, 5.8, 1), (20, 10.7, -5), (13.2, 17.3, -5))
_BESIDE_IT = ((3.0, 2.4), (2.8, 2.4), (2.2, 2.4), (1.6, 2.4), (0.8, 2.6))  # the other arm of the tweezers


def bead_body(bead: BeadLook, x: float, y: float, most: float = 1.0) -> Body:
    """The bead with its right side there, as large as there is room for, or a share of it."""
    high = min(BEAD_HIGH, BEAD_LONG / bead.ratio)
    length, across = max(3.5, high * bead.ratio) * most, max(4.0, high) * most
    return Body("bead", bead.form, (x - length / 2, y, 8.0), length, across, bead.letter)


def overhand(kind: KnotKind, tool: Tool = "awl", bead: BeadLook | None = A_BEAD, strung: bool = False) -> Scene:
    """The knot beside its bead; None: before the first bead. `strung`: the next beads are on the cord already."""
    legs_to, out = _LEGS_TO[kind], _LEVEL + _ASIDE
    below, above = turned_about((_LEGS_FROM, legs_to), _LEVEL, _ASIDE, HALF_TURNS[kind])
    begins: tuple[Point, ...] = ((0, out, 0), (14, out, 0))
    if bead:
        begins = ((0, _LEVEL, 0), (13, _LEVEL, 0), (17.5, out - 1.2, 0))
    loop = (*((legs_to + x, y, 0.0) for x, y in _RIGHT_OF_THE_LOOP), *_LEFT_OF_THE_LOOP)
    way = (*begins, *below, *loop, *above, (legs_to + 4, out, 0), (60, out, 0))
    called = "tool" if tool == "knotting tool" else tool
    names = (
        Name("bead", 6, 26) if bead else Name("standing end", 6, 25),
        Name(called, 31, 6),
        Name("loop", 45, 8),
        Name("to the next beads" if strung else "working end", 50, 25.5),
    )
    bodies = (bead_body(bead, 12.5, _LEVEL),) if bead else ()
    return Scene((CordPath(way, radius=_RADIUS[kind]), *_tool(tool)), bodies, names, _TOLD[kind] + _TOLD_TOOL[tool])


def _tool(tool: Tool) -> tuple[CordPath, ...]:
    """What is put through the loop, its point at the bead."""
    if tool == "tweezers":
        other = tuple((x + dx, y + dy, z) for (x, y, z), (dx, dy) in zip(_AWL, _BESIDE_IT, strict=True))
        return tuple(CordPath(points, "metal", 0.9, 0.6) for points in (_AWL, other))
    thick = {"awl": 1.6, "needle": 0.8, "knotting tool": 1.2}
    return (CordPath(_AWL, "metal", thick[tool], 0.6),)


_TOLD: dict[KnotKind, str] = {
    "single": "The cord comes from the {left}, goes under, over and under its own end, over the top in a loop, and "
    "back over, under and over itself, out to the {right}.",
    "double": "The cord comes from the {left}, goes under and over its own end five times in turn, over the top in a "
    "loop, and back over and under itself as often, out to the {right}.",
    "triple": "The cord comes from the {left}, goes under and over its own end seven times in turn, over the top in a "
    "loop, and back over and under itself as often, out to the {right}.",
}
_TOLD_TOOL: dict[Tool, str] = {
    "awl": " The awl goes in through the loop, and its point lies where the knot is to sit.",
    "needle": " The needle goes in through the loop, and its point lies where the knot is to sit.",
    "tweezers": " The tweezers reach in through the loop and hold the cord where the knot is to sit.",
    "knotting tool": " The tool goes in through the loop, and its point lies where the knot is to sit.",
}
