"""follow --lines at a real terminal: a whole piece, Ctrl+C, Ctrl+D; no screen is drawn."""

from __future__ import annotations

import pytest

from companion.workshop import open_at
from tests.pseudo_terminal.terminal import Terminal

ROOM = {"columns": 200, "lines": 400}  # nothing scrolls away


def the_piece() -> tuple[int, str]:
    piece = open_at().open("skerry-bracelet").piece
    return piece.done, piece.state


def begin(terminal, skerry) -> Terminal:
    run = terminal("follow", skerry, "--lines", **ROOM)
    run.until("How long is the cord you cut")
    run.press("46\r")
    run.until("Begun: skerry-bracelet.")
    return run


def test_a_whole_piece_at_a_terminal(terminal, skerry) -> None:
    run = begin(terminal, skerry)
    for step in range(1, 17):
        run.press("\r")
        run.until(f"Step {step} done.")
    run.press("3 1/4 x\x7f\x7f in\r")  # a slip, rubbed out by the terminal itself
    run.until("The strand measures 3 1/4 in after step 16.")
    run.press("u\r")
    run.until("Undone: your reading of 3 1/4 in")
    run.press("\r")
    run.until("Step 17 done.")
    run.press("\x03")  # Ctrl+C
    run.until("Left: 17 of 33 steps are done.")
    assert run.wait() == 130
    run = terminal("follow", "--lines", **ROOM)
    run.until("That is step 17 of 33.")
    for step in range(18, 34):
        run.press("\r")
        run.until(f"Step {step} done.")
    run.press("\r")
    run.until("How long did it come out")
    run.press("7 15/16\r")
    run.until("How much of each cord is left")
    run.press("4\r")
    run.until("Skerry bracelet is finished.")
    assert run.wait() == 0
    assert the_piece() == (33, "finished")
    assert [cut.typed for cut in open_at().open("skerry-bracelet").piece.cuts] == ["46"]


@pytest.mark.parametrize(("keys", "code"), [("\x04", 0), ("q\r", 0), ("\x03", 130)])
def test_leaving_keeps_the_piece(terminal, skerry, keys, code) -> None:
    run = begin(terminal, skerry)
    run.press("\r")
    run.until("Step 1 done.")
    run.press(keys)
    run.until("Left: 1 of 33 steps are done.")
    assert run.wait() == code
    assert the_piece() == (1, "under way")


def test_enter_held_down_counts_once(terminal, skerry) -> None:
    """A long bounce, so that a slow machine makes no difference."""
    run = terminal("follow", skerry, "--lines", **ROOM, environment={"TALLYCORD_KEY_BOUNCE": "600"})
    run.until("How long is the cord you cut")
    run.press("\r")
    run.until("Begun: skerry-bracelet.")
    run.press("\r" * 20 + "n still here\r")
    run.until("Noted.")
    assert run.shown.count("It counts once") == 1
    assert the_piece() == (0, "under way")


def test_only_lines_of_text_are_written(terminal, skerry) -> None:
    """No colours, no moves of the cursor: nothing but what is to be heard."""
    run = terminal("follow", skerry, "--lines", **ROOM)
    written: list[str] = []
    show = run.screen.feed
    run.screen.feed = lambda text: (written.append(text), show(text))
    run.until("How long is the cord you cut")
    run.press("\rs\r")
    run.until("No step is done yet.")
    assert "Begun: skerry-bracelet." in "".join(written)
    assert "\x1b" not in "".join(written)
