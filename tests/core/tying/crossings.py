"""The crossings of a drawing, found apart from how it is painted: every pair of short pieces of cord that cut."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from companion.core.tying.knot_picture import scene_of
from companion.core.tying.scene import CordPath, Scene
from companion.core.tying.shown import KnotShown
from companion.core.words.trade.how_to import names

STEP = 0.5
CELL = 1.5


class Crossing(NamedTuple):
    """Where one cord passes another, or itself. `sign`: 1 where the one below crosses the one above from its right."""

    over: tuple[int, float]  # the cord, and how far along it
    under: tuple[int, float]
    apart: float  # in height
    sign: int


def drawn_once() -> list[str]:
    """One name of every drawing."""
    told = {scene.told: name for name in names() if (scene := scene_of(KnotShown(name)))}
    return list(told.values())


def crossings(scene: Scene) -> list[Crossing]:
    """Every crossing of the drawing."""
    pieces = [(number, *piece) for number, cord in enumerate(scene.cords) for piece in _pieces(cord)]
    cells = defaultdict(list)
    for piece in pieces:
        (ax, ay, _), (bx, by, _) = piece[2], piece[3]
        for x in range(int(min(ax, bx) // CELL), int(max(ax, bx) // CELL) + 1):
            for y in range(int(min(ay, by) // CELL), int(max(ay, by) // CELL) + 1):
                cells[x, y].append(piece)
    found = {}
    for near in cells.values():
        for one, other in combinations(near, 2):
            if one[0] == other[0] and abs(one[1] - other[1]) <= 2:
                continue
            if cut := _cut(one, other):
                found[one[:2], other[:2]] = cut
    apart: list[Crossing] = []
    for one in found.values():  # a place where two pieces end lies on both
        if not any(_same(one.over, other.over) and _same(one.under, other.under) for other in apart):
            apart.append(one)
    return apart


def along(scene: Scene, cord: int, *others: int) -> list[str]:
    """What that cord does at its crossings from its beginning on: "over" or "under"; with `others`: only those with
    these cords."""
    met = [
        (place, side)
        for crossing in crossings(scene)
        for (number, place), (other, _), side in (
            (crossing.over, crossing.under, "over"), (crossing.under, crossing.over, "under"),
        )
        if number == cord and (not others or other in others)
    ]  # fmt: skip
    return [side for _, side in sorted(met)]


def _same(one: tuple[int, float], other: tuple[int, float]) -> bool:
    return one[0] == other[0] and abs(one[1] - other[1]) < 0.5


def _pieces(cord: CordPath) -> Iterator[tuple]:
    way = list(cord.way(STEP))
    yield from ((place, *ends) for place, ends in enumerate(pairwise(way)))


def _cut(one, other):
    (first, place, a, b), (second, other_place, c, d) = one, other
    across = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if not across:
        return None
    t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / across
    u = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / across
    if not (0 <= t < 1 and 0 <= u < 1):
        return None
    high, low = a[2] + t * (b[2] - a[2]), c[2] + u * (d[2] - c[2])
    here, there = (first, place + t), (second, other_place + u)
    turn = 1 if across > 0 else -1
    return Crossing(here, there, high - low, turn) if high > low else Crossing(there, here, low - high, -turn)
