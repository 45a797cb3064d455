"""status --chart: drawn with its numbers, in sentences for the ear and for terminals without its letters."""

from __future__ import annotations

import json

import pytest

from tests.cli.running import in_a_shell


@pytest.fixture
def measured(tallycord, piece) -> str:
    """Read twice: as planned, and a bead too short."""
    for step, length in ((12, "58.5 mm"), (20, "105 mm")):
        tallycord("jump", piece, step)
        tallycord("measure", piece, length)
    return piece


def test_the_chart_and_below_it_the_numbers(tallycord, measured) -> None:
    ran = tallycord("status", measured, "--chart")
    lines = ran.out.splitlines()
    assert ran.code == 0
    assert lines[1] == "How far from the plan, along the strand:"
    assert max(map(len, lines[2:14])) <= 60
    drawn = "\n".join(lines[2:14])
    assert drawn.count("●") == 2
    assert "▲ here" in drawn  # a mark of the picture, no warning
    assert "● measured   ░ still to come, 19 times in 20" in ran.out
    assert "after step  planned    measured" in ran.out
    assert "12          2 5/16 in  2 5/16 in  as planned" in ran.out


def test_for_the_ear_there_is_no_picture(tallycord, measured) -> None:
    heard = tallycord("status", measured, "--chart", "--spoken").out
    assert "After step 12: planned 2 and 5 sixteenths inches, measured 2 and 5 sixteenths inches, as planned." in heard
    assert not set(heard) & set("●○░┃─▼")


def test_a_terminal_without_its_letters_is_told_the_same_in_words(measured) -> None:
    ran = in_a_shell(f"tallycord status {measured} --chart", PYTHONIOENCODING="ascii")
    assert ran.returncode == 0
    assert "After step 12: planned 2 5/16 in" in ran.stdout
    assert "?" not in ran.stdout


def test_the_numbers_for_programs(tallycord, measured) -> None:
    plain = json.loads(tallycord("status", measured, "--json").out)
    charted = json.loads(tallycord("status", measured, "--json", "--chart").out)
    (entry,) = charted.pop("chart")
    assert charted == plain
    assert [(one["step"], one["planned_mm"], one["strand_mm"]) for one in entry["readings"]] == [
        (12, 58.0, 58.5), (20, 116.0 - 2.0, 105.0),
    ]  # fmt: skip
    first, last = entry["coming"][0], entry["coming"][-1]
    assert first["mean_mm"] == pytest.approx(plain["strand_mm"])
    assert last["planned_mm"] == entry["planned_end_mm"] == pytest.approx(178.0)
    assert entry["tolerance_high_mm"] - entry["tolerance_low_mm"] == pytest.approx(2 * 25.4 / 8)


def test_before_anything_is_read_and_after_the_end(tallycord, piece) -> None:
    assert "Nothing is measured yet: the chart shows what to expect." in tallycord("status", piece, "--chart").out
    tallycord("jump", piece, 33)
    tallycord("finish", piece, "202 mm")
    ended = tallycord("status", piece, "--chart").out
    assert "◆ came out" in ended
    assert "░" not in ended
    tallycord("undo", piece)
    tallycord("abandon", piece)
    assert tallycord("status", piece, "--chart").code == 0


def test_each_strand_that_is_begun_has_its_chart(tallycord, strands) -> None:
    tallycord("start", strands)
    tallycord("jump", "middle:9")
    out = tallycord("status", "--chart").out
    assert out.index("along the strand (middle):") < out.index("along the strand (upper):")
    assert "(lower)" not in out
