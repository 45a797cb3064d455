"""In a real pseudo-terminal: begun, killed without warning, gone on with, finished; signals; a terminal that goes."""

from __future__ import annotations

import fcntl
import os
import signal
import struct
import termios

import pytest

from companion.core.journal.events import Confirmed
from companion.workshop import open_at
from tests.pseudo_terminal.terminal import Terminal, UnderShell


def test_a_whole_piece_typed_before_the_first_screen_is_there(terminal, skerry, data_folder) -> None:
    """Begun, twelve steps, a reading asked about once, a note, the other steps, its length, the cord that is left."""
    run = terminal("follow", skerry)
    run.press("\r" + " " * 12 + "m6 cm\r\r" + "ntight\r" + " " * 21 + " 202 mm\r" + "\r")
    run.until("is finished.")
    run.press("q")
    run.until("Enter open")
    assert run.quit_from_the_bench() == 0
    piece = open_at(data_folder).open("skerry-bracelet").piece
    assert (piece.state, piece.finished_mm, [note.text for note in piece.notes]) == ("finished", 202.0, ["tight"])
    assert [(reading.step, reading.length_mm) for reading in piece.readings] == [(12, 60.0)]


def test_killed_after_ten_beads_and_gone_on_with(follow, terminal, skerry, data_folder) -> None:
    first = follow()
    for step in range(1, 14):
        first.press(" ")
        first.until(f"step {step + 1} of 33")
    assert first.kill() == -signal.SIGKILL

    second = terminal("follow", skerry, columns=60, lines=18)
    recap = " ".join(second.until("Enter carry on").split())
    assert "Last done: Sea-glass round, then a single knot. That is step 13 of 33." in recap
    assert "Count back from the last bead done: 8 Sea-glass rounds, to the start." in recap
    assert "about 2 5/8 in" in recap
    second.press("\r")
    second.until("step 14 of 33")
    for step in range(14, 34):
        second.press(" ")
        second.until(f"step {step + 1} of 33" if step < 33 else "all 33 steps done")
    second.press(" ")
    second.until("How long did it come out")
    second.press("202 mm\r")
    second.until("with what was trimmed off")
    second.press("\r")
    second.until("is finished.")
    second.press("q")
    second.until("Enter open")
    assert second.quit_from_the_bench() == 0

    workshop = open_at(data_folder)
    opened = workshop.open("skerry-bracelet")
    assert opened.piece.state == "finished"
    confirms = [entry.event.step for entry in workshop.journal(opened) if isinstance(entry.event, Confirmed)]
    assert confirms == list(range(1, 34))


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_asked_to_end_it_ends_and_nothing_is_lost(follow, data_folder, number) -> None:
    run = follow()
    run.press(" ")
    run.until("step 2 of 33")
    assert run.kill(number) in (0, 1, 128 + number)
    assert "Traceback" not in run.screen.text
    assert open_at(data_folder).open("skerry-bracelet").piece.done == 1


@pytest.mark.parametrize("controlling", [True, False])
def test_the_terminal_goes_away(follow, data_folder, controlling) -> None:
    """With the signal that a closed window sends, and without it: either way Tallycord ends."""
    run = follow(controlling=controlling)
    run.press(" ")
    run.until("step 2 of 33")
    os.close(run.master)
    run.master = os.open(os.devnull, os.O_RDWR)
    run.process.wait(30)
    assert open_at(data_folder).open("skerry-bracelet").piece.done == 1


def test_mouse_in_a_real_terminal(terminal, skerry) -> None:
    """SGR mouse reports, as terminals send them: press and release on the large step."""
    run = terminal("follow", skerry)
    run.until("Enter begin")
    run.press("\x1b[<0;4;24M\x1b[<0;4;24m")
    run.until("step 1 of 33")
    run.press("\x1b[<0;10;5M\x1b[<0;10;5m")
    run.until("step 2 of 33")


