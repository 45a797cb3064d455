"""What can be a piece's name, when two are alike, and what each event makes of it."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Abandoned, Confirmed, Event, Finished, RedoneAct, Renamed, Started, UndoneAct
from companion.core.journal.fold import fold
from companion.core.journal.names import alike, free_name, name_after_all, shown_name
from companion.core.journal.piece import NOT_BEGUN

TO_ANNA, TO_BEA = Renamed("For Anna", "skerry"), Renamed("Bea's", "For Anna")


@pytest.mark.parametrize("name", ["For Anna", "for anna", "FOR-ANNA", " for  anna "])
def test_names_that_differ_in_capitals_and_marks_alone_are_alike(name) -> None:
    assert alike(name) == "for-anna"


def test_a_new_piece_has_a_name_that_no_other_is_like() -> None:
    assert free_name("Skerry bracelet", {alike("Skerry Bracelet"), "skerry-bracelet-2"}) == "skerry-bracelet-3"
    assert free_name("…", {}) == "piece"


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("skerry-bracelet", "Skerry bracelet"),
        ("skerry-bracelet-2", "Skerry bracelet 2"),
        ("skerry-bracelet-b", "skerry-bracelet-b"),
        ("For Anna", "For Anna"),
    ],
)
def test_a_name_that_nobody_gave_is_shown_as_the_design_has_it(name, shown) -> None:
    assert shown_name(name, "Skerry bracelet") == shown


@pytest.mark.parametrize(
    ("events", "name"),
    [
        ([TO_ANNA], "For Anna"),
        ([TO_ANNA, TO_BEA], "Bea's"),
        ([TO_ANNA, TO_BEA, UndoneAct()], "For Anna"),
        ([TO_ANNA, TO_BEA, UndoneAct(), UndoneAct()], "skerry"),
        ([TO_ANNA, UndoneAct(), RedoneAct()], "For Anna"),
        ([TO_ANNA, Confirmed(1), UndoneAct()], "For Anna"),
        ([Confirmed(1), TO_ANNA, UndoneAct(), UndoneAct()], "skerry"),
    ],
)
def test_undo_and_redo_go_through_the_names_as_through_all_else(events: list[Event], name: str) -> None:
    assert name_after_all("skerry", NOT_BEGUN, [Started(3), *events]) == name


def test_a_piece_that_has_ended_can_have_another_name_and_stays_ended() -> None:
    for end in (Abandoned(), Finished(200.0)):
        piece = fold([Started(0), end])
        assert fold([TO_ANNA], piece) == piece
