"""Beads counted by the hand: back from the last one done, kind by kind, to one that can be found."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from companion.core.forecast.counting import Stretch
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.design import Bead
from companion.core.values.text import count_of

ENOUGH_TO_COUNT = 3  # fewer beads than this are counted on past the next landmark


def count_back(plan: Plan, strand: PlannedStrand, made: int) -> str:
    """What to count: the beads back to a landmark or to the start; without beads, the knots since the start.

    A landmark is a bead of another kind, a few beads back. `made`: how many of the strand's elements are made.
    """
    keys = _keys(strand, made)
    if not keys:
        return f"Count the knots from the start: there should be {made}." if made > 1 else "There should be one knot."
    counted = 0
    for _key, group in groupby(reversed(keys)):
        if counted >= ENOUGH_TO_COUNT:
            break
        counted += len(list(group))
    more = len(keys) - counted
    last = f"the last bead done, bead {len(keys)} from {_origin(strand)}" if more else "the last bead done"
    return f"Count back from {last}: {_runs(plan, keys[more:])}, {_to(plan, strand, keys[:more], keys[more])}."


def in_hand(plan: Plan, counted: Stretch, done: int) -> str:
    """Where the beads of some steps are found by the hand, with `done` steps of the piece done: "Back from the last
    bead done: 6 Grey pearls, then 4 more to the start."; "" where it is more than one strand or side."""
    if counted.step == 0:
        return ""
    entry, number = plan.place(counted.step)
    first, strand = plan.piece_step(entry, 0), plan.strands[entry]
    if counted.since < first or counted.beads == 0:
        return ""
    here = min(max(done, counted.step) - first, len(strand.steps))
    all_keys, upto, before = (_keys_after(strand, steps) for steps in (here, number, counted.since - first))
    later, keys = len(all_keys) - len(upto), upto[len(before) :]
    leave = "the last bead" if later == 1 else f"the last {later} beads"
    begin = f"Leave out {leave}, then count back" if later else "Back from the last bead done"
    return f"{begin}: {_runs(plan, keys)}, {_to(plan, strand, before, keys[0])}."


def _keys(strand: PlannedStrand, made: int) -> list[str]:
    return [element.key for element in strand.elements[:made] if isinstance(element, Bead)]


def _keys_after(strand: PlannedStrand, steps: int) -> list[str]:
    """The beads that lie on the strand after so many of its steps."""
    return _keys(strand, strand.steps[steps - 1].elements) if steps else []


def _runs(plan: Plan, keys: Sequence[str]) -> str:
    """The beads as they are met on the way back: "1 Silver daisy, then 6 Sea-glass rounds"."""
    return ", then ".join(count_of(len(list(group)), plan.bead(key).name) for key, group in groupby(reversed(keys)))


def _to(plan: Plan, strand: PlannedStrand, before: Sequence[str], last: str) -> str:
    """How far back: to a bead that looks otherwise than the `last` one counted, by its number, or to the start."""
    origin = _origin(strand)
    if not before:
        return f"to {origin}"
    if before[-1] == last:
        return f"then {len(before)} more to {origin}"
    return f"to the {plan.bead(before[-1]).name} that is bead {len(before)} from {origin}"


def _origin(strand: PlannedStrand) -> str:
    return "the middle" if strand.side else "the start"
