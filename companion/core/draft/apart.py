"""One of several repeats, or a place of a run of beads, let stand apart, so that it can be changed alone."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from companion.core.draft.pattern import Mirrored, Repeated, Typed
from companion.core.draft.places import places_of
from companion.core.values.design import Bead, BeadRun, Knot


def stood_apart(items: Sequence[Typed], element: int, fit: int = 1) -> tuple[Typed, ...] | None:
    """The items with the outermost repeat or run that has that element (from 0) split around it; None where it is in
    none. What fits goes on to be fitted, where nothing else in these items is: in what is left after it, or before."""
    return _split(tuple(items), element, fit, keeps_fit=_fits(items) == 1)


def _split(items: tuple[Typed, ...], element: int, fit: int, keeps_fit: bool) -> tuple[Typed, ...] | None:
    for number, item in enumerate(items):
        elements = len(places_of((item,), fit))
        if element < elements:
            put = _split_item(item, element, fit, keeps_fit)
            return None if put is None else (*items[:number], *put, *items[number + 1 :])
        element -= elements
    return None


def _split_item(item: Typed, element: int, fit: int, keeps_fit: bool) -> tuple[Typed, ...] | None:
    match item:
        case Repeated(count=count, of=of):
            repeats = fit if count is None else count
            if repeats == 1:
                within = _split(of, element, fit, keeps_fit)
                return None if within is None else (Repeated(1, within),)
            before = element // len(places_of(of, fit))
            first, last = _counts(before, repeats - before - 1, keeps_fit and count is None)
            return *_repeated(first, of), *of, *_repeated(last, of)
        case Mirrored():
            return _split_mirror(item, element, fit, keeps_fit)
        case BeadRun():
            return _split_run(item, element, fit, keeps_fit)
        case _:
            return None


def _split_mirror(item: Mirrored, element: int, fit: int, keeps_fit: bool) -> tuple[Typed, ...] | None:
    """On both sides, or in the middle."""
    one_side, middle = len(places_of(item.side, fit)), len(places_of(item.middle, fit))
    if one_side <= element < one_side + middle:
        within = _split(item.middle, element - one_side, fit, keeps_fit)
        return None if within is None else (replace(item, middle=within),)
    on_the_side = element if element < one_side else 2 * one_side + middle - 1 - element
    within = _split(item.side, on_the_side, fit, keeps_fit)
    return None if within is None else (replace(item, side=within),)


def _split_run(item: BeadRun, element: int, fit: int, keeps_fit: bool) -> tuple[Typed, ...]:
    """Its beads up to the next knot, or the one bead where it has no knots, between what comes before and after."""
    beads, every = fit if item.count is None else item.count, item.knot_every
    group = every or 1
    before = element // (group + 1 if every else 1) * group
    alone = min(group, beads - before)
    first, last = _counts(before, beads - before - alone, keeps_fit and item.count is None)
    own: tuple[Typed, ...] = (Bead(item.key),) * alone
    knot: tuple[Typed, ...] = (Knot("single"),) if every and alone == every else ()
    return *_run(item, first), *own, *knot, *_run(item, last)


def _counts(before: int, after: int, fitted: bool) -> tuple[int | None, int | None]:
    """How many come before and after what stands apart; None for as many as fit."""
    if fitted and after:
        return before, None
    return (None, after) if fitted and before else (before, after)


def _repeated(count: int | None, of: tuple[Typed, ...]) -> tuple[Typed, ...]:
    return () if count == 0 else of if count == 1 else (Repeated(count, of),)


def _run(item: BeadRun, count: int | None) -> tuple[Typed, ...]:
    return () if count == 0 else (replace(item, count=count),)


def _fits(items: Sequence[Typed]) -> int:
    """How many of them are fitted, those within others too."""
    found = 0
    for item in items:
        match item:
            case Repeated(count=count, of=of):
                found += (count is None) + _fits(of)
            case Mirrored(side=side, middle=middle):
                found += _fits((*side, *middle))
            case BeadRun(count=None):
                found += 1
    return found
