"""Counting the beads of some steps, in words: what should be there, and what the answer says."""

from __future__ import annotations

from companion.core.forecast.counting import Stretch
from companion.core.plan.plan import Plan
from companion.core.values.text import count_of, sentences
from companion.core.words.measured.count_back import in_hand
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_name


def stretch_words(plan: Plan, counted: Stretch, done: int) -> str:
    """The question's first sentences: "Steps 13 to 18 should hold 6 beads. Back from the last bead done: 6 Grey pearls,
    then 12 more to the start.". `done`: how many steps of the piece are done."""
    first, last = _ends(plan, counted)
    beads = count_of(counted.beads, "bead", "one")
    steps = f"Step {last}" if first == last else f"Steps {first} to {last}"
    return sentences(f"{steps} should hold {beads}.", in_hand(plan, counted, done))


def please_count(plan: Plan, counted: Stretch, done: int, key: str = "", by_hand: bool = True) -> str:
    """What to do: "Count the beads in steps 13 to 18 (r): there should be 6. Back from the last bead done: 6 Grey
    pearls, then 12 more to the start.". `key`: what takes the count, in brackets, or ""; `by_hand`: it says where the
    hand finds them, for what takes the count does not."""
    first, last = _ends(plan, counted)
    steps = f"step {last}" if first == last else f"steps {first} to {last}"
    found = in_hand(plan, counted, done) if by_hand else ""
    return sentences(f"Count the beads in {steps}{key}: there should be {counted.beads}.", found)


def _ends(plan: Plan, counted: Stretch) -> tuple[str, str]:
    last = max(1, counted.step)
    return step_name(plan, min(counted.since + 1, last)), step_name(plan, last)


def which_is_it(plan: Plan, beads: int, done: int, to: int, what: str = "screen") -> tuple[str, str, str]:
    """What was counted, and the two things that it may mean, each as a sentence. `done`: where the screen stands, `to`:
    where it would be set; `what`: what says so."""
    more, side = ("more", "behind") if beads > 0 else ("fewer", "ahead")
    number = "One" if abs(beads) == 1 else str(abs(beads))
    left = {-1: "A bead really is left out", 1: "There really is a bead too many"}.get(
        beads, f"{-beads} beads really are left out" if beads < 0 else f"There really are {beads} beads too many"
    )
    return (
        f"{number} {more} than the {what} says.",
        f"1  The {what} is {side}: set it {_set(plan, done, to)}.",
        f"2  {left}: reckon with it.",
    )


def screen_set_words(plan: Plan, done: int, to: int, left_out: int = 0, what: str = "screen") -> str:
    """That the screen was set right: "The screen is set back from step 26 to 25.". `left_out`: how many readings fit no
    step any more."""
    fits = {0: "", 1: "One earlier reading fits no step now and is left out."}
    more = fits.get(left_out, f"{left_out} earlier readings fit no step now and are left out.")
    return sentences(f"The {what} is set {_set(plan, done, to)}.", more)


def _set(plan: Plan, done: int, to: int) -> str:
    way = "back" if to < done else "on"
    return f"{way} from step {step_name(plan, done)} to {step_name(plan, to) if to else '0'}"


def off_words(beads: int) -> str:
    """How far a count is off: "2 fewer than the plan says."; 0: that it agrees."""
    if beads == 0:
        return "As many as the plan says."
    number = "One" if abs(beads) == 1 else abs(beads)
    return f"{number} {'more' if beads > 0 else 'fewer'} than the plan says."


def count_notice(beads: int) -> Notice:
    """What a count says that found so many beads more than planned; 0: as many; below 0: fewer."""
    if beads == 0:
        return Notice("quiet", "Count agrees and is recorded.", "Count again to change it.")
    return Notice("quiet", off_words(beads), "That is recorded and reckoned with.")


def count_words(beads: int) -> str:
    """The same as one text."""
    return count_notice(beads).text
