"""A sheet of paper, by a command."""

from __future__ import annotations

import pytest

from companion.core.sheet.sheet_text import BOX, TICKED


def test_of_a_design(tallycord, skerry) -> None:
    ran = tallycord("sheet", str(skerry))
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Skerry bracelet\n")
    assert ran.out.count(BOX) == 33
    assert tallycord("pieces").out.startswith("No pieces")


def test_of_a_piece_with_what_is_made_and_read(tallycord, skerry) -> None:
    tallycord("start", str(skerry), "--cut", "48 in")
    tallycord("jump", "10")
    tallycord("measure", "1 5/8 in")
    for named in ((), ("skerry",), ("--piece", "skerry-bracelet")):
        out = tallycord("sheet", *named).out
        assert out.startswith("skerry-bracelet\nA piece of Skerry bracelet.\n")
        assert "you cut 48 in" in out
        assert (out.count(TICKED), out.count(BOX)) == (10, 23)
        assert "yours: 1 5/8 in" in out


def test_as_a_page(tallycord, skerry, tmp_path) -> None:
    place = tmp_path / "skerry.html"
    ran = tallycord("sheet", str(skerry), "--html", str(place))
    assert ran.code == 0
    assert ran.out == f"Saved {place}. Open it in a browser, and print it at 100 %.\n"
    page = place.read_text("utf-8")
    assert page.startswith("<!DOCTYPE html>")
    again = tallycord("sheet", str(skerry), "--html", str(place))
    assert again.code == 1
    assert "is there already" in again.err
    assert place.read_text("utf-8") == page
    assert tallycord("sheet", str(skerry), "--html", str(place), "--force").code == 0
    assert tallycord("sheet", str(skerry), "--html", "-").out == page


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("sheet", "nothing.yaml"), 1, "There is no such file"),
        (("sheet", "nothing"), 1, "There is no piece named nothing"),
        (("sheet",), 1, "No piece is under way"),
        (("sheet", "--card", "silk"), 2, "--card goes with a design file"),
    ],
)
def test_what_is_not_there_is_said(tallycord, words, code, said) -> None:
    ran = tallycord(*words)
    assert (ran.code, ran.out) == (code, "")
    assert said in ran.err


def test_readings_of_a_sheet_are_entered_afterwards(tallycord, skerry) -> None:
    tallycord("start", str(skerry))
    refused = tallycord("measure", "1 5/8 in", "--at", "10")
    assert refused.code == 1
    assert "jump to that step first" in refused.err
    tallycord("jump", "28")
    for step, length in ((10, "1 5/8 in"), (18, "3 7/8 in"), (26, "6 3/8 in")):
        assert tallycord("measure", length, "--at", str(step)).code == 0
    assert "yours: 3 7/8 in" in tallycord("sheet").out


def test_a_design_with_errors_has_no_sheet(tallycord, tmp_path) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text("format: 1\nname: Broken\n", "utf-8")
    ran = tallycord("sheet", str(broken))
    assert (ran.code, ran.out) == (1, "")
    assert "broken.yaml" in ran.err
