"""Lengths, cuts, steps and shares as typed on the line: what is taken, what is refused."""

from __future__ import annotations

import pytest

from tests.cli.running import journal


def test_lengths_need_their_unit_on_the_command_line(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    ran = tallycord("measure", name, "7")
    assert ran.code == 2
    assert "7 mm or 7 in" in ran.err


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
def test_cuts_that_cannot_be_meant(tallycord, strands, data_folder, cuts, words) -> None:
    ran = tallycord("start", strands, *(part for cut in cuts for part in ("--cut", cut)))
    assert ran.code == 2
    assert ran.out == ""
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert not data_folder.exists()


def test_steps_of_several_entries_are_named(tallycord, patterns) -> None:
    name = tallycord("start", patterns / "inner-farne-strands.yaml").out.strip()
    bare = tallycord("jump", name, 27)
    assert bare.code == 2
    assert "ENTRY:NUMBER" in bare.err
    assert tallycord("jump", name, "middle:2").code == 0
    assert "(middle)" in tallycord("status", name).out


@pytest.mark.parametrize("text", ["1", "60%", "0%", "−1%", "nan%", "1e1%", "%", "½%", "", "0.001%", "1%%"])
def test_what_is_no_share(tallycord, text) -> None:
    ran = tallycord("risk", text)
    assert ran.code == 2
    assert "expected a share" in ran.err
    assert "1 % of pieces" in tallycord("risk").out
