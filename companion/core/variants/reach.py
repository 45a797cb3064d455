"""From the cord in hand: the longest piece of a design that it makes at the maker's risk, and the next one, that it
does not. Every count is planned and cut by the same planner as any other design."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from companion.core.cord.cord import CardFigures
from companion.core.plan.layout import LayoutCount
from companion.core.plan.plan import Plan
from companion.core.plan.planner import CannotPlan, compile_plan
from companion.core.values.design import MOST_ELEMENTS, Bead, BeadRun, Design, Item, Mirror, Repeat, Space


class Made(Struct, frozen=True):
    """The piece at one count, 0 where nothing in the design repeats. `needs_mm`: all cord to cut for it, whole."""

    count: int
    plan: Plan
    needs_mm: float


class Reach(Struct, frozen=True):
    """What a cord of `cord_mm` (whole) makes. `made`: the most that it is enough for, None where it is enough for
    nothing; `beyond`: the next one, None where nothing more can be made; `designed`: the design as it stands."""

    cord_mm: float
    made: Made | None
    beyond: Made | None
    designed: Made


def reach(design: Design, cord_mm: float, card: CardFigures | None = None, risk: float | None = None) -> Reach:
    """The most that a cord makes of a design. `card`, `risk`: as for `compile_plan`.

    What a design counts by is its `fit`; without one, the repeat that makes the most of its only strand. Raises
    CannotPlan where the design itself can't be planned.
    """
    plan = compile_plan(design, card, risk=risk)
    opened = _opened(design)
    if opened is None:
        whole = Made(0, plan, needs_mm(plan))
        enough = whole.needs_mm <= cord_mm
        return Reach(cord_mm, whole if enough else None, None if enough else whole, whole)
    open_design, written = opened
    tried: dict[int, Made | None] = {}

    def at(count: int) -> Made | None:
        """The piece at that count; None beyond what can be planned."""
        if count not in tried:
            tried[count] = _made(open_design, count, card, risk)
        return tried[count]

    count = _most(at, cord_mm)
    designed = Made(plan.fit or written, plan, needs_mm(plan))
    return Reach(cord_mm, at(count) if count else None, at(count + 1), designed)


def needs_mm(plan: Plan) -> float:
    """All cord that a plan cuts, whole, mm: its strands' and what is cut apart."""
    return sum(cut.cut_mm for cut in plan.cuts) + sum(extra.cut_mm for extra in plan.extra_cords)


def _most(at: Callable[[int], Made | None], cord_mm: float) -> int:
    """The highest count that the cord is enough for, 0 for none: more always needs more."""

    def enough(count: int) -> bool:
        made = at(count)
        return made is not None and made.needs_mm <= cord_mm

    low, high = 0, 1
    while enough(high):
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if enough(middle) else (low, middle)
    return low


def _made(design: Design, count: int, card: CardFigures | None, risk: float | None) -> Made | None:
    counted = with_count(design, count)
    if sum(LayoutCount.of(strand.layout).total(1) for strand in counted.strands) > MOST_ELEMENTS:
        return None
    try:
        plan = compile_plan(counted, card, risk=risk)
    except CannotPlan:
        return None
    return Made(count, plan, needs_mm(plan))


def with_count(design: Design, count: int) -> Design:
    """The design with that count for every `fit`."""
    strands = (replace(strand, layout=_counted(strand.layout, count)) for strand in design.strands)
    return replace(design, strands=tuple(strands))


def _counted(items: Sequence[Item], count: int) -> tuple[Item, ...]:
    return tuple(_counted_item(item, count) for item in items)


def _counted_item(item: Item, count: int) -> Item:
    match item:
        case Repeat(count=written, of=of):
            return Repeat(count if written is None else written, _counted(of, count))
        case Mirror(side=side, middle=middle):
            return Mirror(_counted(side, count), _counted(middle, count))
        case BeadRun(count=None):
            return replace(item, count=count)
    return item


# -- a design without `fit` -------------------------------------------------------------------------------------------


def _opened(design: Design) -> tuple[Design, int] | None:
    """The design with something to count by, and the count that it has there itself (0 for `fit`); None where there is
    nothing to count by."""
    if any(LayoutCount.of(strand.layout).holds_fit for strand in design.strands):
        return design, 0
    if len(design.strands) > 1:  # which of them should grow, and by how much, only the maker knows
        return None
    strand = design.strands[0]
    largest = max(_repeats(strand.layout), key=_size, default=None)
    if largest is None:
        return None
    layout = _with_fit(strand.layout, largest)
    return replace(design, strands=(replace(strand, layout=layout),)), largest.count or 0


def _repeats(items: Sequence[Item]) -> Iterator[Repeat | BeadRun]:
    """The outermost repeats that hold beads or bare cord."""
    for item in items:
        match item:
            case Repeat(of=of) if any(isinstance(one, Bead | Space) for one in _within(of)):
                yield item
            case BeadRun():
                yield item
            case Mirror(side=side, middle=middle):
                yield from _repeats((*side, *middle))


def _within(items: Sequence[Item]) -> Iterator[object]:
    return (element for term in LayoutCount.of(items).terms for element in term.tally)


def _size(item: Repeat | BeadRun) -> int:
    return LayoutCount.of((item,)).total(1)


def _with_fit(items: Sequence[Item], largest: Repeat | BeadRun) -> tuple[Item, ...]:
    """The layout with `fit` where that very item stands."""
    found: list[Item] = []
    for item in items:
        match item:
            case Repeat() | BeadRun() if item is largest:
                found.append(replace(item, count=None))
            case Mirror(side=side, middle=middle):
                found.append(Mirror(_with_fit(side, largest), _with_fit(middle, largest)))
            case _:
                found.append(item)
    return tuple(found)
