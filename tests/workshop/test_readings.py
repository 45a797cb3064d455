"""Readings taken out and put back: on disk, in the forecast, in a window that was open, in an export."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import PutBack, TakenOut
from companion.core.values.errors import NotPossible, Stale, WorkshopError
from companion.workshop import OpenPiece, Workshop, open_at

EVENING = ((9, 34.0), (13, 66.0), (16, 76.0), (20, 114.0))  # the third is 10 mm too short


@pytest.fixture
def workshop(data_folder: Path) -> Workshop:
    return open_at(data_folder)


@pytest.fixture
def read(workshop: Workshop, skerry: Path) -> OpenPiece:
    """A piece with four readings, of which the third does not fit the others."""
    opened = workshop.start(skerry)
    for step, length_mm in EVENING:
        opened = workshop.measure(workshop.jump(opened, step), "strand", length_mm, f"{length_mm} mm")
    return opened


def afresh(opened: OpenPiece):
    return Forecaster(opened.plan, faults=True).outlook(opened.piece)


def test_out_and_back_are_events_and_the_forecast_follows(workshop, read) -> None:
    before = workshop.outlook(read)
    out = workshop.take_out(read, 1)
    assert [one.step for one in out.piece.readings] == [13, 16, 20]
    assert workshop.outlook(out) == afresh(out) != before
    back = workshop.put_back(out, 1)
    assert back.piece == read.piece
    assert workshop.outlook(back) == before
    first = read.piece.readings[0]
    assert [entry.event for entry in workshop.journal(back)][-2:] == [TakenOut(1, first), PutBack(1, first)]


def test_what_was_stored_is_the_same_when_it_is_opened_anew(workshop, read, data_folder) -> None:
    out = workshop.take_out(workshop.take_out(read, 4), 2)
    again = open_at(data_folder).open(out.name)
    assert again.piece == out.piece
    assert [one.counts for one in again.piece.all_readings] == [True, False, True, False]
    assert again.warning == out.warning


def test_undo_and_redo_as_of_any_act(workshop, read) -> None:
    out = workshop.take_out(read, 3)
    undone = workshop.undo(out)
    assert undone.piece == read.piece
    assert workshop.redo(undone).piece == out.piece


def test_withdrawing_takes_out_the_latest_and_then_the_one_before(workshop, read) -> None:
    out = workshop.withdraw(workshop.withdraw(read))
    assert [one.counts for one in out.piece.all_readings] == [True, True, False, False]
    assert out.piece == workshop.take_out(workshop.take_out(workshop.undo(workshop.undo(out)), 4), 3).piece
    assert isinstance(workshop.journal(out)[-1].event, TakenOut)


def test_turned_twice_is_as_it_was(workshop, read) -> None:
    out = workshop.turn_reading(read, 2)
    assert not out.piece.all_readings[1].counts
    assert workshop.turn_reading(out, 2).piece == read.piece


def test_what_there_is_not_is_refused_and_nothing_written(workshop, read, skerry) -> None:
    out = workshop.take_out(read, 2)
    bare = workshop.start(skerry)
    for refused, why in (
        (lambda: workshop.take_out(read, 0), "There is no reading 0. The last one is 4."),
        (lambda: workshop.put_back(read, 5), "There is no reading 5. The last one is 4."),
        (lambda: workshop.turn_reading(bare, 1), "There are no readings yet."),
        (lambda: workshop.take_out(out, 2), "taken out already"),
        (lambda: workshop.put_back(out, 1), "counts already"),
        (lambda: workshop.withdraw(bare), "There is no reading to take out."),
    ):
        with pytest.raises(NotPossible, match=why):
            refused()
    assert workshop.refresh(out).revision == out.revision
    assert len(workshop.journal(bare)) == 1


def test_a_number_that_means_another_reading_by_now_is_not_taken(workshop, read, data_folder) -> None:
    other = open_at(data_folder)
    theirs = other.open(read.name)
    workshop.measure(workshop.jump(read, 12), "strand", 60.0, "60 mm")
    with pytest.raises(Stale):
        other.take_out(theirs, 2)
    assert [one.counts for one in other.refresh(theirs).piece.all_readings] == [True, True]


def test_a_window_that_was_open_sees_it(workshop, read, data_folder) -> None:
    other = open_at(data_folder)
    theirs = other.open(read.name)
    out = workshop.take_out(read, 3)
    theirs = other.refresh(theirs)
    assert theirs.piece == out.piece
    assert other.outlook(theirs) == workshop.outlook(out)


def test_the_list_says_when_each_was_taken(data_folder, skerry) -> None:
    noon = datetime(2026, 12, 1, 12, tzinfo=UTC)
    ticks = iter(range(100))
    workshop = open_at(data_folder)
    workshop._now = lambda: noon + timedelta(minutes=next(ticks))
    opened = workshop.jump(workshop.start(skerry), 16)  # twelve, and a minute past
    opened = workshop.measure(opened, "strand", 86.0, "86 mm")
    opened = workshop.undo(opened)  # it was never taken
    opened = workshop.measure(opened, "strand", 86.0, "86 mm")
    opened = workshop.measure(opened, "strand", 86.0, "86 mm")  # the very same a second time
    opened = workshop.confirm(workshop.take_out(opened, 1))
    found = workshop.readings(opened)
    assert [(one.at - noon).seconds // 60 for one in found] == [4, 5]
    assert [one.listed.state for one in found] == ["taken out", "counts"]


def test_the_list_is_of_the_piece_as_it_was_looked_at(workshop, read, data_folder) -> None:
    open_at(data_folder).measure(workshop.confirm(read), "strand", 120.0, "120 mm")
    assert len(workshop.readings(read)) == 4


def test_what_does_not_fit_is_set_aside_until_it_is_taken_out(workshop, read) -> None:
    states = [one.listed.state for one in workshop.readings(read)]
    assert states == ["counts", "counts", "set aside", "counts"]
    out = workshop.take_out(read, 3)
    assert [one.listed.state for one in workshop.readings(out)] == ["counts", "counts", "taken out", "counts"]
    assert workshop.outlook(out).finished == workshop.outlook(read).finished
    assert workshop.outlook(out).set_aside == ()


def test_an_export_keeps_what_is_out(workshop, read, tmp_path) -> None:
    out = workshop.put_back(workshop.take_out(workshop.take_out(read, 1), 3), 1)
    workshop.exports.write(tmp_path / "all.json", over=False)
    there = open_at(tmp_path / "there")
    there.exports.take_in(tmp_path / "all.json")
    taken_in = there.open(out.name)
    assert taken_in.piece == out.piece
    assert there.journal(taken_in) == workshop.journal(out)


@pytest.mark.parametrize(
    ("field", "value", "why"),
    [("number", 2, "Reading 2 is another one"), ("number", 9, "Reading 9 is another one"), ("number", "1", "number")],
)
def test_an_export_that_takes_out_what_is_not_there_is_refused(workshop, read, tmp_path, field, value, why) -> None:
    workshop.take_out(read, 1)
    document = json.loads("\n".join(workshop.exports.lines()))
    document["pieces"][0]["events"][-1]["data"][field] = value
    place = tmp_path / "wrong.json"
    place.write_text(json.dumps(document))
    there = open_at(tmp_path / "there")
    with pytest.raises(WorkshopError, match=why):
        there.exports.take_in(place)
    assert there.pieces() == ()


def test_no_leftover_is_taken_once_the_tails_are_trimmed(workshop, skerry) -> None:
    """What the snips left says nothing of the cord, and would change what the piece is expected to come to."""
    opened = workshop.jump(workshop.start(skerry), 33)
    before = workshop.outlook(opened).finished
    for at in (32, 33):
        opened = workshop.jump(opened, at)
        with pytest.raises(NotPossible, match="The tails are trimmed"):
            workshop.measure(opened, "free", 6.0, "1/4 in")
    assert workshop.outlook(opened).finished == before
    earlier = workshop.measure(opened, "free", 210.0, "21 cm", step=31)
    assert earlier.piece.readings[-1].step == 31


def test_those_that_others_contradict_are_told(workshop, read) -> None:
    assert workshop.set_aside(read) == (read.piece.readings[2],)
    assert workshop.set_aside(workshop.take_out(read, 3)) == ()
