"""How many elements a layout has, which ones, and in what order; counted before anything is expanded."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from companion.core.values.design import KNOT_KINDS, Bead, BeadRun, Element, Item, Knot, KnotKind, Mirror, Repeat, Space

Tally = Counter[Element]


class Term(Struct, frozen=True):
    """Elements that come as often as a power of the count for every `fit`; `every`: that times, for each whole number
    of so many beads in a run of `fit` beads (0: it is in no run)."""

    power: int
    every: int
    tally: Tally

    def times(self, fit: int) -> int:
        """How often it comes with that count for every `fit`."""
        runs = fit // self.every if self.every else 1
        return int(fit**self.power) * runs


class LayoutCount(Struct, frozen=True):
    """How many of each element a layout comes to, whatever the count for every `fit`; nothing is expanded."""

    terms: tuple[Term, ...]

    @classmethod
    def of(cls, items: Sequence[Item]) -> LayoutCount:
        """That of these items."""
        found: dict[tuple[int, int], Tally] = defaultdict(Counter)
        _count(found, items, 1, 0)
        return cls(tuple(Term(power, every, tally) for (power, every), tally in found.items() if tally))

    @property
    def holds_fit(self) -> bool:
        """Whether a `fit` stands anywhere in the layout."""
        return any(term.power or term.every for term in self.terms)

    def total(self, fit: int) -> int:
        """How many beads, knots and bare spans there are at that count."""
        return sum(term.tally.total() * term.times(fit) for term in self.terms)

    def bead_keys(self) -> set[str]:
        """The keys of all its beads."""
        return {element.key for term in self.terms for element in term.tally if isinstance(element, Bead)}


def _count(found: dict[tuple[int, int], Tally], items: Sequence[Item], times: int, power: int) -> None:
    """Adds what the items come to, so many times, each time as often as that power of the fit's count."""
    plain = found[power, 0]
    singles = [item for item in items if isinstance(item, (Bead, Knot, Space))]
    for element, number in Counter(singles).items():
        plain[element] += times * number
    for item in items if len(singles) < len(items) else ():
        match item:
            case Repeat(count=None, of=of):
                _count(found, of, times, power + 1)
            case Repeat(count=int(count), of=of):
                _count(found, of, times * count, power)
            case Mirror(side=side, middle=middle):
                _count(found, side, 2 * times, power)
                _count(found, middle, times, power)
            case BeadRun(key=key, count=None, knot_every=every):
                found[power + 1, 0][Bead(key)] += times
                if every:
                    found[power, every][Knot("single")] += times
            case BeadRun(key=key, count=int(count), knot_every=every):
                plain[Bead(key)] += times * count
                if every:
                    plain[Knot("single")] += times * (count // every)


def expand(items: Iterable[Item], fit: int = 1) -> list[Element]:
    """The elements in order. Check `LayoutCount` first: this makes as many values as the layout says."""
    elements: list[Element] = []
    for item in items:
        match item:
            case Bead() | Knot() | Space():
                elements.append(item)
            case Repeat(count=count, of=of):
                elements += expand(of, fit) * (fit if count is None else count)
            case Mirror(side=side, middle=middle):
                one_side = expand(side, fit)
                elements += one_side
                elements += expand(middle, fit)
                elements += reversed(one_side)
            case BeadRun(key=key, count=count, knot_every=every):
                elements += _run(Bead(key), fit if count is None else count, every)
    return elements


def in_order(items: Sequence[Item], fit: int = 1, backward: bool = False) -> Iterator[Element]:
    """The elements one at a time, from the start or from the end; only those that are asked for are made."""
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
    return {kind: total[Knot(kind)] for kind in KNOT_KINDS}


def bare_mm(total: Tally) -> float:
    """Bare cord in a tally, mm."""
    return sum(element.length_mm * count for element, count in total.items() if isinstance(element, Space))
