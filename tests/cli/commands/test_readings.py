"""measure: what is taken, what is questioned, what is refused."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing

import pytest

from companion.workshop import open_at
from tests.cli.running import journal


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["7x"], "expected a number and its unit"),
        (["-7 mm"], "with a sign"),
        (["7 \x1b[31mmm"], "Found"),
        (["82 mm", "--ruler", "0 mm"], "above 0"),
        (["82 mm", "--ruler", "5 in"], "an inch at most"),
        (["82 mm", "--ruler", "1/16"], "without a unit"),
        (["82 mm", "--at", "34"], "no step 34"),
        (["82 mm", "--at", "first:3"], "no strand or side named first"),
        (["82 mm", "--at", "\x1b[2J"], "the number of a step"),
        (["82 mm", "--withdraw"], "give it no length"),
        (["--free", "30 cm", "--withdraw"], "give it no length"),
        (["82 mm", "--free", "370"], "370 in looks wrong, but 370 mm would fit"),
    ],
)
def test_readings_that_cannot_be_meant_are_not_taken(tallycord, piece, arguments, words) -> None:
    before = journal(tallycord, piece)
    ran = tallycord("measure", piece, *arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert journal(tallycord, piece) == before


def test_a_reading_after_a_step_not_made_is_the_pieces_fault(tallycord, piece) -> None:
    before = journal(tallycord, piece)
    ran = tallycord("measure", piece, "82 mm", "--free", "30 cm", "--at", "20")
    assert ran.code == 1
    assert "not done yet" in ran.err
    assert journal(tallycord, piece) == before


def test_a_reading_from_earlier_is_held_against_what_was_expected_there(tallycord, piece, skerry) -> None:
    steps = json.loads(tallycord("plan", skerry, "--json").out)["strands"][0]["steps"]
    assert (steps[9]["strand_mm"], steps[15]["strand_mm"]) == (42, 86)
    right = tallycord("measure", piece, "42 mm", "--at", 10)
    assert right.out.startswith("Your reading is as expected (1 5/8 in).")
    assert right.err == ""
    tallycord("measure", piece, "--withdraw")


def test_a_length_that_looks_wrong_is_asked_about_before_it_is_taken(tallycord, piece) -> None:
    before = journal(tallycord, piece)
    wrong = tallycord("measure", piece, "86 mm", "--at", 10)  # right after step 16, wrong after step 10
    assert (wrong.code, wrong.out) == (1, "")
    assert "far from the 1 5/8 in expected. Check the ruler and the unit. Nothing was saved." in wrong.err
    assert "--anyway" in wrong.err
    both = tallycord("measure", piece, "86 mm", "--free", "14 mm")  # the second of two: neither is taken
    assert (both.code, both.out) == (1, "")
    assert journal(tallycord, piece) == before
    assert tallycord("measure", piece, "86 mm", "--at", 10, "--anyway").code == 0
    assert journal(tallycord, piece) == [*before, "Strand measured 3 3/8 in after step 10."]


def test_what_the_ruler_should_say(tallycord, piece) -> None:
    out = tallycord("measure", piece).out
    assert out.splitlines()[0].startswith("The strand should measure 3 3/8 in, anything from 3 3/16 to ")
    assert out.splitlines()[0].endswith(
        " Measure from the first knot to the end of the last knot. Leave the bead tip out."
    )
    assert out.splitlines()[1].startswith("The leftover cord should measure ")
    assert len(journal(tallycord, piece)) == 2  # asking writes nothing


def test_strand_and_cord_in_one_call(tallycord, piece) -> None:
    ran = tallycord("measure", piece, "3 3/8 in", "--free", "14 1/4 in", "--ruler", "1/16 in")
    assert ran.code == 0
    assert "It would finish at" in ran.out
    assert "On length." in ran.out
    assert "Enough cord." in ran.out
    assert journal(tallycord, piece)[-2:] == [
        "Strand measured 3 3/8 in after step 16.",
        "Leftover cord measured 14 1/4 in after step 16.",
    ]


def test_a_coarser_ruler_says_less(tallycord, skerry) -> None:
    """The same reading read to an inch leaves more in doubt than read to a millimetre."""
    wide = []
    for ruler in ("1 mm", "1 in"):
        name = tallycord("start", skerry).out.strip()
        tallycord("jump", name, 16)
        tallycord("measure", name, "86 mm", "--ruler", ruler)
        status = json.loads(tallycord("status", name, "--json").out)
        wide.append(status["finished_high95_mm"] - status["finished_low95_mm"])
    assert wide[1] > wide[0] * 1.2


def test_two_readings_of_one_command_are_stored_together_or_not_at_all(tallycord, data_folder, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("next", name)
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        db.execute(
            "CREATE TRIGGER fault AFTER INSERT ON event WHEN NEW.data LIKE '%free%' "
            "BEGIN SELECT RAISE(ABORT, 'a fault'); END"
        )
    ran = tallycord("measure", name, "2 mm", "--free", "40 cm")
    assert (ran.code, ran.out) == (1, "")
    assert "nothing was saved" in ran.err
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db, db:
        assert db.execute("SELECT kind FROM event ORDER BY seq").fetchall() == [("started",), ("confirmed",)]
        db.execute("DROP TRIGGER fault")
    ran = tallycord("measure", name, "2 mm", "--free", "40 cm")
    assert ran.code == 0
    assert len(ran.out.splitlines()) >= 3
    assert [reading.kind for reading in open_at(data_folder).open(name).piece.readings] == ["strand", "free"]


@pytest.mark.parametrize(
    ("words", "strand_in", "free_in"),
    [
        (("--free", "14", "3/4"), None, 14.75),
        (("3", "5/8", "--free", "14", "1/2"), 3.625, 14.5),
        (("--free=14 1/2", "3", "5/8"), 3.625, 14.5),
    ],
)
def test_a_length_after_an_option_needs_no_quotes(tallycord, piece, words, strand_in, free_in) -> None:
    tallycord("jump", "16")
    told = tallycord("measure", *words)
    assert told.code == 0, told.err
    readings = {one.kind: one.length_mm / 25.4 for one in open_at().open(piece).piece.readings}
    assert readings == pytest.approx({"free": free_in} if strand_in is None else {"strand": strand_in, "free": free_in})