def test_a_storm_of_sizes(follow) -> None:
    run = follow()
    for lines, columns in ((18, 60), (5, 20), (60, 200), (1, 1), (40, 120), (24, 80)) * 3:
        fcntl.ioctl(run.master, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        run.read(0.02)
    run.press(" ")
    run.until("step 2 of 33")


def modes(run: Terminal) -> int:
    return termios.tcgetattr(run.master)[3]


@pytest.mark.parametrize("how", ["key", "signal"])
def test_set_aside_and_brought_back(follow, data_folder, how) -> None:
    run = follow(kind=UnderShell)
    run.press(" ")
    run.until("step 2 of 33")
    raw = modes(run)
    for step in (3, 5):
        if how == "key":
            run.press("\x1a")
        else:
            run.signal(signal.SIGTSTP)
        run.until("stopped>")
        assert modes(run) & termios.ICANON  # the shell's own again
        other = open_at(data_folder)
        other.confirm(other.open("skerry-bracelet"))  # nothing is held meanwhile
        other.close()
        run.bring_back()
        run.until(f"step {step} of 33")
        assert modes(run) == raw
        run.press(" ")
        run.until(f"step {step + 1} of 33")
    run.press("\x1b")
    run.until("Under way")
    assert run.quit_from_the_bench() == 0
    assert confirms(data_folder) == [1, 2, 3, 4, 5]


def test_a_step_made_just_before_is_counted_once(follow, data_folder) -> None:
    run = follow(kind=UnderShell)
    run.press(" \x1a")
    run.until("stopped>")
    run.press("fg\n")
    run.until("step 2 of 33")
    run.press(" ")
    run.until("step 3 of 33")
    assert confirms(data_folder) == [1, 2]


def test_a_note_half_typed_is_still_there(follow, data_folder) -> None:
    run = follow(kind=UnderShell)
    run.press("n")
    run.until("A note at step 0")
    run.press("tight")
    run.until("tight")
    run.press("\x1a")
    run.until("stopped>")
    run.bring_back()
    run.press("er\r")
    run.until("Noted.")
    workshop = open_at(data_folder)
    assert [note.text for note in workshop.open("skerry-bracelet").piece.notes] == ["tighter"]
    workshop.close()


def test_without_a_shell_it_is_not_set_aside(follow) -> None:
    """A window that runs nothing but Tallycord has nobody who could bring it back."""
    run = follow()
    run.press("\x1a ")
    run.until("step 2 of 33")
    run.process.send_signal(signal.SIGTSTP)
    run.press(" ")
    run.until("step 3 of 33")


def second_window(terminal, skerry) -> Terminal:
    """Another window on the same piece, past its recap, following along."""
    second = terminal("follow", skerry)
    second.until("Enter carry on")
    second.press("\r")
    second.until("This piece is open in another window")
    return second


def take_over(window: Terminal) -> None:
    window.press("h")
    window.until("Take over the piece here?")
    window.press("\r")
    window.until("You work on the piece here now")


def test_a_window_that_hangs_is_taken_over_from_and_writes_nothing_when_it_wakes(
    follow, terminal, skerry, data_folder
) -> None:
    first = follow()
    first.press(" ")
    first.until("step 2 of 33")
    second = second_window(terminal, skerry)
    second.press(" ")
    second.until("so nothing was saved. Press h to take over.")
    first.process.send_signal(signal.SIGSTOP)
    first.press(" ")  # typed into the window that hangs
    take_over(second)
    second.press(" ")
    second.until("step 3 of 33")
    first.process.send_signal(signal.SIGCONT)
    first.until("so nothing was saved. Press h to take over.")  # the answer to that key
    first.until("step 3 of 33")
    assert confirms(data_folder) == [1, 2]
    first.press(" ")
    second.press(" ")
    second.until("step 4 of 33")
    first.until("step 4 of 33")
    take_over(first)  # and back
    second.until("Another window took this piece over")
    first.press(" ")
    second.until("step 5 of 33")
    assert confirms(data_folder) == [1, 2, 3, 4]
    for window in (first, second):
        window.press("\x1b")
        window.until("Under way")
        assert window.quit_from_the_bench() == 0


def test_a_window_that_is_killed_holds_nothing(follow, terminal, skerry, data_folder) -> None:
    first = follow()
    first.press(" ")
    first.until("step 2 of 33")
    second = second_window(terminal, skerry)
    first.kill()
    second.until("You can work on it here now")
    second.press(" ")
    second.until("step 3 of 33")
    assert confirms(data_folder) == [1, 2]


def test_line_commands_are_taken_on_a_piece_that_is_in_hand(follow, terminal, data_folder) -> None:
    run = follow()
    run.press(" ")
    run.until("step 2 of 33")
    for command, step in ((["next"], 3), (["next"], 4), (["back"], 3)):
        line = terminal(*command, "skerry-bracelet")
        assert line.wait() == 0, line.screen.text
        run.until(f"step {step} of 33")
    run.press(" ")
    run.until("step 4 of 33")
    assert confirms(data_folder) == [1, 2, 3, 3]


def test_a_terminal_that_takes_no_more_text(follow, data_folder) -> None:
    """What is written waits for ever, and with it the loop; asked to end, Tallycord ends all the same."""
    run = follow()
    run.press(" ")
    run.until("step 2 of 33")
    other_end = os.open(run.name, os.O_RDWR | os.O_NOCTTY)
    try:
        termios.tcflow(other_end, termios.TCOOFF)
        run.press("t" * 100)  # other colours, and the whole screen written anew for each
        run.process.send_signal(signal.SIGTERM)
        assert run.process.wait(30) == 128 + signal.SIGTERM
    finally:
        os.close(other_end)
    assert confirms(data_folder) == [1]


def confirms(data_folder) -> list[int]:
    """The steps that the journal has as made, in its order."""
    workshop = open_at(data_folder)
    entries = workshop.journal(workshop.open("skerry-bracelet"))
    workshop.close()
    return [entry.event.step for entry in entries if isinstance(entry.event, Confirmed)]
