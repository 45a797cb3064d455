"""readings: all of them listed, any of them taken out or put back; and a count that is off, which is asked about."""

from __future__ import annotations

import json

import pytest

from companion.core.journal.events import Recounted
from companion.workshop import open_at
from tests.cli.running import journal


@pytest.fixture
def read(tallycord, piece) -> str:
    """A Skerry bracelet with three readings after steps 10 and 16."""
    tallycord("measure", piece, "42 mm", "--at", 10)
    tallycord("measure", piece, "86 mm", "--free", "37 cm")
    return piece


def listed(tallycord, name: str) -> list[str]:
    """The list without the times."""
    lines = tallycord("readings", name).out.splitlines()
    return [" ".join(word for word in line.split() if word[:2] != "20" and word[2:3] != ":") for line in lines]


def test_every_reading_with_what_was_expected_and_whether_it_counts(tallycord, read) -> None:
    tallycord("readings", read, "--out", "2")
    assert listed(tallycord, read) == [
        "1: strand 1 5/8 in after step 10, Expected by the plan: 1 5/8 in. It was as expected. It counts.",
        "2: strand 3 3/8 in after step 16, Expected by your earlier readings and by the plan: 3 3/8 in. "
        "It was as expected. You took it out.",
        "3: leftover cord 14 9/16 in after step 16, Expected by your earlier readings and by the plan: 14 3/4 in. "
        "It was 1/8 in less. It counts.",
        "`tallycord readings skerry-bracelet --out N` takes number N out; `--in N` puts it back.",
    ]


def test_out_and_in_say_what_was_done_and_what_it_comes_to(tallycord, read) -> None:
    out = tallycord("readings", read, "--out", "1")
    assert out.code == 0
    assert out.out.splitlines()[0] == "Your reading of 1 5/8 in after step 10 is taken out."
    assert "On length." in out.out
    back = tallycord("readings", "--in", "1")
    assert back.out.splitlines()[:2] == [f"On {read}:", "Your reading of 1 5/8 in after step 10 counts again."]
    assert journal(tallycord, read)[-2:] == [
        "Taken out: your reading of 1 5/8 in after step 10.",
        "Put back: your reading of 1 5/8 in after step 10.",
    ]
    undone = tallycord("undo").out
    assert "Undone: putting back your reading of 1 5/8 in after step 10." in undone
    assert "Redone: putting back your reading of 1 5/8 in after step 10." in tallycord("redo").out


def test_withdrawing_says_which_reading_is_out(tallycord, read) -> None:
    assert (
        "Your leftover-cord reading of 14 9/16 in after step 16 is taken out."
        in tallycord("measure", read, "--withdraw").out
    )
    assert "Your reading of 3 3/8 in after step 16 is taken out." in tallycord("measure", read, "--withdraw").out
    assert [one.counts for one in open_at().open(read).piece.all_readings] == [True, False, False]


def test_for_programs(tallycord, read) -> None:
    tallycord("readings", read, "--out", "3")
    document = json.loads(tallycord("readings", read, "--json").out)
    assert (document["format"], document["piece"]) == (1, read)
    first, second, third = document["readings"]
    assert {key: first[key] for key in first if key != "at"} == {
        "number": 1,
        "kind": "strand",
        "step": 10,
        "step_name": "10",
        "length_mm": 42.0,
        "typed": "42 mm",
        "planned_mm": 42.0,
        "believed_mm": None,
        "off_mm": 0.0,
        "state": "counts",
    }
    assert second["believed_mm"] == pytest.approx(86, abs=0.5)
    assert (third["kind"], third["state"]) == ("free", "taken out")
    back = json.loads(tallycord("readings", read, "--in", "3", "--json").out)
    assert [one["state"] for one in back["readings"]] == ["counts"] * 3


def test_those_left_behind_have_no_number(tallycord, read) -> None:
    tallycord("jump", read, 12)
    lines = listed(tallycord, read)
    assert lines[1] == "strand 3 3/8 in after step 16, You went back past that step, so it no longer counts."
    document = json.loads(tallycord("readings", read, "--json").out)
    assert [(one["number"], one["state"]) for one in document["readings"][1:]] == [(None, "left behind")] * 2
    refused = tallycord("readings", read, "--out", "2")
    assert (refused.code, refused.out) == (1, "")
    assert "There is no reading 2. The last one is 1." in refused.err


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (["--out", "x"], 2, "expected the number of a reading, in digits"),
        (["--in", ""], 2, "Found nothing; expected the number of a reading"),
        (["--out", "1", "--in", "2"], 2, "Found --out and --in; expected one of them"),
        (["--out", "4"], 1, "There is no reading 4. The last one is 3."),
        (["--out", "0"], 1, "There is no reading 0."),
        (["--in", "1"], 1, "Reading 1 counts already"),
        (["2"], 1, "no piece named 2"),
    ],
)
def test_what_is_no_reading_is_refused(tallycord, read, arguments, code, words) -> None:
    before = journal(tallycord, read)
    ran = tallycord("readings", *([read] if arguments[0] != "2" else []), *arguments)
    assert (ran.code, ran.out) == (code, "")
    assert words in ran.err
    assert journal(tallycord, read) == before


