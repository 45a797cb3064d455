"""A piece that is open, without an app: what is done to it, what others do meanwhile, and what is said of both."""

from __future__ import annotations

import asyncio
import subprocess
import sys
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.remedies.search import remedies
from companion.core.values.errors import Busy, NotConfirmed, NotStored
from companion.tui.dialogs.lengths import TypedLength
from companion.tui.follow.session import PieceSession
from companion.workshop import OpenPiece, Workshop, forecasts

REPO = Path(__file__).parents[3]
TIGHT_EVENING = ((9, 33.0), (13, 63.0), (18, 92.0), (22, 120.0))


def session_on(workshop: Workshop, opened: OpenPiece) -> PieceSession:
    """A session that has the piece open here, if nobody else has."""
    session = PieceSession(workshop, opened, wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    return session


@pytest.fixture
def session(workshop, skerry) -> PieceSession:
    """Of a piece with twelve steps done."""
    return session_on(workshop, workshop.jump(workshop.start(skerry), 15))


def said(session: PieceSession) -> str:
    return session.notice.text if session.notice else ""


def raises(error: Exception):
    def act(*_: object) -> None:
        raise error

    return act


def test_it_needs_no_terminal() -> None:
    code = "import sys, companion.tui.follow.session, companion.tui.follow.asking; print('textual' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=REPO)
    assert run.stdout.strip() == "False"


def test_a_step_is_stored_before_it_shows(session, other_window) -> None:
    assert session.confirm()
    assert session.piece == other_window.open(session.opened.name).piece
    assert (session.piece.done, said(session)) == (16, "Step 16 done: S knot.")
    assert session.undo()
    assert said(session) == "Undone: step 16. 15 of 33 steps are done. (U redoes it)"


def test_a_reading_is_undone_before_the_step_that_it_was_taken_after(session) -> None:
    session.measure("strand", TypedLength(80.0, "80 mm"), 15)
    assert [one.length_mm for one in session.piece.readings] == [80.0]
    session.undo()
    assert said(session).startswith("Undone: your reading of 3 1/8 in after step 15. 15 of 33 steps are done.")
    assert (session.piece.readings, session.piece.done) == ((), 15)
    assert session.redo()
    assert [one.length_mm for one in session.piece.readings] == [80.0]
    assert said(session) == "Redone: your reading of 3 1/8 in after step 15. 15 of 33 steps are done."


def test_any_reading_is_taken_out_and_put_back_and_it_is_said_which(session) -> None:
    for length in (TypedLength(80.0, "80 mm"), TypedLength(82.0, "82 mm")):
        session.measure("strand", length, 15)
    assert session.turn_reading(1)
    assert said(session) == "Your reading of 3 1/8 in after step 15 is taken out."
    assert [one.length_mm for one in session.piece.readings] == [82.0]
    assert session.turn_reading(1)
    assert said(session) == "Your reading of 3 1/8 in after step 15 counts again."
    assert session.withdraw()
    assert said(session) == "Your reading of 3 1/4 in after step 15 is taken out."
    session.undo()
    assert said(session).startswith("Undone: taking out your reading of 3 1/4 in after step 15.")
    assert not session.turn_reading(3)
    assert said(session) == "There is no reading 3. The last one is 2."


def test_a_reading_of_a_piece_that_has_moved_on_is_not_taken_out(session, other_window) -> None:
    session.measure("strand", TypedLength(80.0, "80 mm"), 15)
    other_window.withdraw(session.opened)
    assert not session.turn_reading(1)
    assert "has changed" in said(session)
    assert [one.counts for one in session.piece.all_readings] == [False]


def test_what_is_not_stored_does_not_count(session, workshop, monkeypatch) -> None:
    with monkeypatch.context() as full:
        full.setattr(workshop._store, "append", raises(NotStored("The disk is full: nothing was saved.")))
        assert not session.confirm()
    assert (session.piece.done, said(session)) == (15, "The disk is full: nothing was saved.")
    assert session.confirm()
    assert said(session) == "Step 16 done: S knot."


def test_a_step_on_a_piece_that_has_moved_on_is_not_counted(session, other_window) -> None:
    other_window.confirm(session.opened)
    assert not session.confirm()
    assert session.piece.done == 16
    assert "has changed" in said(session)


def test_a_note_and_a_reading_are_true_wherever_the_piece_stands(session, other_window) -> None:
    other_window.confirm(session.opened)
    assert session.note("tight", 15)
    assert session.measure("free", TypedLength(300.0, "300 mm"), 15)
    assert session.piece.done == 16
    assert [(note.step, note.text) for note in session.piece.notes] == [(15, "tight")]
    assert [reading.step for reading in session.piece.readings] == [15]


def test_a_note_that_is_not_stored_is_kept(session, workshop, monkeypatch) -> None:
    monkeypatch.setattr(workshop._store, "append", raises(NotStored("The disk is full: nothing was saved.")))
    assert not session.note("tight", 15)
    assert session.note_kept == "tight"
    assert said(session) == "The disk is full: nothing was saved. The note is kept: n brings it back."


# -- a write in doubt -------------------------------------------------------------------------------------------------


@pytest.fixture
def in_doubt(session, workshop, monkeypatch) -> PieceSession:
    """A step that is stored, though the disk does not say so."""
    append = workshop._store.append

    def stored_and_not_confirmed(*event: object) -> None:
        append(*event)
        raise NotConfirmed("It may have been saved: check before you do it again.")

    with monkeypatch.context() as doubtful:
        doubtful.setattr(workshop._store, "append", stored_and_not_confirmed)
        assert not session.confirm()
    return session


def test_a_write_in_doubt_is_said_until_a_key_answers_it(in_doubt) -> None:
    assert in_doubt.piece.done == 16  # as the file has it
    assert not in_doubt.look_again(asking=False)
    assert said(in_doubt) == "It may have been saved: check before you do it again."
    assert not in_doubt.may_write()
    assert said(in_doubt) == "The saved piece has 16 of 33 steps done."
    assert in_doubt.may_write()
    assert in_doubt.confirm()
    assert in_doubt.piece.done == 17


def test_a_doubt_is_not_answered_while_the_file_can_not_be_read(in_doubt, workshop, monkeypatch) -> None:
    with monkeypatch.context() as gone:
        gone.setattr(workshop, "refresh", raises(NotStored("The disk does not answer.")))
        assert not in_doubt.may_write()
        assert said(in_doubt) == "It may have been saved: check before you do it again."
    assert not in_doubt.may_write()
    assert in_doubt.may_write()


def test_a_note_in_doubt_is_not_brought_back(session, workshop, monkeypatch) -> None:
    monkeypatch.setattr(workshop._store, "append", raises(NotConfirmed("It may be stored.")))
    session.note("tight", 15)
    assert (session.note_kept, said(session)) == ("", "It may be stored.")


# -- open here or elsewhere -------------------------------------------------------------------------------------------


def test_a_piece_that_is_open_elsewhere_is_followed(session, workshop, other_window) -> None:
    assert other_window.take_lock(session.opened, anyway=True) == "here"
    assert session.look_again(asking=False)
    assert session.open_elsewhere
    assert said(session).startswith("Another window took this piece over")
    other_window.confirm(session.opened)
    assert not session.may_write()
    assert said(session).endswith("so nothing was saved. Press h to take over.")
    assert session.piece.done == 16
    session.take_over()
    assert not session.open_elsewhere
    assert said(session) == "You work on the piece here now; the other window can watch."
    assert session.may_write()


def test_a_piece_that_is_let_go_is_open_here(session, other_window) -> None:
    other_window.take_lock(session.opened, anyway=True)
    session.look_again(asking=False)
    other_window.let_go()
    assert session.may_write()
    assert said(session) == "The other window closed the piece. You can work on it here now."


def test_a_piece_taken_a_moment_ago_is_not_written_to(session, other_window) -> None:
    other_window.take_lock(session.opened, anyway=True)
    assert not session.confirm()
    assert (session.piece.done, session.open_elsewhere) == (15, True)
    assert "nothing was saved" in said(session)


# -- what others do ---------------------------------------------------------------------------------------------------


def test_another_plan_waits_for_the_question_that_is_open(workshop, other_window, skerry) -> None:
    opened = workshop.start(skerry)
    for step, length_mm in TIGHT_EVENING:
        opened = workshop.measure(workshop.jump(opened, step), "strand", length_mm, f"{length_mm} mm")
    session = session_on(workshop, opened)
    theirs = other_window.choose(opened, other_window.remedies(opened)[0])
    for _ in range(2):
        assert not session.look_again(asking=True)
    assert session.opened is opened
    assert session.look_again(asking=False)
    assert session.plan == theirs.plan


def test_what_keeps_from_looking_is_news_once_and_once_more_when_it_is_over(session, workshop, monkeypatch) -> None:
    with monkeypatch.context() as gone:
        gone.setattr(workshop, "refresh", raises(NotStored("The disk does not answer.")))
        assert [session.look_again(asking=False) for _ in range(3)] == [True, False, False]
        assert said(session) == "The disk does not answer."
    assert [session.look_again(asking=False) for _ in range(2)] == [True, False]
    assert said(session) == ""


def test_a_held_file_is_not_waited_for_and_nothing_is_said(workshop, skerry, monkeypatch) -> None:
    waits: list[bool] = []
    session = PieceSession(workshop, workshop.start(skerry), waits.append)
    with monkeypatch.context() as held:
        held.setattr(workshop, "refresh", raises(Busy("Another program holds the file.")))
        for _ in range(2):
            assert not session.look_again(asking=False)
    session.look_again(asking=False)
    assert waits == [False, True]
    assert said(session) == ""


# -- what it means ----------------------------------------------------------------------------------------------------


async def test_a_forecast_that_takes_long_comes_later_and_tells_the_bench(session, workshop, monkeypatch) -> None:
    session.measure("strand", TypedLength(82.0, "82 mm"), 15)
    workshop.forecasts = forecasts.Forecasts()
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 0)
    session.measure("strand", TypedLength(120.0, "120 mm"), 15)
    assert session.outlook_at_once() is None
    before = workshop.pieces()[0].warning
    outlook = await session.outlook()
    assert outlook == Forecaster(session.plan, faults=True).outlook(session.piece)
    assert session.outlook_at_once() is outlook
    assert workshop.pieces()[0].warning == session.opened.warning != before


