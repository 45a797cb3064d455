"""Pieces get another name, are put away and taken up again: as events, undone like any other act."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.cord import CordChoice
from companion.core.cord.knot_tests import KnotTest
from companion.core.journal.events import Renamed
from companion.core.values.errors import NameTaken, NotPossible
from companion.workshop import Workshop, open_at


@pytest.fixture
def workshop(data_folder) -> Workshop:
    return open_at(data_folder)


@pytest.fixture
def elsewhere(tmp_path) -> Workshop:
    """Another machine."""
    return open_at(tmp_path / "elsewhere")


def names(workshop: Workshop) -> list[str]:
    return sorted(row.name for row in workshop.pieces())


def test_the_new_name_is_what_commands_take_however_it_is_written(workshop, skerry) -> None:
    workshop.rename(workshop.start(skerry), "For Anna")
    assert names(workshop) == ["For Anna"]
    for written in ("For Anna", "for anna", "for-anna", "for"):
        assert workshop.open(written).name == "For Anna"


def test_another_piece_s_name_or_one_like_it_is_refused_and_nothing_is_written(workshop, skerry) -> None:
    first, second = workshop.start(skerry), workshop.start(skerry)
    workshop.rename(first, "For Anna")
    with pytest.raises(NameTaken, match="Another piece is named For Anna"):
        workshop.rename(second, "for-anna")
    assert names(workshop) == ["For Anna", "skerry-bracelet-2"]
    assert len(workshop.journal(second)) == second.revision
    workshop.rename(workshop.open("For Anna"), "for anna")  # its own, in other letters
    assert names(workshop) == ["for anna", "skerry-bracelet-2"]


def test_undo_gives_the_old_name_back_unless_it_is_another_s_by_now(workshop, skerry) -> None:
    renamed = workshop.rename(workshop.start(skerry), "For Anna")
    undone = workshop.undo(renamed)
    assert (undone.name, names(workshop)) == ("skerry-bracelet", ["skerry-bracelet"])
    again = workshop.redo(undone)
    assert (again.name, names(workshop)) == ("For Anna", ["For Anna"])
    workshop.start(skerry)
    with pytest.raises(NameTaken, match="Another piece is named skerry-bracelet"):
        workshop.undo(again)
    assert names(workshop) == ["For Anna", "skerry-bracelet"]


def test_an_open_window_learns_the_new_name(workshop, skerry, data_folder) -> None:
    opened, other = workshop.start(skerry), open_at(data_folder)
    other.rename(other.open(opened.name), "For Anna")
    assert workshop.refresh(opened).name == "For Anna"
    assert workshop.confirm(workshop.refresh(opened)).name == "For Anna"


def test_a_piece_put_away_is_taken_up_again_where_it_stood(workshop, skerry) -> None:
    opened = workshop.confirm(workshop.start(skerry))
    with pytest.raises(NotPossible, match="under way"):
        workshop.take_up(opened)
    away = workshop.abandon(opened, "no more teal")
    (row,) = workshop.pieces()
    assert row.state == "abandoned"
    again = workshop.take_up(workshop.rename(away, "For Anna"))
    (row,) = workshop.pieces()
    assert (row.name, row.state, row.steps_done) == ("For Anna", "under way", 1)
    assert workshop.undo(again).piece.state == "abandoned"


def test_a_finished_piece_is_opened_again_by_the_name_it_has_now(workshop, skerry) -> None:
    ended = workshop.finish(workshop.jump(workshop.start(skerry), 33), 200.0)
    with pytest.raises(NotPossible, match="under way"):
        workshop.reopen(workshop.start(skerry))
    renamed = workshop.rename(workshop.rename(ended, "For Anna"), "For Bea")
    workshop.start(skerry)  # the first name is taken by now
    again = workshop.reopen(renamed)
    assert (again.name, again.piece.state, again.piece.done) == ("For Bea", "under way", 33)
    assert workshop.open("For Bea").piece == again.piece
    assert workshop.reopen(workshop.finish(again, 201.0)).name == "For Bea"


def test_a_finished_piece_that_is_renamed_has_still_taught_its_card(workshop, skerry) -> None:
    test = CardTest("single", KnotTest(300.0, 240.0, 10), None, "x")
    workshop.add_tests(CordCard("silk", 0.45, 2, "silk", "awl", ()), test)
    planned = workshop.plan(skerry, CordChoice("card", "silk"))
    opened = workshop.jump(workshop.start(skerry, planned=planned), 9)
    opened = workshop.jump(opened, opened.piece.total_steps)
    taught = workshop.teaching(opened, 190.0, 200.0)
    ended = workshop.finish(opened, 190.0, 200.0, taught)
    lessons = workshop.card("silk").lessons
    assert [one.piece for one in lessons] == ["skerry-bracelet"]
    workshop.rename(ended, "For Anna")
    assert [(one.piece, one.take_up) for one in workshop.card("silk").lessons] == [("For Anna", lessons[0].take_up)]


def taken_over(here: Workshop, there: Workshop, folder: Path) -> object:
    export = folder / "export.json"
    here.exports.write(export, over=True)
    return there.exports.take_in(export)


def test_exports_carry_names_there_and_later_ones_after(workshop, elsewhere, skerry, tmp_path) -> None:
    opened = workshop.rename(workshop.start(skerry), "For Anna")
    taken_over(workshop, elsewhere, tmp_path)
    assert names(elsewhere) == ["For Anna"]
    opened = workshop.rename(opened, "Bea's")
    taken_over(workshop, elsewhere, tmp_path)
    assert names(elsewhere) == ["Bea's"]
    assert elsewhere.journal(elsewhere.open("Bea's"))[-1].event == Renamed("Bea's", "For Anna")
    workshop.undo(opened)
    taken_over(workshop, elsewhere, tmp_path)
    assert names(elsewhere) == ["For Anna"]


def test_a_name_that_is_taken_where_it_comes_is_told_and_both_stay(workshop, elsewhere, skerry, tmp_path) -> None:
    opened = workshop.start(skerry)
    taken_over(workshop, elsewhere, tmp_path)
    elsewhere.rename(elsewhere.start(skerry), "For Anna")
    workshop.rename(opened, "for anna")
    merged = taken_over(workshop, elsewhere, tmp_path)
    assert names(elsewhere) == ["For Anna", "skerry-bracelet"]
    assert merged.renamed == {"skerry-bracelet": "for anna"}
    assert len(elsewhere.journal(elsewhere.open("skerry-bracelet"))) == 2


def test_the_size_of_every_piece_is_read_off_the_beginning_of_its_plan(workshop, skerry, patterns) -> None:
    assert workshop.sizes() == {}
    first = workshop.start(skerry)
    second = workshop.start(patterns / "bell-rock-rope.yaml")
    assert workshop.sizes() == {first.id: "wrist 6 1/2 in", second.id: second.plan.size.typed}
    assert workshop.sizes(after=first.id) == {second.id: second.plan.size.typed}
