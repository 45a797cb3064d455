"""journal: every kind of event in words, with its time."""

from __future__ import annotations

import re

from companion.core.journal.event_document import KINDS
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
    Renamed,
    Started,
    TakenOut,
    TakenUp,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.words.event_words import event_words
from companion.workshop import open_at

READ = Measured("strand", 16, 86.0, "86 mm")
TOLD = {
    Started(33): "Begun: Skerry bracelet, 33 steps.",
    CutEntered(0, 1168.4, "46 in"): "Cut 46 in (planned 47 in).",
    Confirmed(5): "Done: A single knot, where the strand begins. Step 5 of 33.",
    Undone(1): "Undone: 1 step is done.",
    UndoneAct(): "Undone: step 3.",
    RedoneAct(): "Redone: step 3.",
    Jumped(1): "Jumped: 1 step counts as done.",
    Jumped(16): "Jumped: 16 steps count as done.",
    Measured("strand", 16, 86.0, "86 mm"): "Strand measured 3 3/8 in after step 16.",
    Measured("free", 0, 584.0, "23 in"): "Leftover cord measured 23 in after step 0.",
    Withdrawn(): "The latest reading was taken out.",
    TakenOut(1, READ): "Taken out: your reading of 3 3/8 in after step 16.",
    PutBack(1, READ): "Put back: your reading of 3 3/8 in after step 16.",
    Changed(0, 4, ("single",), 0.0, 20, "one fewer"): "Chosen for the rest: one fewer",
    Joined(16, 300.0, "30 cm"): "New cord joined on: 11 13/16 in more of each cord.",
    Recounted(16): "Beads counted up to step 16, as many as planned.",
    Recounted(16, 9, -1): "Beads counted from step 10 up to step 16, 1 fewer than planned.",
    Recounted(16, 0, 2): "Beads counted up to step 16, 2 more than planned.",
    Recounted(0): "Beads counted.",
    Noted(16, "looser"): "Note: looser",
    Finished(): "Finished.",
    Finished(203.2): "Finished at 8 in.",
    Abandoned("frayed"): "Put away. frayed",
    Abandoned(): "Put away.",
    TakenUp(): "Taken up again.",
    Renamed("For Anna", "skerry-bracelet"): "Renamed: skerry-bracelet is now For Anna.",
}


def test_every_kind_of_event_has_its_words(tallycord, piece) -> None:
    plan = open_at().open(piece).plan
    assert {type(event) for event in TOLD} == set(KINDS.values())
    told = {event: event_words(plan, event, Confirmed(3)) for event in TOLD}
    assert told == TOLD


def test_every_line_has_its_time_and_what_was_done(tallycord, piece) -> None:
    tallycord("measure", piece, "86 mm")
    lines = tallycord("journal", piece).out.splitlines()
    assert all(re.match(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d  \S", line) for line in lines)
    assert [line[21:] for line in lines] == [
        "Begun: Skerry bracelet, 33 steps.",
        "Jumped: 16 steps count as done.",
        "Strand measured 3 3/8 in after step 16.",
    ]
