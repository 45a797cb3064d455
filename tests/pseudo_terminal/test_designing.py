"""A design half-made when its window is killed: all of it is there again, to the line that was typed last."""

from __future__ import annotations

import signal


def test_killed_in_the_middle_of_a_bead_and_offered_again(terminal) -> None:
    first = terminal("design")
    first.until("Give it a name.")
    first.press("\r")
    first.until("what the piece is called")
    first.press("Sula\r")
    first.press("for Anna\r")
    first.press("\r")
    first.until("name Sula")
    first.press("\x1b[B" * 3)
    first.press("\r")
    first.until("One more bead")
    first.press("Pink glass\r")
    first.press("8\r")
    first.wait_for("› thickness")
    first.press("5")  # of this line nothing is kept yet
    first.wait_for("› thickness 5")
    assert first.kill() == -signal.SIGKILL

    second = terminal("design", columns=60, lines=18)
    second.until("This is the design you left. n begins a new one.")
    second.wait_for("name Sula")
    second.wait_for("P Pink glass 8 mm, round")
    second.press("q")
    second.until("Esc quit")
    assert second.quit_from_the_bench() == 0

    third = terminal()
    third.until("Esc quit")
    third.press("d")
    third.until("This is the design you left.")
    third.press("n")
    third.until("name not yet")
    third.press("u")
    third.until("name Sula")
    assert third.kill() == -signal.SIGKILL
