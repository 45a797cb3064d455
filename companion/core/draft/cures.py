"""What could be changed in a draft that doesn't come out: each way is a draft of its own, planned as any other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import ceil
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from companion.core.draft.draft import Draft, keys_by_letter
from companion.core.draft.layout import FIT, layout_of
from companion.core.draft.pattern import Mirrored, Repeated, Typed, has_groups
from companion.core.draft.places import Path, edited, item_at, put_in_place, reach_of, rewritten
from companion.core.plan.longest import longest_entries
from companion.core.plan.plan import Plan, element_mm
from companion.core.values.design import Bead, Knot
from companion.core.values.measures.show_lengths import display_unit, show

CureKind = Literal["clasp", "one fewer", "repeats", "count", "ease", "length", "tolerance", "one cord"]
MOST_CURES = 5
MOST_ONCE = 60  # elements of one repeat: longer ones are not tried bead by bead
MOST_CLASP_MM = 30.0  # a longer or shorter one by more is another closure
MOST_OFF = 0.15  # of the target: what is further off is another piece, not another ease
LEAST_END_MM = 4.0  # that a clasp adds at each end
HOLE_CODES = ("hole too small", "hole tight")


class Cure(Struct, frozen=True):
    """One way. `by_mm`: so much longer (shorter where below 0), or the new length itself for the ease, the length and
    the tolerance; `count`: how often the repeat comes; `beads`: those that come beside it, or that is left out, by
    name; `each_side`: so on each side of a mirror; `near_mm`: about how long it then is."""

    kind: CureKind
    draft: Draft
    by_mm: float = 0.0
    count: int = 0
    beads: tuple[tuple[str, int], ...] = ()
    each_side: bool = False
    near_mm: float = 0.0


class Cured(Struct, frozen=True):
    """A way, and what its plan comes to. `comes_out`: within what was asked for."""

    cure: Cure
    plan: Plan
    comes_out: bool


def off_mm(plan: Plan) -> float:
    """How much longer than its target a plan is, mm; 0 without one."""
    return 0.0 if plan.target_mm is None else plan.finished_length_mm - plan.target_mm


def misses(plan: Plan) -> bool:
    """Whether it is further from its target than was asked for."""
    return plan.tolerance_mm is not None and abs(off_mm(plan)) > plan.tolerance_mm + 1e-9


def has_tight_holes(plan: Plan) -> bool:
    """Whether a bead's hole is too small for the cord."""
    return any(warning.code in HOLE_CODES for warning in plan.warnings)


def cures(draft: Draft, plan: Plan) -> list[Cure]:
    """What could be tried, those of each kind that come nearest the target first; none where all comes out."""
    found: list[Cure] = []
    if misses(plan):
        found += _clasp(draft, plan)
        found += _nearest(_one_fewer(draft, plan), plan, 2)
        found += _nearest(_repeats(draft, plan), plan, 3)
        found += _as_often_as_fits(draft, plan)
        found += _target(draft, plan)
    if has_tight_holes(plan) and draft.layers.strip() not in ("", "1"):
        found.append(Cure("one cord", replace(draft, layers="1")))
    return found


def worth_showing(tried: Sequence[Cured], off_before_mm: float) -> list[Cured]:
    """Those that bring it out; of each kind two at most, and one that is only nearer where no other of its kind is."""
    shown: list[Cured] = []
    kinds = Counter[CureKind]()
    for one in tried:
        good = one.comes_out if one.cure.kind != "one cord" else not has_tight_holes(one.plan)
        if good and kinds[one.cure.kind] < 2:
            shown.append(one)
            kinds[one.cure.kind] += 1
    for one in sorted(tried, key=lambda one: abs(off_mm(one.plan))):
        nearer = one.cure.kind != "one cord" and abs(off_mm(one.plan)) < abs(off_before_mm) / 2
        if nearer and not kinds[one.cure.kind]:
            shown.append(one)
            kinds[one.cure.kind] += 1
    return sorted(shown, key=tried.index)[:MOST_CURES]


