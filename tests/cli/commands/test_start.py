"""start: cuts that are questioned."""

from __future__ import annotations

from companion.core.plan.cut import told_cut_mm
from companion.workshop import open_at


def test_a_cut_fifteen_per_cent_short_is_questioned(tallycord, skerry) -> None:
    ran = tallycord("start", skerry, "--cut", "998 mm")
    assert ran.code == 0
    assert "Much too short: " in ran.err
    assert "chance of running out before the end" in ran.err


def test_a_short_cut_is_questioned_from_five_per_cent(tallycord, skerry) -> None:
    planned_mm = told_cut_mm(open_at().plan(skerry).plan, 0)
    a_little = tallycord("start", skerry, "--cut", f"{planned_mm * 0.951:.3f} mm")
    enough = tallycord("start", skerry, "--cut", f"{planned_mm * 0.949:.3f} mm")
    assert (a_little.code, a_little.err) == (0, "")
    assert enough.code == 0
    assert enough.out == "skerry-bracelet-2\n"  # taken all the same, and the name stands alone
    assert "Much too short: " in enough.err


def test_a_short_cut_says_which_cord(tallycord, strands) -> None:
    ran = tallycord("start", strands, "--cut", "middle=1 m")
    assert ran.out == "inner-farne-strands\n"
    assert ran.err.splitlines()
    assert all(line.startswith("Warning: middle: ") for line in ran.err.splitlines())
