"""What a layout comes to: how many elements, which ones, and in what order — counted before anything is expanded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from companion.core.values.design import KNOT_KINDS, Bead, BeadRun, Element, Item, Knot, KnotKind, Mirror, Repeat, Space

Tally = Counter[Element]


def holds_fit(items: Iterable[Item]) -> bool:
    """Whether a `fit` stands anywhere in these items."""
    return any(_item_holds_fit(item) for item in items)


def _item_holds_fit(item: Item) -> bool:
    match item:
        case Repeat(count=None) | BeadRun(count=None):
            return True
        case Repeat(of=of):
            return holds_fit(of)
        case Mirror(side=side, middle=middle):
            return holds_fit(side) or holds_fit(middle)
    return False


def tally(items: Iterable[Item], fit: int = 1) -> Tally:
    """How many of each element the items come to with `fit` standing for every `fit`; nothing is expanded."""
    total: Tally = Counter()
    for item in items:
        match item:
            case Repeat(count=count, of=of):
                _add(total, tally(of, fit), fit if count is None else count)
            case Mirror(side=side, middle=middle):
                _add(total, tally(side, fit), 2)
                _add(total, tally(middle, fit), 1)
            case BeadRun(key=key, count=count, knot_every=every):
                beads = fit if count is None else count
                total[Bead(key)] += beads
                if every:
                    total[Knot("single")] += beads // every
            case _:
                total[item] += 1
    return total


def _add(total: Tally, part: Tally, times: int) -> None:
    for element, count in part.items():
        total[element] += count * times


def expand(items: Iterable[Item], fit: int = 1) -> list[Element]:
    """The elements in order. Call `tally` first: this one makes as many values as the layout says."""
    elements: list[Element] = []
    for item in items:
        match item:
            case Repeat(count=count, of=of):
                elements += expand(of, fit) * (fit if count is None else count)
            case Mirror(side=side, middle=middle):
                one_side = expand(side, fit)
                elements += one_side
                elements += expand(middle, fit)
                elements += reversed(one_side)
            case BeadRun(key=key, count=count, knot_every=every):
                elements += _run(Bead(key), fit if count is None else count, every)
            case _:
                elements.append(item)
    return elements


def _run(bead: Bead, count: int, every: int | None) -> list[Element]:
    if not every:
        return [bead] * count
    group: list[Element] = [bead] * every
    group.append(Knot("single"))
    return group * (count // every) + [bead] * (count % every)


def bead_counts(total: Tally) -> dict[str, int]:
    """Beads of each key in a tally."""
    return {element.key: count for element, count in total.items() if isinstance(element, Bead)}


def knot_counts(total: Tally) -> dict[KnotKind, int]:
    """Knots of each kind in a tally; every kind is there."""
    return {kind: total[Knot(kind)] for kind in KNOT_KINDS}


def bare_mm(total: Tally) -> float:
    """Bare cord in a tally, mm."""
    return sum(element.length_mm * count for element, count in total.items() if isinstance(element, Space))
