"""Lengths, cuts, steps and words as typed on the line: what is taken, what is questioned, what is refused."""

from __future__ import annotations

import json

import pytest


@pytest.fixture
def strands(patterns):
    return patterns / "inner-farne-strands.yaml"


@pytest.fixture
def piece(companion, skerry) -> str:
    """A Skerry bracelet with 13 of 28 steps made."""
    name = companion("start", skerry).out.strip()
    companion("jump", name, 13)
    return name


def journal(companion, name: str) -> list[str]:
    """What happened, without the times."""
    return [line.split("  ", 1)[1] for line in companion("journal", name).out.splitlines()]


def test_each_cord_can_be_named(companion, strands) -> None:
    name = companion("start", strands, "--cut", "lower=3 m", "--cut", "upper=2.5 m").out.strip()
    fault = "\n".join(journal(companion, name))
    assert "Cut 250 cm (upper;" in fault
    assert "Cut 300 cm (lower;" in fault
    assert "(middle;" not in fault


def test_cords_in_order(companion, strands) -> None:
    name = companion("start", strands, "--cut", "2.5 m", "--cut", "2.6 m", "--cut", "2.7 m").out.strip()
    assert [line.split(";")[0] for line in journal(companion, name)[1:]] == [
        "Cut 250 cm (upper",
        "Cut 260 cm (middle",
        "Cut 270 cm (lower",
    ]


@pytest.mark.parametrize(
    ("cuts", "words"),
    [
        (["46 in"], "upper, middle and lower"),
        (["upper=2 m", "upper=3 m"], "upper is given two lengths"),
        (["2 m", "upper=3 m", "2 m"], "upper is given two lengths"),
        (["1 m", "1 m", "1 m", "1 m"], "cuts 3 cords"),
        (["crown=2 m"], "no cord crown"),
        (["upper=0 mm"], "a length above 0"),
        (["upper=46"], "46 mm or 46 in"),
        (["upper="], "Found nothing"),
        (["upp\x1b[31mer=2 m"], "no cord upp[31mer"),
    ],
)
def test_cuts_that_cannot_be_meant(companion, strands, data_folder, cuts, words) -> None:
    ran = companion("start", strands, *(part for cut in cuts for part in ("--cut", cut)))
    assert ran.code == 2
    assert ran.out == ""
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert not data_folder.exists()


def test_a_short_cut_is_questioned_from_five_per_cent(companion, skerry) -> None:
    planned_mm = json.loads(companion("plan", skerry, "--json").out)["strands"][0]["cut_mm"]
    a_little = companion("start", skerry, "--cut", f"{planned_mm * 0.951:.3f} mm")
    enough = companion("start", skerry, "--cut", f"{planned_mm * 0.949:.3f} mm")
    assert (a_little.code, a_little.err) == (0, "")
    assert enough.code == 0
    assert enough.out == "skerry-bracelet-2\n"  # taken all the same, and the name stands alone
    assert "5 % short" in enough.err