def _nearest(ways: Iterator[Cure], plan: Plan, most: int) -> list[Cure]:
    """By what they come to about: the few that are nearest the target, each length once."""
    target_mm = plan.target_mm or 0.0
    lengths = {round(way.near_mm, 3): way for way in reversed(list(ways))}
    return sorted(lengths.values(), key=lambda way: abs(way.near_mm - target_mm))[:most]


# -- other lengths ----------------------------------------------------------------------------------------------------


def _clasp(draft: Draft, plan: Plan) -> Iterator[Cure]:
    """A clasp that is shorter or longer by what is over or short."""
    over_mm, now_mm = off_mm(plan), _closure_mm(plan)
    each_mm = (now_mm - over_mm) / 2
    if not draft.closure.endswith("clasp") or abs(over_mm) > MOST_CLASP_MM or each_mm < LEAST_END_MM:
        return
    yield Cure("clasp", replace(draft, end_length=typed_length(each_mm, plan)), by_mm=-over_mm)


def _closure_mm(plan: Plan) -> float:
    return sum(plan.strands[entry].closure_length_mm for entry in longest_entries(plan.strands))


def _target(draft: Draft, plan: Plan) -> Iterator[Cure]:
    """What was asked for, changed to what it comes to."""
    over_mm, size = off_mm(plan), plan.size
    if size is None or plan.target_mm is None or abs(over_mm) > MOST_OFF * plan.target_mm:
        return
    ease_mm = size.ease_mm + over_mm / size.turns
    if size.kind == "length":
        long_mm = plan.finished_length_mm
        yield Cure("length", replace(draft, body=typed_length(long_mm, plan)), by_mm=long_mm)
    elif ease_mm >= 0:
        yield Cure("ease", replace(draft, ease=typed_length(ease_mm, plan)), by_mm=ease_mm)
    within_mm = float(ceil(abs(over_mm)))
    yield Cure("tolerance", replace(draft, tolerance=f"{within_mm:g} mm"), by_mm=within_mm)


def typed_length(length_mm: float, plan: Plan) -> str:
    """A length as the maker would type it."""
    return show(length_mm, "in") if display_unit(plan.unit) == "in" else f"{round(length_mm, 1):g} mm"


# -- another number of beads ------------------------------------------------------------------------------------------


class _Repeat(Struct, frozen=True):
    """The repeat of a strand that can come more or less often: all items, its path, what it comes to once, how often it
    comes now, and how often that lies along the strand (twice in a mirror)."""

    items: tuple[Typed, ...]
    path: Path
    once: tuple[Bead | Knot, ...]
    count: int
    sides: int


def _repeat_of(draft: Draft, plan: Plan) -> _Repeat | None:
    """That of a draft of one strand; None where nothing repeats, or where it can't be told apart bead by bead."""
    if draft.others:
        return None
    items = layout_of(draft)
    paths = list(_repeated(items))
    path = next((one for one in paths if _at(items, one).count is None), paths[0] if paths else None)
    if path is None:
        return None
    repeat = _at(items, path)
    once = tuple(one for one in repeat.of if isinstance(one, Bead | Knot))
    if len(once) < len(repeat.of) or not 1 <= len(once) <= MOST_ONCE:
        return None
    reach = reach_of(items, (*path, 0))
    return _Repeat(items, path, once, repeat.count or plan.fit or 1, 2 if reach.mirror else 1)


def _repeated(items: Sequence[Typed]) -> Iterator[Path]:
    """The outermost repeats."""
    for number, item in enumerate(items):
        match item:
            case Repeated(count=count) if count != 1:
                yield (number,)
            case Mirrored(side=side):
                yield from ((number, *path) for path in _repeated(side))


def _at(items: Sequence[Typed], path: Path) -> Repeated:
    found = item_at(items, path)
    assert isinstance(found, Repeated)
    return found


