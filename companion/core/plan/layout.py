"""What a layout comes to: how many elements, which ones, and in what order — counted before anything is expanded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from companion.core.values.design import Bead, BeadRun, Element, Item, Knot, KnotKind, Mirror, Repeat, Space

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


def in_order(items: Sequence[Item], fit: int = 1, backward: bool = False) -> Iterator[Element]:
    """The elements one at a time, from the start or from the end: no more are made than are asked for."""
    for item in reversed(items) if backward else items:
        match item:
            case Repeat(count=count, of=of):
                for _ in range(fit if count is None else count):
                    yield from in_order(of, fit, backward)
            case Mirror(side=side, middle=middle):
                yield from in_order(side, fit)  # the far side reads from its own end as this one does
                yield from in_order(middle, fit, backward)
                yield from in_order(side, fit, backward=True)
            case BeadRun(key=key, count=count, knot_every=every):
                yield from _run_in_order(Bead(key), fit if count is None else count, every, backward)
            case _:
                yield item


def _run_in_order(bead: Bead, count: int, every: int | None, backward: bool) -> Iterator[Element]:
    for number in range(count, 0, -1) if backward else range(1, count + 1):
        knot = bool(every) and number % (every or 1) == 0
        if knot and backward:
            yield Knot("single")
        yield bead
        if knot and not backward:
            yield Knot("single")


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
    return {kind: total[Knot(kind)] for kind in ("single", "double", "triple")}


def bare_mm(total: Tally) -> float:
    """Bare cord in a tally, mm."""
    return sum(element.length_mm * count for element, count in total.items() if isinstance(element, Space))
