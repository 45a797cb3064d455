"""How long a piece takes to make, at a usual pace or at the maker's own."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from msgspec import Struct

from companion.core.journal.events import Confirmed, Event
from companion.core.journal.pace import PAUSE_SECONDS
from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Plan, Step

# "Almost 2 hours" for a first necklace of about 70 pearls and 70 knots, ends and clasp included: 52 Things 52 Weeks,
# "Pearl Knotting: A Zen Night of Jewelry Making" (2016). How it is shared out is our own estimate.
KNOT_SECONDS, BEAD_SECONDS, STRAND_SECONDS = 75.0, 10.0, 600.0
LEAST_STEPS = 10  # of the maker's own, before they say anything
MOST_TIMES = 10.0  # slower or faster than usual: more is no pace, but a clock that was set, or steps marked afterwards


class Hand(Struct, frozen=True):
    """How the maker works: so many times as long as usual. `own`: by her own steps; else as is usual."""

    times: float = 1.0
    own: bool = False


USUAL_HAND = Hand()


def seconds_to_make(plan: Plan, hand: Hand = USUAL_HAND) -> float:
    """How long the piece takes: its beads and knots, and for each strand the cord to prepare and its two ends."""
    steps = (step for strand in plan.strands for step in strand.steps)
    return hand.times * (sum(map(usual_seconds, steps)) + STRAND_SECONDS * len(strand_groups(plan.strands)))


def usual_seconds(step: Step) -> float:
    """How long a step between the ends usually takes, seconds; 0 for the steps of the ends, which are counted for
    the strand as a whole."""
    if step.kind != "string":
        return 0.0
    return BEAD_SECONDS * len(step.beads) + (KNOT_SECONDS if step.knot else 0.0)


class Timed(Struct, frozen=True):
    """A step that was marked as done, and how long that was after the one before it, seconds."""

    usual_seconds: float
    seconds: float


def timed_steps(journal: Iterable[tuple[float, Event, Plan]]) -> list[Timed]:
    """The steps of a piece that were marked one after the other, pauses left out. `journal`: every event with its time
    in seconds, and the plan as it was then."""
    found = []
    for (before_at, before, _), (at, event, plan) in pairwise(journal):
        if not (isinstance(before, Confirmed) and isinstance(event, Confirmed) and event.step == before.step + 1):
            continue
        entry, number = plan.place(event.step)
        usual = usual_seconds(plan.strands[entry].steps[number - 1])
        if usual and 0 < at - before_at <= PAUSE_SECONDS:
            found.append(Timed(usual, at - before_at))
    return found


def hand_of(timed: Iterable[Timed]) -> Hand:
    """The maker's hand by her own steps; a usual one where they are too few. All of them together: several steps that
    are marked at once, after the work, then count as the work that they were."""
    steps = list(timed)
    if len(steps) < LEAST_STEPS:
        return USUAL_HAND
    times = sum(one.seconds for one in steps) / sum(one.usual_seconds for one in steps)
    return Hand(times, own=True) if 1 / MOST_TIMES <= times <= MOST_TIMES else USUAL_HAND