async def test_of_a_piece_that_moves_on_meanwhile_the_last_outlook_comes(session, workshop, monkeypatch) -> None:
    session.measure("strand", TypedLength(80.0, "80 mm"), 15)
    workshop.forecasts = forecasts.Forecasts()
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 0)
    coming = asyncio.create_task(session.outlook())
    await asyncio.sleep(0)
    session.confirm()
    assert await coming == Forecaster(session.plan, faults=True).outlook(session.piece)
    assert (await coming).entries[0].done == 16


async def test_remedies_share_nothing_with_the_screen(workshop, skerry) -> None:
    """The forecaster of the screen is used as hard as can be while they are looked for in their thread."""
    opened = workshop.start(skerry)
    for step, length_mm in TIGHT_EVENING:
        opened = workshop.measure(workshop.jump(opened, step), "strand", length_mm, f"{length_mm} mm")
    session = session_on(workshop, opened)
    outlook = await session.outlook()
    alone = remedies(opened.plan, opened.piece, outlook)
    assert alone
    pieces = [replace(opened.piece, readings=opened.piece.readings[first:]) for first in range(4)]
    right = [workshop.suppose(opened, piece) for piece in pieces]
    interval = sys.getswitchinterval()
    sys.setswitchinterval(1e-5)
    try:
        for _ in range(2):
            beside = asyncio.create_task(session.remedies(outlook))
            while not beside.done():
                assert [workshop.suppose(opened, piece) for piece in pieces] == right
                await asyncio.sleep(0)
            assert beside.result() == alone
    finally:
        sys.setswitchinterval(interval)