def test_a_short_cut_says_which_cord(companion, strands) -> None:
    ran = companion("start", strands, "--cut", "middle=1 m")
    assert ran.out == "inner-farne-strands\n"
    assert ran.err.splitlines()
    assert all(line.startswith("▲ middle: ") for line in ran.err.splitlines())


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["7"], "7 mm or 7 in"),
        (["-7 mm"], "with a sign"),
        (["7 \x1b[31mmm"], "Found"),
        (["82 mm", "--ruler", "0 mm"], "above 0"),
        (["82 mm", "--ruler", "5 in"], "an inch at most"),
        (["82 mm", "--ruler", "1/16"], "without a unit"),
        (["82 mm", "--at", "29"], "no step 29"),
        (["82 mm", "--at", "first:3"], "no entry first"),
        (["82 mm", "--at", "\x1b[2J"], "the number of a step"),
        (["82 mm", "--withdraw"], "give it no length"),
        (["--free", "30 cm", "--withdraw"], "give it no length"),
        (["82 mm", "--free", "30"], "30 mm or 30 in"),
    ],
)
def test_readings_that_cannot_be_meant_are_not_taken(companion, piece, arguments, words) -> None:
    before = journal(companion, piece)
    ran = companion("measure", piece, *arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert journal(companion, piece) == before


def test_a_reading_after_a_step_not_made_is_the_pieces_fault(companion, piece) -> None:
    before = journal(companion, piece)
    ran = companion("measure", piece, "82 mm", "--free", "30 cm", "--at", "20")
    assert ran.code == 1
    assert "not made yet" in ran.err
    assert journal(companion, piece) == before


def test_a_reading_from_earlier_is_held_against_what_was_expected_there(companion, piece, skerry) -> None:
    steps = json.loads(companion("plan", skerry, "--json").out)["strands"][0]["steps"]
    assert (steps[6]["strand_mm"], steps[12]["strand_mm"]) == (42, 86)
    right = companion("measure", piece, "42 mm", "--at", 7)
    assert right.out.startswith("As expected (1 5/8 in).")
    assert right.err == ""
    companion("measure", piece, "--withdraw")
    wrong = companion("measure", piece, "86 mm", "--at", 7)  # right after step 13, wrong after step 7
    assert wrong.code == 0
    assert "far from the 1 5/8 in expected" in wrong.err
    assert "--withdraw" in wrong.err


def test_what_the_ruler_should_say(companion, piece) -> None:
    out = companion("measure", piece).out
    assert out.splitlines()[0].startswith("Strand 3 3/8 ± ")
    assert out.splitlines()[0].endswith(" From the first knot to here, the closure before it left out.")
    assert out.splitlines()[1].startswith("Free cord a layer, tail included: ")
    assert len(journal(companion, piece)) == 2  # asking writes nothing


def test_strand_and_cord_in_one_call(companion, piece) -> None:
    ran = companion("measure", piece, "3 3/8 in", "--free", "14 1/4 in", "--ruler", "1/16 in")
    assert ran.code == 0
    assert "It would finish at" in ran.out
    assert "On plan." in ran.out
    assert "Enough cord." in ran.out
    assert journal(companion, piece)[-2:] == [
        "Strand measured 3 3/8 in after step 13.",
        "Free cord measured 14 1/4 in after step 13.",
    ]


def test_a_coarser_ruler_says_less(companion, skerry) -> None:
    """The same reading read to an inch leaves more in doubt than read to a millimetre."""
    wide = []
    for ruler in ("1 mm", "1 in"):
        name = companion("start", skerry).out.strip()
        companion("jump", name, 13)
        companion("measure", name, "86 mm", "--ruler", ruler)
        status = json.loads(companion("status", name, "--json").out)
        wide.append(status["finished_high95_mm"] - status["finished_low95_mm"])
    assert wide[1] > wide[0] * 1.2


def test_the_step_meant_can_be_said_so_that_nothing_counts_twice(companion, piece) -> None:
    assert companion("next", piece, "--step", 14).code == 0
    again = companion("next", piece, "--step", 14)
    assert again.code == 1
    assert "14 of 28 are made" in again.err
    assert companion("next", piece, "--step", "x").code == 2


def test_steps_of_several_entries_are_said_as_they_are_typed(companion, strands) -> None:
    name = companion("start", strands).out.strip()
    assert ", upper:1.\n" in companion("next", name).out
    moved = companion("jump", name, "middle:3").out
    assert moved.startswith("Steps upper:2 to middle:3 count as made.")
    assert moved.rstrip().endswith(", middle:4.")
    assert json.loads(companion("status", name, "--json").out)["next_step"] == "middle:4"
    assert companion("next", name, "--step", "middle:4").code == 0
    assert companion("next", name, "--step", 5).code == 2


@pytest.mark.parametrize("text", [[""], [" ", "\t"], ["\x1b\x07"], ["\u202e"]])
def test_a_note_of_nothing_is_refused(companion, piece, text) -> None:
    ran = companion("note", piece, *text)
    assert ran.code == 2
    assert "at least a word" in ran.err
    assert len(journal(companion, piece)) == 2


def test_typed_words_are_only_text(companion, piece) -> None:
    assert companion("note", piece, "red \x1b[31m\u202e\nend").code == 0
    assert journal(companion, piece)[-1] == "Note: red [31m end"
    assert companion("abandon", piece, "lost\x07 it").code == 0
    assert journal(companion, piece)[-1] == "Given up. lost it"
    ran = companion("status", "\x1b[31m" + piece)
    assert ran.code == 1
    assert "\x1b" not in ran.err


def test_an_ended_piece_has_nothing_to_forecast(companion, piece) -> None:
    companion("abandon", piece)
    assert companion("status", piece).out.splitlines()[1:] == ["Given up: 13 of 28 steps were made."]
    companion("back", piece)
    companion("jump", piece, 28)
    assert companion("finish", piece, "0 mm").code == 2
    far = companion("finish", piece, "202 cm")
    assert far.code == 0
    assert "far from the plan" in far.err
    companion("back", piece)
    right = companion("finish", piece, "202 mm")
    assert (right.code, right.err) == (0, "")
    assert companion("status", piece).out.splitlines()[1:] == ["Finished at 7 15/16 in; the target is 8 in."]


def test_a_design_edited_since_is_told_and_changes_nothing(companion, skerry, tmp_path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_bytes(skerry.read_bytes())
    name = companion("start", path).out.strip()
    before = companion("status", name).out
    path.write_text(path.read_text().replace("name: Skerry", "name: Other"))
    after = companion("status", name).out
    assert after.startswith(before)
    assert after.removeprefix(before).startswith("The design file has changed")
