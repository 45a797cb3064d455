"""Counting the beads of some steps, in words: what should be there, and what the answer says."""

from __future__ import annotations

from companion.core.forecast.counting import Stretch
from companion.core.plan.plan import Plan
from companion.core.values.text import count_of
from companion.core.words.step_words import step_name


def stretch_words(plan: Plan, counted: Stretch) -> str:
    """The question's first sentence: "Steps 13 to 18 should hold 6 beads."."""
    first, last = step_name(plan, max(1, counted.since + 1)), step_name(plan, max(1, counted.step))
    beads = count_of(counted.beads, "bead", "one")
    if counted.step - counted.since <= 1:
        return f"Step {last} should hold {beads}."
    return f"Steps {first} to {last} should hold {beads}."


def matching_step(plan: Plan, done: int, beads: int) -> int | None:
    """The step up to which the piece is really made, had the maker not left beads out but marked the wrong number of
    steps: `done` are marked, and `beads` more (below 0: fewer) than they hold are there. None where no step ends there,
    or nothing is off."""
    step, missing = done, beads
    while missing < 0 and step > 0:
        missing += len(_beads_of(plan, step))
        step -= 1
    while missing > 0 and step < plan.total_steps:
        step += 1
        missing -= len(_beads_of(plan, step))
    return step if missing == 0 and step != done else None


def _beads_of(plan: Plan, step: int) -> tuple[str, ...]:
    entry, number = plan.place(step)
    return plan.strands[entry].steps[number - 1].beads


def which_is_it(plan: Plan, beads: int, step: int, what: str = "screen") -> tuple[str, str, str]:
    """What was counted, and the two things that it may mean, each as a sentence. `what` says otherwise."""
    more, side = ("more", "behind") if beads > 0 else ("fewer", "ahead")
    number = "One" if abs(beads) == 1 else str(abs(beads))
    if abs(beads) == 1:
        really = "A bead really is left out" if beads < 0 else "There really is a bead too many"
    else:
        really = "Beads really are left out" if beads < 0 else "There really are beads too many"
    return (
        f"{number} {more} than the {what} says.",
        f"1  The {what} is {side}: set it to step {step_name(plan, step)}.",
        f"2  {really}: reckon with it.",
    )


def off_words(beads: int) -> str:
    """How far a count is off: "2 fewer than the plan says."; 0: that it agrees."""
    if beads == 0:
        return "As many as the plan says."
    number = "One" if abs(beads) == 1 else abs(beads)
    return f"{number} {'more' if beads > 0 else 'fewer'} than the plan says."


def count_words(beads: int) -> str:
    """What a count says that found so many beads more than planned; 0: as many; below 0: fewer."""
    if beads == 0:
        return "Count agrees and is recorded. Count again to change it."
    return f"{off_words(beads)} That is recorded and reckoned with."
