"""How every knot and closure is worked, on the command line."""

from __future__ import annotations

import pytest

from companion.core.words.trade.how_to import how_to, names


def test_without_a_name_all_are_listed(tallycord) -> None:
    out = tallycord("knots").out
    assert [line.split("  ")[0] for line in out.splitlines() if line[0] != " "] == list(names())
    assert max(map(len, out.splitlines())) <= 78


def test_a_knot_with_its_drawing_and_what_goes_wrong(tallycord) -> None:
    out = tallycord("knots", "double", "knot").out
    told = how_to("double knot", "mm")
    assert out.startswith("Double knot\n")
    assert told.drawing
    assert "\n".join(told.drawing) in out
    assert "What goes wrong" in out


@pytest.mark.parametrize(("unit", "tail"), [("mm", "150 mm"), ("in", "6 in"), ("cm", "15 cm")])
def test_a_closure_in_the_unit_that_is_asked_for(tallycord, unit, tail) -> None:
    out = " ".join(tallycord("knots", "French wire", "--unit", unit).out.split())
    assert f"leave {tail} of tail" in out
    assert "You will need: 2 coils of French wire" in out


@pytest.mark.parametrize("name", names())
def test_every_one_can_be_read(tallycord, name) -> None:
    ran = tallycord("knots", *name.split())
    assert (ran.code, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 78


def test_an_unknown_name_is_said_with_those_there_are(tallycord) -> None:
    ran = tallycord("knots", "macaroni")
    assert (ran.code, ran.out) == (2, "")
    assert "macaroni" in ran.err
    assert "sliding knot" in ran.err
