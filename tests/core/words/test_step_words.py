"""Steps named, said aloud, and shown on two lines."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.closures.joint import Joint
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import cord_of
from companion.core.gate.plan_document import from_document, to_document
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, Space, Strand
from companion.core.values.text import count_word
from companion.core.words.step_words import step_in_two, step_line, step_name
from tests.core.random_designs import random_design

G, K, D = Bead("g"), Knot("single"), Knot("double")


def plan_of(*layouts, name="Glass", layers=1):
    cord = CordDesign("silk", 0.45, layers)
    strands = tuple(Strand(tuple(layout), name=f"strand {n}") for n, layout in enumerate(layouts, start=1))
    return compile_plan(Design("Light", cord, (BeadKind("g", name, 6, 6, 1.0),), strands, unit="mm"))


def first_string(plan, entry: int = 0) -> int:
    """The piece's first step of an entry that strings anything."""
    return plan.piece_step(entry, next(s.number for s in plan.strands[entry].steps if s.kind == "string"))


def test_a_step_is_named_with_its_entry_where_there_are_several() -> None:
    assert step_name(plan_of([G, K]), 2) == "2"
    two = plan_of([G, K], [G, K, G, K])
    assert step_name(two, two.piece_step(1, 3)) == "9"


def test_a_step_for_the_ear() -> None:
    """A step in words has a full stop, once."""
    one, two = plan_of([G, K]), plan_of([G, K], [G, K])
    assert step_line(one, first_string(one)) == "Glass, then a single knot. Step 4 of 6."
    assert step_line(one, 3) == "Leave a tail of 80 mm before the first knot or bead. Step 3 of 6."
    assert step_line(two, first_string(two, 1)) == "Glass, then a single knot. Step 10 of 12, strand 2."


@pytest.mark.parametrize(
    ("layout", "layers", "shown"),
    [
        ([G, K], 1, ("Glass", "then a single knot")),
        ([G, G, K], 2, ("2 Glass", "then a single knot, both cords as one")),
        ([G, Space(5.0), D], 3, ("Glass, 5 mm of bare cord", "then a double knot, all three cords as one")),
        ([K], 1, ("A single knot", "where the strand begins")),
        ([K], 2, ("A single knot", "where the strand begins, both cords as one")),
        ([G, G], 2, ("2 Glass", "")),
        ([Space(5.0)], 1, ("5 mm of bare cord", "")),
    ],
)
def test_beads_and_knot_stand_on_lines_of_their_own(layout, layers, shown) -> None:
    plan = plan_of(layout, layers=layers)
    assert step_in_two(plan, first_string(plan)) == shown


def test_a_bead_may_be_called_what_it_likes() -> None:
    """Its name is no part of the sentence: nothing is read out of it."""
    odd = "Glass, then a bit. More"
    plan = plan_of([G, K], name=odd)
    assert step_in_two(plan, first_string(plan)) == (odd, "then a single knot")


@pytest.mark.parametrize("seed", range(12))
def test_the_two_lines_are_the_step_s_own_text(seed) -> None:
    """Of a plan that is new, and of one that a piece has kept."""
    plan = compile_plan(random_design(seed))
    for one in (plan, from_document(to_document(plan))):
        steps = [step for strand in one.strands for step in strand.steps]
        for number, step in enumerate(steps, start=1):
            beads, knot = step_in_two(one, number)
            said = f"{beads}, {knot}" if knot.startswith(("then ", "where ")) else beads
            together = ", both cords as one", f", all {count_word(one.cord.layers)} cords as one"
            assert said in (step.text, *(f"{step.text}{more}" for more in together))


def test_every_step_of_a_closure_is_a_sentence() -> None:
    """It stands in sentences with its full stop, and with a small first letter."""
    for closure in CLOSURES.values():
        at = Joint(cord_of(CordDesign("silk", 0.45)), "mm", 80.0, ("Glass",) * 3)
        ends = closure.start.steps, closure.end.steps, closure.first_side, closure.second_side
        for text in (step.text for steps in ends if steps for step in steps(at)):
            assert text.endswith(".")
            assert text[0].isupper()
            assert text[1].islower()


def test_a_kept_step_keeps_its_text() -> None:
    """What a piece was begun with is said as it was then."""
    plan = plan_of([G, K])
    strand = plan.strands[0]
    steps = (replace(strand.steps[0], text="As it was once said."), *strand.steps[1:])
    kept = replace(plan, strands=(replace(strand, steps=steps),))
    assert step_line(kept, 1) == "As it was once said. Step 1 of 6."
    assert step_in_two(kept, 1) == ("As it was once said.", "")
