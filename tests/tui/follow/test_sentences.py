"""What is said under the figures, and in which order."""

from __future__ import annotations

import pytest

from companion.core.plan.leftover import trimming_step
from companion.core.values.errors import NotStored
from companion.core.words.measured.reading_words import planned_reading_mm
from companion.core.words.notices import Notice
from companion.tui.dialogs.lengths import TypedLength
from companion.tui.follow.sentences import follow_sentences
from companion.tui.follow.session import PieceSession
from companion.tui.widgets.wrapping import fitted


@pytest.fixture
def session(workshop, skerry) -> PieceSession:
    """Of a piece with fourteen steps done, and not enough cord left."""
    session = PieceSession(workshop, workshop.jump(workshop.start(skerry), 17), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    assert session.measure("free", TypedLength(260.0, "26 cm"), 17)
    return session


def said(session: PieceSession) -> list[str]:
    return [f"{notice.level}: {notice.headline}" for notice in follow_sentences(session, session.outlook_at_once())]


def whole(session: PieceSession) -> list[str]:
    return [notice.text for notice in follow_sentences(session, session.outlook_at_once())]


def test_what_just_happened_comes_first_then_the_cord_that_runs_out(session) -> None:
    session.said = Notice("quiet", "Noted.")
    first, *rest = said(session)
    assert first == "quiet: Noted."
    assert "watch: The cord reaches the last knot, but little of it is left." in rest
    assert "quiet: On length." in rest


def test_what_went_wrong_is_said_alone(session, workshop, monkeypatch) -> None:
    def full(*_: object) -> None:
        raise NotStored("The disk is full: nothing was saved.")

    monkeypatch.setattr(workshop._store, "append", full)
    session.confirm()
    assert said(session) == ["off: The disk is full: nothing was saved."]


def test_while_it_is_worked_out_only_what_happened_is_said(session) -> None:
    assert follow_sentences(session, None) == []
    session.said = Notice("quiet", "Noted.")
    assert follow_sentences(session, None) == [session.said]


def test_the_keys_that_answer_stand_in_the_sentence_but_not_those_of_another_window(session, other_window) -> None:
    session.measure("strand", TypedLength(60.0, "60 mm"), 17)
    here = next(text for text in whole(session) if text.endswith(("(m).", "(c).", "(w: what to do).")))
    other_window.take_lock(session.opened, anyway=True)
    session.look_where_it_is_open()
    assert f"{here.rpartition(' (')[0]}." in whole(session)
    assert not any(f"({key})" in text for text in whole(session) for key in ("m", "c", "w: what to do", "r"))


def test_of_a_piece_that_has_ended_nothing_is_to_be_done(session, workshop) -> None:
    assert session.change(lambda opened: workshop.abandon(opened, "no more teal"))
    assert said(session) == []
    assert session.reopen()
    first, *rest = said(session)
    assert first == "quiet: The piece is under way again."
    assert rest


@pytest.mark.parametrize("columns", [58, 78])
def test_what_to_do_before_trimming_is_never_shortened(workshop, skerry, columns) -> None:
    """Also where the length is off, and the step before has just been marked."""
    opened = workshop.start(skerry)
    session = PieceSession(workshop, workshop.jump(opened, 27), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    assert session.measure("strand", TypedLength(160.0, "160 mm"), 27)
    session.change(lambda opened: workshop.jump(opened, trimming_step(opened.plan) - 2))
    assert session.confirm()
    told = " ".join(text for text, _ in fitted(follow_sentences(session, session.outlook_at_once()), columns, 3))
    assert "Before you trim, measure what is left of the cord past the closure (c)." in told


def test_what_is_said_of_a_single_reading_goes_with_the_next_step(workshop, skerry) -> None:
    session = PieceSession(workshop, workshop.jump(workshop.start(skerry), 9), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    plan = session.plan
    for step, off_mm in ((9, -20.0), (13, 0.0), (16, 0.0), (19, 0.0)):
        session.change(lambda opened, step=step: workshop.jump(opened, step))
        length_mm = planned_reading_mm(plan, step, "strand") + off_mm
        assert session.measure("strand", TypedLength(length_mm, f"{length_mm:.0f} mm"), step)
    news = "It is set aside."
    assert any(news in text for text in said(session))
    session.note("a looser hand", 19)
    assert any(news in text for text in said(session))  # a note is no step
    session.confirm()
    assert not any(news in text for text in said(session))
    assert session.outlook_at_once().set_aside


def test_the_leftover_cord_stays_asked_for_until_it_is_measured(workshop, skerry) -> None:
    opened = workshop.start(skerry)
    trims = trimming_step(opened.plan)
    session = PieceSession(workshop, workshop.jump(opened, trims - 1), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()

    def asked() -> bool:
        lines = fitted(follow_sentences(session, session.outlook_at_once()), 58, 3)
        return "Before you trim, measure what is left" in " ".join(text for text, _ in lines)

    assert asked()
    for key in (
        lambda: session.note("nearly there", trims - 1),
        session.undo,
        session.redo,
        session.withdraw,
        lambda: session.measure("strand", TypedLength(178.0, "178 mm"), trims - 1),
    ):
        key()
        assert asked()
    session.measure("free", TypedLength(150.0, "150 mm"), trims - 1)
    assert not asked()
