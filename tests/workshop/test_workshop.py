"""The use cases: what one window does the other sees, a warning is never lost, a step costs the same however many."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Confirmed, CutEntered, Measured, Started
from companion.core.journal.fold import fold
from companion.core.values.errors import NoSuchPiece, NotPossible, NotStored, Stale, WorkshopError
from companion.storage.pieces import Store
from companion.workshop import OpenPiece, Workshop, open_at, warning_of

NOON = datetime(2026, 12, 1, 12, tzinfo=UTC)


@pytest.fixture
def clock() -> Iterator[datetime]:
    """Every look at it is half a minute later."""
    return (NOON + timedelta(seconds=30 * ticks) for ticks in count())


def window(data_folder: Path, clock: Iterator[datetime]) -> Workshop:
    def now() -> datetime:
        return next(clock)

    return Workshop(Store(data_folder / "pieces.sqlite3", lambda: os.urandom(8).hex(), now))


@pytest.fixture
def one(data_folder: Path, clock) -> Workshop:
    return window(data_folder, clock)


@pytest.fixture
def other(data_folder: Path, one: Workshop, clock) -> Workshop:
    """Another window on the same pieces."""
    return window(data_folder, clock)


def made(workshop: Workshop, opened: OpenPiece, steps: int) -> OpenPiece:
    for _ in range(steps):
        opened = workshop.confirm(opened)
    return opened


def statements(workshop: Workshop, act) -> list[str]:
    """The SQL that an act sends, each statement by its first word and table."""
    seen: list[str] = []
    workshop._store.database.open().set_trace_callback(seen.append)
    try:
        act()
    finally:
        workshop._store.database.open().set_trace_callback(None)
    return seen


# -- two windows ------------------------------------------------------------------------------------------------------


def test_a_reading_that_was_not_stored_leaves_no_trace_in_the_forecast(one, other, skerry) -> None:
    """The event that takes its number is another one: what the reading would have meant must not be shown for it."""
    opened = made(one, one.start(skerry), 15)
    theirs = other.open(opened.name)
    opened = one.confirm(opened)
    with pytest.raises(Stale):
        other.measure(theirs, "strand", 40.0, "40 mm")
    theirs = other.refresh(theirs)
    assert theirs.piece == opened.piece
    assert other.outlook(theirs) == Forecaster(opened.plan, faults=True).outlook(opened.piece)


def test_a_warning_from_another_window_stays(one, other, skerry) -> None:
    opened = made(one, one.start(skerry), 17)
    theirs = other.measure(other.open(opened.name), "strand", 60.0, "60 mm")
    assert theirs.warning != ""
    opened = one.refresh(opened)
    assert opened.warning == theirs.warning
    one.confirm(opened)
    assert one.pieces()[0].warning == theirs.warning


def test_a_change_to_one_piece_is_seen_though_another_was_looked_at_first(one, other, skerry) -> None:
    first, second = one.start(skerry), one.start(skerry)
    first, second = one.refresh(first), one.refresh(second)
    other.confirm(other.open(second.name))
    assert one.refresh(first) is first
    assert one.refresh(second).piece.done == 1


def test_a_change_that_could_not_be_read_is_seen_the_next_time(data_folder, other, skerry) -> None:
    class Faltering(Store):
        falters = False

        def journal(self, piece_id: int, after: int = 0):
            if self.falters:
                self.falters = False
                raise NotStored("Another program holds the file of pieces.")
            return super().journal(piece_id, after)

    store = Faltering(data_folder / "pieces.sqlite3", lambda: "5eab1e", lambda: NOON)
    workshop = Workshop(store)
    opened = workshop.refresh(workshop.start(skerry))
    other.confirm(other.open(opened.name))
    store.falters = True
    with pytest.raises(NotStored):
        workshop.refresh(opened)
    assert workshop.refresh(opened).piece.done == 1


def test_an_older_value_in_the_same_window_is_behind_too(one, skerry) -> None:
    old = one.start(skerry)
    new = made(one, old, 3)
    with pytest.raises(Stale, match="3 of 33"):
        one.confirm(old)
    assert one.refresh(old) == new


def test_looking_again_costs_one_pragma_and_then_only_the_new_events(one, other, skerry) -> None:
    opened = one.refresh(made(one, one.start(skerry), 12))
    assert statements(one, lambda: one.refresh(opened)) == ["PRAGMA data_version"]
    made(other, other.open(opened.name), 2)
    seen = statements(one, lambda: one.refresh(opened))
    assert [line.split(" FROM ")[-1].split()[0] for line in seen] == ["PRAGMA", "event", "piece"]
    assert f"seq > {opened.revision}" in seen[1]


OPS = st.lists(
    st.tuples(
        st.booleans(),
        st.sampled_from(["confirm"] * 4 + ["undo", "jump", "strand", "free", "withdraw", "cut", "note", "end"]),
        st.integers(0, 28),
        st.floats(0.85, 1.15),
    ),
    min_size=1,
    max_size=14,
)


def act(workshop: Workshop, opened: OpenPiece, op: str, number: int, factor: float) -> OpenPiece:
    at = max(1, opened.piece.done)
    step = opened.plan.strands[0].steps[at - 1]
    match op:
        case "confirm":
            return workshop.confirm(opened)
        case "undo":
            return workshop.undo(opened)
        case "jump":
            return workshop.jump(opened, number)
        case "strand":
            return workshop.measure(opened, "strand", step.strand_mm * factor, "x")
        case "free":
            return workshop.measure(opened, "free", step.free_cord_mm * factor, "x")
        case "withdraw":
            return workshop.withdraw(opened)
        case "cut":
            return workshop.enter_cut(opened, 0, opened.plan.cuts[0].cut_mm * factor, "x")
        case "note":
            return workshop.note(opened, "looser")
    return workshop.finish(opened) if opened.piece.done == 33 else workshop.abandon(opened)


@given(OPS)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_two_windows_in_turn_always_agree(one, other, skerry, ops) -> None:
    """With each other, with the journal folded afresh, with the row on the bench and with a forecast made afresh."""
    mine = one.start(skerry)
    theirs = other.open(mine.name)
    for is_mine, op, number, factor in ops:
        mine, theirs = one.refresh(mine), other.refresh(theirs)
        try:
            if is_mine:
                mine = act(one, mine, op, number, factor)
            else:
                theirs = act(other, theirs, op, number, factor)
        except NotPossible:
            continue
    mine, theirs = one.refresh(mine), other.refresh(theirs)
    assert mine == theirs == open_at(one._store.path.parent).open(mine.name)
    assert mine.piece == fold(entry.event for entry in one.journal(mine))
    row = next(row for row in one.pieces() if row.name == mine.name)
    assert (row.steps_done, row.state, row.touched_at) == (mine.piece.done, mine.piece.state, mine.touched_at)
    fresh = Forecaster(mine.plan, faults=True).outlook(mine.piece)
    assert one.outlook(mine) == other.outlook(theirs) == fresh
    assert row.warning == mine.warning == warning_of(fresh)


# -- beginning and finding a piece ------------------------------------------------------------------------------------


def test_a_cut_too_short_shows_on_the_bench_from_the_start(one, skerry) -> None:
    opened = one.start(skerry, [CutEntered(0, 500.0, "50 cm")])
    assert one.pieces()[0].warning == opened.warning == "cord runs out"
    assert one.start(skerry).warning == ""


def test_a_design_with_errors_begins_nothing(one, data_folder, tmp_path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text("format: 1\nname: Bad\n")
    assert one.plan(path).plan is None
    with pytest.raises(WorkshopError, match=r"bad\.yaml"):
        one.start(path)
    assert not data_folder.exists()


def test_a_piece_by_the_beginning_of_its_name(one, skerry, patterns) -> None:
    one.start(skerry)
    one.start(patterns / "fastnet-cuff.yaml")
    assert one.open(" SKERRY ").name == "skerry-bracelet"
    one.start(skerry)
    assert one.open("skerry-bracelet").name == "skerry-bracelet"  # exact, though another one begins so
    with pytest.raises(NoSuchPiece, match="skerry-bracelet-2 and skerry-bracelet"):
        one.open("skerry")
    for name in ("", "  ", "bracelet", "%", "s_erry-bracelet"):
        with pytest.raises(NoSuchPiece):
            one.open(name)


def test_a_file_name_that_is_not_text(one, tmp_path, skerry) -> None:
    path = tmp_path / os.fsdecode(b"sk\xe9rry.yaml")
    try:
        path.write_bytes(skerry.read_bytes())
    except OSError:
        pytest.skip("this file system keeps only names that are text")
    opened = one.start(path)
    assert [row.name for row in one.pieces_of(path)] == [opened.name]
    assert one.open(opened.name).design_path.isprintable()
    assert not one.design_differs(opened)


def test_a_link_that_leads_round_in_a_circle(one, tmp_path, skerry) -> None:
    one.start(skerry)
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    assert one.pieces_of(tmp_path / "a") == ()
    assert one.plan(tmp_path / "a").plan is None


def test_only_pieces_under_way_are_gone_on_with(one, skerry) -> None:
    first, second = one.start(skerry), one.start(skerry)
    assert [row.name for row in one.pieces_of(skerry)] == [second.name, first.name]
    one.abandon(second, "the silk was too thick")
    assert [row.name for row in one.pieces_of(skerry)] == [first.name]
    assert [row.name for row in one.pieces()] == [second.name, first.name]  # the latest touched first


# -- making it --------------------------------------------------------------------------------------------------------


def test_a_piece_from_start_to_finish(one, skerry) -> None:
    opened = one.start(skerry, [CutEntered(0, 1168.4, "46 in")])
    with pytest.raises(NotPossible, match="33 steps are left"):
        one.finish(opened)
    opened = one.jump(opened, 32)
    with pytest.raises(NotPossible, match="One step is left"):
        one.finish(opened)
    opened = one.finish(one.confirm(opened), 202.0)
    assert (opened.piece.state, opened.piece.finished_mm) == ("finished", 202.0)
    with pytest.raises(NotPossible, match="finished"):
        one.note(opened, "late")
    assert [type(entry.event).__name__ for entry in one.journal(opened)] == [
        "Started", "CutEntered", "Jumped", "Confirmed", "Finished",
    ]  # fmt: skip
    assert [entry.at for entry in one.journal(opened)][:3] == [NOON, NOON, NOON + timedelta(seconds=30)]
    assert opened.touched_at == one.pieces()[0].touched_at
    assert one.undo(opened).piece.state == "under way"


def test_what_is_not_possible_writes_nothing(one, skerry) -> None:
    opened = one.confirm(one.start(skerry))
    for refused in (
        lambda: one.confirm(opened, 3),
        lambda: one.jump(opened, 34),
        lambda: one.jump(opened, -1),
        lambda: one.withdraw(opened),
        lambda: one.measure(opened, "strand", 30.0, "30 mm", step=2),
        lambda: one.undo(one.open(one.start(skerry).name)),
    ):
        with pytest.raises(NotPossible):
            refused()
    assert [entry.event for entry in one.journal(opened)] == [Started(33), Confirmed(1)]
    assert one.refresh(opened).revision == 2


def test_a_reading_is_of_the_step_it_names(one, skerry) -> None:
    opened = made(one, one.start(skerry), 5)
    opened = one.measure(opened, "strand", 20.0, "20 mm", step=4, ruler_step_mm=0.5)
    opened = one.measure(opened, "free", 500.0, "50 cm")
    assert opened.piece.readings == (
        Measured("strand", 4, 20.0, "20 mm", 0.5),
        Measured("free", 5, 500.0, "50 cm", 1.0),
    )
    assert one.withdraw(opened).piece.readings == opened.piece.readings[:1]


def test_supposing_changes_nothing(one, skerry) -> None:
    opened = made(one, one.start(skerry), 11)
    before = one.outlook(opened)
    shorter_mm = opened.plan.strands[0].steps[10].strand_mm - 3.0
    supposed = fold([Measured("strand", 11, shorter_mm, "3 mm less")], opened.piece)
    assert one.suppose(opened, supposed).finished.mean_mm < before.finished.mean_mm
    assert one.outlook(opened) == before
    assert one.refresh(opened).revision == opened.revision


def test_the_pace_is_the_same_for_who_was_there_and_who_comes_later(one, other, skerry) -> None:
    opened = one.start(skerry)
    assert one.pace(opened).seconds_per_step is None
    opened = made(one, opened, 6)
    assert (one.pace(opened).seconds_per_step, one.pace(opened).seconds_left) == (30.0, 30.0 * 27)
    assert other.pace(other.open(opened.name)) == one.pace(opened)
