"""In a real pseudo-terminal: begun, killed without warning, gone on with, finished; signals; a terminal that goes."""

from __future__ import annotations

import os
import signal

import pytest

from companion.core.events import Confirmed
from companion.workshop import open_at
from tests.terminal import Terminal


@pytest.fixture
def terminal():
    opened: list[Terminal] = []

    def start(*arguments: object, **size: object) -> Terminal:
        opened.append(Terminal(*arguments, **size))
        return opened[-1]

    yield start
    for one in opened:
        one.close()


def test_killed_after_ten_steps_and_gone_on_with(terminal, skerry, data_folder) -> None:
    first = terminal("follow", skerry)
    first.until("Enter begin")
    first.press("\r")
    first.until("step 1 of 28")
    for step in range(1, 11):
        first.press(" ")
        first.until(f"step {step + 1} of 28")
    assert first.kill() == -signal.SIGKILL

    second = terminal("follow", skerry, columns=60, lines=18)
    recap = " ".join(second.until("Enter go on").split())
    assert "Last made: Sea-glass round, then a single knot. That is step 10 of 28." in recap
    assert "Count back from the last one: 8 Sea-glass round, to the start." in recap
    assert "about 2 5/8 in" in recap
    second.press("\r")
    second.until("step 11 of 28")
    for step in range(11, 29):
        second.press(" ")
        second.until(f"step {step + 1} of 28" if step < 28 else "all 28 steps made")
    second.press(" ")
    second.until("How long did it come out")
    second.press("202 mm\r")
    second.until("is finished.")
    second.press("q")
    assert second.wait() == 0

    workshop = open_at(data_folder)
    work = workshop.open("skerry-bracelet")
    assert work.piece.state == "finished"
    confirms = [entry.event.step for entry in workshop.journal(work) if isinstance(entry.event, Confirmed)]
    assert confirms == list(range(1, 29))


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_asked_to_end_it_ends_and_nothing_is_lost(terminal, skerry, data_folder, number) -> None:
    run = terminal("follow", skerry)
    run.until("Enter begin")
    run.press("\r")
    run.until("step 1 of 28")
    run.press(" ")
    run.until("step 2 of 28")
    assert run.kill(number) in (0, 1, 128 + number)
    assert "Traceback" not in run.screen.text
    assert open_at(data_folder).open("skerry-bracelet").piece.done == 1


@pytest.mark.parametrize("controlling", [True, False])
def test_the_terminal_goes_away(terminal, skerry, data_folder, controlling) -> None:
    """With the signal that a closed window sends, and without it: either way the companion ends."""
    run = terminal("follow", skerry, controlling=controlling)
    run.until("Enter begin")
    run.press("\r")
    run.until("step 1 of 28")
    run.press(" ")
    run.until("step 2 of 28")
    os.close(run.master)
    run.master = os.open(os.devnull, os.O_RDWR)
    run.process.wait(30)
    assert open_at(data_folder).open("skerry-bracelet").piece.done == 1


def test_mouse_in_a_real_terminal(terminal, skerry) -> None:
    """SGR mouse reports, as terminals send them: press and release on the large step."""
    run = terminal("follow", skerry)
    run.until("Enter begin")
    run.press("\x1b[<0;4;24M\x1b[<0;4;24m")
    run.until("step 1 of 28")
    run.press("\x1b[<0;10;5M\x1b[<0;10;5m")
    run.until("step 2 of 28")


def test_a_storm_of_sizes(terminal, skerry) -> None:
    import fcntl
    import struct
    import termios

    run = terminal("follow", skerry)
    run.until("Enter begin")
    run.press("\r")
    run.until("step 1 of 28")
    for lines, columns in ((18, 60), (5, 20), (60, 200), (1, 1), (40, 120), (24, 80)) * 3:
        fcntl.ioctl(run.master, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        run.read(0.02)
    run.press(" ")
    run.until("step 2 of 28")
