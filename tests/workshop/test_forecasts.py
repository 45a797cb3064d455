"""What is to be expected: the same at once and beside, a late answer dropped, and no event held up by it."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import Recounted
from companion.core.journal.fold import after
from companion.workshop import OpenPiece, Workshop, forecasts, open_at
from companion.workshop.forecasts import work_out

GIVE_UP_SECONDS = 60
TIGHT_EVENING = ((9, 33.0), (13, 63.0), (18, 92.0), (22, 120.0))


@pytest.fixture
def workshop(data_folder: Path) -> Workshop:
    return open_at(data_folder)


@pytest.fixture
def read(workshop: Workshop, skerry: Path) -> OpenPiece:
    """A piece with four readings, opened anew: nothing of it is worked out yet."""
    opened = workshop.start(skerry)
    for step, length_mm in TIGHT_EVENING:
        opened = workshop.measure(workshop.jump(opened, step), "strand", length_mm, f"{length_mm} mm")
    workshop.forecasts = forecasts.Forecasts()
    return opened


@pytest.fixture
def none_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """From now on a single reading takes too long for a key to wait for."""
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 0)


def afresh(opened: OpenPiece) -> Outlook:
    return Forecaster(opened.plan, faults=True).outlook(opened.piece)


def test_it_is_the_same_at_once_and_beside(workshop, read) -> None:
    assert work_out(read).outlook == workshop.outlook(read) == afresh(read)


@pytest.mark.parametrize(
    ("most", "name"), [(3, "MOST_READINGS_AT_ONCE"), (20, "MOST_ELEMENTS_AT_ONCE")], ids=["readings", "elements"]
)
def test_many_readings_or_a_long_plan_cost_much_once(workshop, read, monkeypatch, most, name) -> None:
    assert workshop.forecasts.costs_little(read)
    monkeypatch.setattr(forecasts, name, most)
    assert not workshop.forecasts.costs_little(read)
    workshop.forecasts.take(work_out(read), read)
    assert workshop.forecasts.costs_little(read)
    one_more = workshop.measure(read, "strand", 121.0, "121 mm")
    workshop.forecasts._outlooks.clear()
    assert workshop.forecasts.costs_little(one_more)  # the first four are taken in already


def test_an_early_change_costs_as_much_as_the_first_look(workshop, read, monkeypatch) -> None:
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 3)
    workshop.forecasts.take(work_out(read), read)
    counted = replace(read, piece=after(read.piece, Recounted(6)), revision=read.revision + 1)
    assert workshop.forecasts.costs_little(read)
    assert not workshop.forecasts.costs_little(counted)


def test_a_late_answer_is_dropped_and_what_it_took_in_is_not(workshop, read, none_at_once) -> None:
    late = work_out(read)
    moved_on = workshop.confirm(read)
    workshop.forecasts.take(late, moved_on)
    assert workshop.forecasts._outlooks == {}
    assert workshop.forecasts.costs_little(moved_on)
    assert workshop.outlook(moved_on) == afresh(moved_on)


def test_of_another_plan_all_is_dropped(workshop, read, none_at_once) -> None:
    late = work_out(read)
    changed = workshop.choose(read, next(one for one in workshop.remedies(read) if one.rests))
    workshop.forecasts = forecasts.Forecasts()
    workshop.forecasts.take(late, changed)
    assert not workshop.forecasts.costs_little(changed)
    assert workshop.outlook(changed) == afresh(changed)


def test_choosing_a_longer_cord_enters_the_cut_and_undo_takes_it_back(workshop, skerry) -> None:
    opened = workshop.enter_cut(workshop.start(skerry), 0, 660.0, "26 in")
    assert workshop.outlook(opened).entries[0].cord.verdict == "runs out"
    first = workshop.remedies(opened)[0]
    chosen = workshop.choose(opened, first)
    assert chosen.piece.cut_mm(0) == first.cut.length_mm
    assert workshop.outlook(chosen).entries[0].cord.verdict == "enough"
    assert workshop.undo(chosen).piece.cut_mm(0) == 660.0


@pytest.fixture
def gate(monkeypatch: pytest.MonkeyPatch):
    """Nothing that is worked out beside comes before the gate is open; `gate.begun`: what was begun."""
    gate, work_it_out = Event(), forecasts.work_out
    gate.begun = []

    def held(opened: OpenPiece):
        gate.begun.append(opened)
        assert gate.wait(GIVE_UP_SECONDS)
        return work_it_out(opened)

    monkeypatch.setattr(forecasts, "work_out", held)
    yield gate
    gate.set()


def test_one_at_a_time_is_worked_out_beside(workshop, read, gate) -> None:
    first = workshop.forecasts.beside(read)
    moved_on = workshop.confirm(read)
    assert workshop.forecasts.beside(moved_on) is first
    gate.set()
    assert first.result(GIVE_UP_SECONDS).opened is read
    second = workshop.forecasts.beside(moved_on)
    assert second.result(GIVE_UP_SECONDS).outlook == afresh(moved_on)
    assert gate.begun == [read, moved_on]


def test_what_goes_wrong_beside_is_told_to_whoever_waits(workshop, read, monkeypatch) -> None:
    def fails(opened: OpenPiece):
        raise ZeroDivisionError("no knots")

    monkeypatch.setattr(forecasts, "work_out", fails)
    with pytest.raises(ZeroDivisionError, match="no knots"):
        workshop.forecasts.beside(read).result(GIVE_UP_SECONDS)


def test_an_event_waits_for_no_forecast_that_takes_long(workshop, read, none_at_once, monkeypatch) -> None:
    """It is stored with the warning that there was; the bench is told once the forecast is there."""
    assert read.warning == "off"
    workshop.let_forecasts_wait()
    with monkeypatch.context() as nobody:
        nobody.setattr(Forecaster, "outlook", None)
        nobody.setattr(Forecaster, "__init__", None)
        opened = workshop.withdraw(workshop.withdraw(workshop.withdraw(read)))
    assert workshop.open(read.name).piece == opened.piece
    assert workshop.pieces()[0].warning == "off"
    opened = workshop.remember_warning(opened, afresh(opened))
    assert opened.warning == workshop.pieces()[0].warning == ""


def test_a_warning_that_comes_late_is_not_put_to_a_later_event(workshop, read, data_folder) -> None:
    open_at(data_folder).confirm(read)
    late = workshop.remember_warning(replace(read, warning="recount"), workshop.outlook(read))
    assert late.warning == "off"
    workshop._store.set_warning(read.id, read.revision, "recount")
    assert workshop.pieces()[0].warning == "off"


def test_a_command_waits_for_its_forecast(workshop, read, none_at_once) -> None:
    opened = workshop.recount(read, 6)
    assert workshop.pieces()[0].warning == opened.warning != ""
