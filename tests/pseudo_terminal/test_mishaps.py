"""Mishaps in a real pseudo-terminal: what a maker does wrong or what goes wrong, what is said, and what mends it."""

from __future__ import annotations

from companion.workshop import open_at
from tests.pseudo_terminal.terminal import Terminal


def confirm(run: Terminal, first: int, last: int) -> None:
    for step in range(first, last + 1):
        run.press(" ")
        run.until(f"step {step + 1} of")


def measure(run: Terminal, text: str, key: str = "m", doubted: bool = False) -> None:
    """Type a reading. The question already says what the screen will say: wait for that after the question is gone."""
    run.press(key)
    run.until("a bare number is in")
    run.press(text)
    run.until(text)
    if doubted:
        run.press("\r")
        run.until("Press Enter again to accept it anyway.")
    run.leave("Esc cancel", "\r")


def test_a_step_confirmed_and_not_strung(follow) -> None:
    run = follow()
    confirm(run, 1, 10)
    measure(run, "42 mm")
    run.wait_for("On length.")
    confirm(run, 11, 15)  # one of them only by the key
    measure(run, "74 mm")
    run.wait_for("▲ You may")
    run.wait_for("Count the beads in steps 11 to 15 (r): there should be 5.")
    run.press("r")
    run.until("How many are there?")
    run.press("4\r")
    run.until("1 The screen is ahead: set it back from step 15 to 14.")
    run.press("2\r")
    run.until("One fewer than the plan says.")
    for undone in ("the count of beads up to step 15", "your reading of 2 15/16 in after step 15", "step 15"):
        run.press("u")
        run.until(f"Undone: {undone}.")
    run.until("step 15 of 33")
    confirm(run, 15, 15)  # the bead that was missing is strung now
    measure(run, "82 mm")
    run.wait_for("On length.")


def test_an_inch_too_much(follow) -> None:
    run = follow(columns=60, lines=18)
    confirm(run, 1, 10)
    measure(run, "42 mm")
    confirm(run, 11, 15)
    measure(run, "107 mm", doubted=True)
    run.wait_for("Measure again")
    run.wait_for("Your reading of the strand after step 15")
    run.press("x")
    run.until("is taken out")
    measure(run, "82 mm")
    run.wait_for("On length.")


def test_a_tight_evening_and_cord_that_is_short(follow, data_folder) -> None:
    run = follow()
    done = 0
    for step, text in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
        confirm(run, done + 1, step)
        measure(run, text)
        done = step
    run.wait_for("Too short (w: what to do).")
    run.wait_for("tighter than the plan reckons with")
    run.press("w")
    run.until('more "sea-glass round, single knot" from here on')
    run.leave("Esc close")
    free_mm = open_at(data_folder).open("skerry-bracelet").plan.strands[0].steps[21].free_cord_mm
    measure(run, f"{free_mm - 100:.0f} mm", "c", doubted=True)
    run.wait_for("reaches the last knot")
    run.press("w")
    run.until("It leaves little cord to hold.")
    run.leave("Esc close")
    run.press("o")
    run.until("New cord could not be hidden: no bead still to come takes four cords.")
