"""Lengths, cuts, steps and shares as typed on the line: what is taken, what is refused."""

from __future__ import annotations

import pytest

from tests.cli.running import journal


def test_a_bare_number_is_in_the_pieces_unit(tallycord, piece, strands) -> None:
    """The bracelet's file is in inches, the strands' in centimetres."""
    assert tallycord("measure", piece, "3 3/8", "--free", "14 1/4").code == 0
    assert journal(tallycord, piece)[-2:] == [
        "Strand measured 3 3/8 in after step 16.",
        "Leftover cord measured 14 1/4 in after step 16.",
    ]
    assert tallycord("join", piece, "12").code == 0
    assert journal(tallycord, piece)[-1] == "New cord joined on: 12 in more of each cord."
    metric = tallycord("start", strands).out.strip()
    assert tallycord("join", metric, "30,5").code == 0
    assert journal(tallycord, metric)[-1] == "New cord joined on: 30.5 cm more of each cord."


def test_a_bare_number_ends_a_piece_in_its_unit(tallycord, piece) -> None:
    tallycord("jump", piece, 33)
    assert tallycord("finish", piece, "7 15/16", "--left", "5").code == 0
    assert journal(tallycord, piece)[-1] == "Finished at 7 15/16 in."


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("measure", "86"), "86 in looks wrong, but 86 mm would fit."),
        (("measure", "8.6"), "8.6 in looks wrong, but 8.6 cm would fit."),
        (("measure", "--free", "370"), "370 in looks wrong, but 370 mm would fit."),
        (("join", "300"), "300 in looks wrong, but 300 mm would fit."),
    ],
)
def test_a_bare_number_that_fits_in_another_unit_only_is_asked_about(tallycord, piece, arguments, words) -> None:
    before = journal(tallycord, piece)
    ran = tallycord(*arguments)
    assert (ran.code, ran.out) == (2, "")
    assert words in ran.err
    assert "Nothing was saved." in ran.err
    assert journal(tallycord, piece) == before
    assert tallycord("measure", "86 in").code == 1  # with its unit it is what she says, and questioned
    assert journal(tallycord, piece) == before
    assert tallycord("measure", "86 in", "--anyway").code == 0


def test_the_real_length_in_another_unit_is_asked_about(tallycord, piece) -> None:
    tallycord("jump", piece, 33)
    ran = tallycord("finish", piece, "202")
    assert ran.code == 2
    assert "202 in looks wrong, but 202 mm would fit." in ran.err
    assert "Begun" in journal(tallycord, piece)[0]
    assert tallycord("finish", piece, "202 mm").code == 0


def test_each_cord_can_be_named(tallycord, strands) -> None:
    name = tallycord("start", strands, "--cut", "lower=3 m", "--cut", "upper=2.5 m").out.strip()
    fault = "\n".join(journal(tallycord, name))
    assert "Cut 250 cm (upper;" in fault
    assert "Cut 300 cm (lower;" in fault
    assert "(middle;" not in fault


def test_cords_in_order(tallycord, strands) -> None:
    name = tallycord("start", strands, "--cut", "2.5 m", "--cut", "2.6 m", "--cut", "2.7 m").out.strip()
    assert [line.split(";")[0] for line in journal(tallycord, name)[1:]] == [
        "Cut 250 cm (upper",
        "Cut 260 cm (middle",
        "Cut 270 cm (lower",
    ]


@pytest.mark.parametrize(
    ("cuts", "words"),
    [
        (["46 in"], "upper, middle and lower"),
        (["upper=2 m", "upper=3 m"], "two lengths for the cord upper"),
        (["2 m", "upper=3 m", "2 m"], "two lengths for the cord upper"),
        (["1 m", "1 m", "1 m", "1 m"], "takes 3 cords"),
        (["crown=2 m"], "no cord named crown"),
        (["upper=0 mm"], "a length above 0"),
        (["upper=46"], "46 mm or 46 in"),
        (["upper="], "Found nothing"),
        (["upp\x1b[31mer=2 m"], "no cord named upp[31mer"),
    ],
)
def test_cuts_that_cannot_be_meant(tallycord, strands, data_folder, cuts, words) -> None:
    ran = tallycord("start", strands, *(part for cut in cuts for part in ("--cut", cut)))
    assert ran.code == 2
    assert ran.out == ""
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert not data_folder.exists()


def test_steps_of_several_entries_are_named(tallycord, patterns) -> None:
    name = tallycord("start", patterns / "inner-farne-strands.yaml").out.strip()
    assert "Step 28 of 150, upper." in tallycord("jump", name, 27).out
    assert tallycord("jump", name, 151).err.startswith("There is no step 151. The last one is 150.")
    assert tallycord("jump", name, "middle:2").code == 0
    assert "(middle)" in tallycord("status", name).out


@pytest.mark.parametrize("text", ["1", "60%", "0%", "−1%", "nan%", "1e1%", "%", "½%", "", "0.001%", "1%%"])
def test_what_is_no_share(tallycord, text) -> None:
    ran = tallycord("risk", text)
    assert ran.code == 2
    assert "expected a share" in ran.err
    assert "1 % of pieces" in tallycord("risk").out