def test_without_readings_and_of_a_piece_that_has_ended(tallycord, read, skerry) -> None:
    tallycord("jump", read, 33)
    tallycord("finish", read, "202 mm")
    ended = tallycord("readings", read).out.splitlines()
    assert [line[:2] for line in ended] == ["1:", "2:", "3:"]  # and nothing of taking out
    refused = tallycord("readings", read, "--out", "1")
    assert refused.code == 1
    assert "finished" in refused.err
    bare = tallycord("start", skerry).out.strip()
    assert tallycord("readings", bare).out == "No readings yet.\n"


# -- a count that is off ----------------------------------------------------------------------------------------------


def test_a_bead_fewer_is_asked_about_and_nothing_written(tallycord, piece) -> None:
    before = journal(tallycord, piece)
    ran = tallycord("recount", piece, "--beads", "10")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.splitlines() == [
        "One fewer than the count says. Which is it? Nothing was saved yet.",
        f"1  The count is ahead: set it back from step 16 to 15. `tallycord recount {piece} --beads 10 --screen`",
        f"2  A bead really is left out: reckon with it. `tallycord recount {piece} --beads 10 --really`",
    ]
    assert journal(tallycord, piece) == before


def test_each_answer_is_a_command_that_does_it(tallycord, piece) -> None:
    _, first, second = (line.split("`") for line in tallycord("recount", piece, "--beads", "10").err.splitlines())
    assert tallycord(*second[1].split()[1:]).out.startswith("One fewer than the plan says. That is recorded")
    assert [one.beads for one in open_at().open(piece).piece.counted] == [-1]
    tallycord("undo", piece)
    assert tallycord(*first[1].split()[1:]).out.startswith("The count is set back from step 16 to 15.")
    opened = open_at().open(piece)
    assert (opened.piece.done, opened.piece.counted) == (15, (Recounted(15),))


def test_what_was_read_since_goes_with_the_count_and_comes_back_with_it(tallycord, piece) -> None:
    tallycord("measure", piece, "3 1/4 in")
    ran = tallycord("recount", piece, "--from", "7", "--beads", "9", "--screen")
    assert ran.out.startswith("The count is set back from step 16 to 15.")
    assert [one.step for one in open_at().open(piece).piece.readings] == [15]
    assert "after step 15, 20" in tallycord("readings", piece).out  # with the day on which it was taken
    tallycord("undo", piece)
    opened = open_at().open(piece)
    assert (opened.piece.done, [one.step for one in opened.piece.readings]) == (16, [16])


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--screen",), "--screen goes with --beads"),
        (("--beads", "10", "--screen", "--really"), "--screen goes with --beads"),
        (("--beads", "11", "--screen"), "It cannot be the count of steps"),
    ],
)
def test_a_count_of_steps_that_cannot_be_set_so(tallycord, piece, arguments, words) -> None:
    before = journal(tallycord, piece)
    ran = tallycord("recount", piece, *arguments)
    assert ran.code != 0
    assert words in ran.err
    assert journal(tallycord, piece) == before


def test_beads_counted_further_back_take_back_no_more_than_they_are(tallycord, piece) -> None:
    """Steps 7 to 12 hold a bead fewer, at step 16: if it is the count, 15 steps are done, not 11."""
    err = tallycord("recount", piece, "12", "--from", "7", "--beads", "5").err
    assert "set it back from step 16 to 15." in err
    assert f"`tallycord recount {piece} 12 --from 7 --beads 5 --screen`" in err
    assert f"`tallycord recount {piece} 12 --from 7 --beads 5 --really`" in err


@pytest.mark.parametrize(("beads", "words"), [("11", "Count agrees"), (None, "Count agrees")])
def test_a_count_that_agrees_is_recorded_at_once(tallycord, piece, beads, words) -> None:
    ran = tallycord("recount", piece, *(["--beads", beads] if beads else []))
    assert ran.code == 0
    assert ran.out.startswith(words)


def test_what_no_step_can_explain_is_recorded_at_once(tallycord, piece) -> None:
    tallycord("jump", piece, 33)
    planned = 21 + 2  # and no step is left to do that could hold one more
    ran = tallycord("recount", piece, "--beads", str(planned + 1))
    assert ran.code == 0
    assert ran.out.startswith("One more than the plan says. That is recorded and reckoned with.")


def test_a_count_that_cannot_be_is_refused_as_before(tallycord, piece) -> None:
    before = journal(tallycord, piece)
    for arguments, words in ((["--beads", "400"], "looks wrong"), (["20", "--beads", "3"], "not done yet")):
        ran = tallycord("recount", piece, *arguments)
        assert (ran.code, ran.out) == (1, "")
        assert words in ran.err
    assert journal(tallycord, piece) == before
