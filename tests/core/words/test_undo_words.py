"""Each act that can be undone has a name of its own, with its step and its length."""

from __future__ import annotations

import pytest

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
    Renamed,
    TakenOut,
    TakenUp,
    Withdrawn,
)
from companion.core.words.undo_words import act_words
from tests.core.hand_plans import hand_plan

READ = Measured("strand", 3, 25.4, "1 in")
NAMED = [
    (Confirmed(3), "step 3"),
    (READ, "your reading of 1 in after step 3"),
    (Measured("free", 3, 254.0, "10 in"), "your leftover-cord reading of 10 in after step 3"),
    (Withdrawn(), "taking out a reading"),
    (TakenOut(1, READ), "taking out your reading of 1 in after step 3"),
    (Jumped(4), "the jump to step 4"),
    (Joined(3, 101.6, "4 in"), "the 4 in of new cord"),
    (Changed(0, 3, (), 0.0, 20, ""), "your choice for the rest of the piece"),
    (CutEntered(0, 1016.0, "40 in"), "the cut of 40 in"),
    (Finished(), "the end of the piece"),
    (Renamed("for-anna", "sula"), "the new name (sula became for-anna)"),
    (Abandoned(), "putting the piece away"),
    (TakenUp(), "taking the piece up again"),
    (Noted(3, "tight"), "your note"),
]


@pytest.mark.parametrize(("act", "words"), NAMED, ids=lambda value: type(value).__name__)
def test_an_act_is_named(act, words) -> None:
    assert act_words(hand_plan(), act) == words
