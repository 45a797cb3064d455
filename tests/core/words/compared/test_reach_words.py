"""What a cord makes, in words: the most, one more, the design as it stands."""

from __future__ import annotations

import pytest

from companion.core.values.design import Bead, CordDesign, End, Knot, Repeat, Size
from companion.core.variants.reach import reach
from companion.core.words.compared.reach_words import reach_lines
from companion.storage.design.files import read_design
from tests.core.hand_designs import bead, design, knots

INCH = 25.4


@pytest.fixture
def skerry_design(skerry):
    return read_design(skerry).design


def told(made, cord_mm) -> list[str]:
    return list(reach_lines(reach(made, cord_mm)))


def test_the_most_and_by_how_much_one_more_is_too_long(skerry_design) -> None:
    assert told(skerry_design, 40 * INCH) == [
        "The longest it is enough for: 7 repeats, 6 1/16 in (154 mm) long.",
        "That is 15 Sea-glass rounds and 2 Silver daisies.",
        "It needs 38 3/4 in of cord; 1 1/4 in is left.",
        "Cut like that, 1 in 100 would run out.",
        "That is 1 15/16 in short of 8 in, the target.",
        "One more (8 repeats, 6 11/16 in long) needs 41 1/4 in, 1 1/4 in more than you have.",
        "The design as it stands (10 repeats, 7 15/16 in long) needs 46 3/16 in, 6 3/16 in more than you have.",
    ]


def test_the_design_itself_is_not_told_twice(skerry_design) -> None:
    enough = told(skerry_design, 47 * INCH)
    assert "That is as near to the target (8 in) as you asked." in enough
    assert not any("as it stands" in line for line in enough)
    assert told(skerry_design, 45 * INCH)[-1] == "That one would be the design as it stands."
    more = told(skerry_design, 2000.0)
    assert more[-1].endswith("needs 46 3/16 in, and this cord is enough for it.")


def test_a_cord_that_makes_nothing(skerry_design) -> None:
    first, second = told(skerry_design, 10 * INCH)
    assert first == (
        "This cord is too short for any of it: even 1 repeat (2 5/16 in long) needs 23 3/4 in, 13 3/4 in more than you "
        "have."
    )
    assert second.startswith("The design as it stands (10 repeats")


def test_where_nothing_repeats() -> None:
    made = design([Bead("b"), Knot("single"), Bead("b")], CordDesign("linen", 0.7, knots=knots(6, 2)), [bead(6)])
    assert told(made, 1000.0)[0] == "It is enough for the piece as it stands: 14 mm (9/16 in) long."
    assert told(made, 100.0)[0].startswith("This cord is too short: the piece needs")


def test_several_cords_and_one_cut_apart_are_named(patterns) -> None:
    made = read_design(patterns / "inner-farne-strands.yaml").design
    assert "(3 cords)" in " ".join(told(made, 9000.0))
    sliding = read_design(patterns / "start-point-band.yaml").design
    assert "for the sliding knot)" in " ".join(told(sliding, 1500.0))


def test_all_of_it_used_up_and_the_end_of_what_is_planned() -> None:
    tail = End("plain tail", tail_mm=0)
    cord = CordDesign("linen", 0.7, knots=knots(6, 2))
    made = design([Repeat(None, (Bead("b"), Knot("single")))], cord, [bead(6)], Size("length", 100.0), tail, tail)
    exactly = reach(made, 1000.0)
    assert exactly.made is not None
    assert "nothing is left." in " ".join(told(made, exactly.made.needs_mm))
    assert "Nothing longer was planned." in told(made, 1e9)
