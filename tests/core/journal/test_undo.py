"""Undoing is a walk back in time, redoing a walk forward, whatever was done."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.journal.events import (
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Finished,
    Joined,
    Jumped,
    Measured,
    Noted,
    PutBack,
    Recounted,
    RedoneAct,
    Started,
    TakenOut,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.journal.fold import after, fold
from companion.core.values.errors import NotPossible

STEPS = 9
BEGUN = fold([Started(STEPS)])
DRAWN = st.tuples(st.integers(0, 14), st.integers(0, STEPS), st.floats(1, 300))


def turned(piece, kind, number):
    """One of the readings taken out or put back, where there is one to do it to."""
    readings = [(n, one.measured) for n, one in enumerate(piece.all_readings, 1) if one.counts == (kind is TakenOut)]
    return kind(*readings[number % len(readings)]) if readings else Withdrawn()


def act_of(piece, drawn):
    """An act that may follow from the piece as it stands, or not."""
    kind, number, length = drawn
    return (
        Confirmed(piece.done + 1),
        Confirmed(piece.done + 1),
        Jumped(number),
        Jumped(max(0, piece.done - 1), tuple((step, step - 1) for step in range(1, piece.done + 1))),
        Measured("strand", min(number, piece.done), length, "x"),
        Measured("free", piece.done, length, "x"),
        Withdrawn(),
        Noted(piece.done, "a note"),
        Joined(piece.done, length, "x"),
        Recounted(piece.done, 0, number % 3 - 1),
        CutEntered(0, length, "x"),
        Changed(0, 0, ("single",), 0.0, max(piece.done, number), "otherwise"),
        turned(piece, TakenOut, number),
        turned(piece, PutBack, number),
        Finished(length) if piece.done == piece.total_steps else Abandoned("enough"),
    )[kind]


@given(st.lists(DRAWN, max_size=30))
def test_as_many_undos_lead_back_through_every_state_and_redos_forward_again(drawn) -> None:
    piece, states = BEGUN, [BEGUN]
    for one in drawn:
        try:
            piece = after(piece, act_of(piece, one))
        except NotPossible:
            continue
        states.append(piece)
    for earlier in states[-2::-1]:
        piece = after(piece, UndoneAct())
        assert piece == earlier
    with pytest.raises(NotPossible, match="nothing is done yet"):
        after(piece, UndoneAct())
    for later in states[1:]:
        piece = after(piece, RedoneAct())
        assert piece == later
    with pytest.raises(NotPossible, match="Nothing to redo"):
        after(piece, RedoneAct())


@given(st.lists(st.one_of(DRAWN, st.sampled_from(["undo", "redo"])), max_size=40))
def test_undoing_never_makes_a_step(drawn) -> None:
    """Unless what is undone took steps back itself: a jump."""
    piece = BEGUN
    for one in drawn:
        event = {"undo": UndoneAct(), "redo": RedoneAct()}.get(one) if isinstance(one, str) else act_of(piece, one)
        try:
            new = after(piece, event)
        except NotPossible:
            continue
        if one == "undo" and new.done > piece.done:
            assert isinstance(piece.act, Jumped)
        piece = new


def test_the_latest_act_is_undone_whatever_it_was() -> None:
    read = Measured("strand", 2, 30.0, "30 mm")
    piece = fold([Confirmed(1), Confirmed(2), read, Noted(2, "tight")], BEGUN)
    piece = after(piece, UndoneAct())
    assert (piece.notes, piece.readings, piece.done) == ((), (read,), 2)
    piece = after(piece, UndoneAct())
    assert (piece.readings, piece.done) == ((), 2)
    piece = after(piece, UndoneAct())
    assert piece.done == 1


def test_something_new_leaves_nothing_to_redo() -> None:
    piece = fold([Confirmed(1), Confirmed(2), UndoneAct(), Noted(1, "another way")], BEGUN)
    with pytest.raises(NotPossible):
        after(piece, RedoneAct())


def test_an_ended_piece_is_opened_again_by_undoing_its_end() -> None:
    piece = fold([Jumped(STEPS), Finished(200.0), UndoneAct()], BEGUN)
    assert (piece.state, piece.done, piece.finished_mm) == ("under way", STEPS, None)


def test_after_an_undo_of_an_earlier_version_the_walk_goes_on_before_what_it_took_back() -> None:
    piece = fold([Confirmed(1), Confirmed(2), Confirmed(3), Undone(2)], BEGUN)
    assert after(piece, UndoneAct()).done == 1