def _as_often_as_fits(draft: Draft, plan: Plan) -> Iterator[Cure]:
    """A pattern that comes so many times, instead as often as fits."""
    if plan.fit is not None or draft.others:
        return
    if not has_groups(draft.pattern):
        yield Cure("count", replace(draft, times=FIT))
    elif repeat := _repeat_of(draft, plan):
        of = Repeated(None, repeat.once)
        changed = rewritten(draft, 0, edited(repeat.items, repeat.path, put_in_place(of)))
        if changed is not None:
            yield Cure("count", changed, each_side=repeat.sides == 2)


def _repeats(draft: Draft, plan: Plan) -> Iterator[Cure]:
    """So many repeats, and then the first few beads of one more."""
    repeat = _repeat_of(draft, plan)
    if repeat is None:
        return
    for count in range(max(1, repeat.count - 1), repeat.count + 2):
        for end in _after_beads(repeat.once):
            if count == repeat.count and not end:
                continue
            more = repeat.once[:end]
            kind: CureKind = "repeats" if end else "count"
            yield from _way(draft, plan, repeat, kind, count, more, _named(draft, more))


def _one_fewer(draft: Draft, plan: Plan) -> Iterator[Cure]:
    """One bead less in the last repeat, with the knot after it."""
    repeat = _repeat_of(draft, plan)
    if repeat is None or off_mm(plan) < 0:
        return
    last = {element.key: at for at, element in enumerate(repeat.once) if isinstance(element, Bead)}
    if len(last) < 2:
        return  # of one kind alone it is the same as a shorter repeat
    for at in last.values():
        after = at + 2 if _knot_at(repeat.once, at + 1) else at + 1
        left = repeat.once[:at] + repeat.once[after:]
        gone = _named(draft, (repeat.once[at],))
        if left:
            yield from _way(draft, plan, repeat, "one fewer", repeat.count - 1, left, gone)


def _knot_at(once: Sequence[Bead | Knot], at: int) -> bool:
    return at < len(once) and isinstance(once[at], Knot)


def _way(
    draft: Draft,
    plan: Plan,
    repeat: _Repeat,
    kind: CureKind,
    count: int,
    more: tuple[Bead | Knot, ...],
    beads: tuple[tuple[str, int], ...],
) -> Iterator[Cure]:
    """The repeat so often, and these elements after it."""
    whole = (Repeated(count, repeat.once),) if count > 1 else repeat.once if count else ()
    items = edited(repeat.items, repeat.path, lambda items, at: (*items[:at], *whole, *more, *items[at + 1 :]))
    changed = rewritten(draft, 0, items)
    if changed is None:
        return
    added_mm = (count - repeat.count) * _long_mm(draft, plan, repeat.once) + _long_mm(draft, plan, more)
    near_mm = plan.finished_length_mm + repeat.sides * added_mm
    yield Cure(kind, changed, 0.0, count, beads, repeat.sides == 2, near_mm)


def _after_beads(once: Sequence[Bead | Knot]) -> Iterator[int]:
    """Where one repeat can end early: before its first bead, and after each but the last, with the knot after it."""
    yield 0
    beads = [at for at, element in enumerate(once) if isinstance(element, Bead)]
    for at in beads[:-1]:
        yield at + 2 if _knot_at(once, at + 1) else at + 1


def _long_mm(draft: Draft, plan: Plan, elements: Sequence[Bead | Knot]) -> float:
    beads, keys = {kind.key: kind for kind in plan.beads}, keys_by_letter(draft)
    named = (Bead(keys[one.key]) if isinstance(one, Bead) else one for one in elements)
    return sum(element_mm(one, beads, plan.cord) for one in named)


def _named(draft: Draft, elements: Sequence[Bead | Knot]) -> tuple[tuple[str, int], ...]:
    """How many beads of each kind, by name."""
    names = {bead.letter: bead.name.strip() or bead.letter for bead in draft.beads}
    return tuple(Counter(names[one.key] for one in elements if isinstance(one, Bead)).items())
