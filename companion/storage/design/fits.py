"""Each `fit` of a layout: where it is written, and whether it adds any length."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import inf

from companion.core.cord.cord import Cord
from companion.core.plan.fit import ALIKE_MM
from companion.core.values.design import Bead, BeadRun, Item, Knot, Mirror, Repeat, Space
from companion.storage.design.yaml_text.strict_yaml import List, Map, Node, Text


def written_fits(layout: Node | None) -> Iterator[Text]:
    """The places of every `fit` that is written in a layout, whatever else is wrong with it."""
    for item in layout.items if isinstance(layout, List) else []:
        if not isinstance(item, Map):
            continue
        for key in ("repeat", "count"):
            value = item.values.get(key)
            if isinstance(value, Text) and value.value == "fit":
                yield value
        for inside in insides(item):
            yield from written_fits(inside)


def insides(item: Map) -> list[Node | None]:
    """The lists inside a layout item: `of`, or the side and the middle of a mirror."""
    mirror = item.values.get("mirror")
    sides = [mirror.values.get("side"), mirror.values.get("middle")] if isinstance(mirror, Map) else []
    return [item.values.get("of"), *sides]


def idle_fits(layout: Iterable[Item], beads_mm: Mapping[str, float], cord: Cord) -> list[int]:
    """Which fits of a layout add no length, by their number (from 0) in the order of `written_fits`.

    `beads_mm`: the length of each kind of bead, mm. A bead whose length is unknown is taken to add some.
    """

    def length_mm(item: Item) -> float:
        match item:
            case Bead(key=key):
                return beads_mm.get(key, inf)
            case Knot(kind=kind):
                return cord.knot(kind).length_mm
            case Space(length_mm=bare_mm):
                return bare_mm
            case Repeat(count=count, of=of):
                return (count or 1) * sum(map(length_mm, of))
            case Mirror(side=side, middle=middle):
                return 2 * sum(map(length_mm, side)) + sum(map(length_mm, middle))
            case BeadRun(key=key, count=count, knot_every=every):
                knots = (count or 1) // every if every else 0
                return (count or 1) * beads_mm.get(key, inf) + knots * cord.single.length_mm

    return [number for number, item in enumerate(_fits(layout)) if length_mm(item) <= ALIKE_MM]


def _fits(items: Iterable[Item]) -> Iterator[Item]:
    for item in items:
        match item:
            case Repeat(count=count, of=of):
                if count is None:
                    yield item
                yield from _fits(of)
            case Mirror(side=side, middle=middle):
                yield from _fits(side)
                yield from _fits(middle)
            case BeadRun(count=None):
                yield item
