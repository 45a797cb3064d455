"""Every knot and small job that a step names can be read where it is asked for, and without a piece."""

from __future__ import annotations

from itertools import product

import pytest

from companion.core.closures.table import CLOSURES
from companion.core.words.trade.asked_for import asked_for
from companion.core.words.trade.how_to import how_to, names
from companion.core.words.trade.techniques import OTHER_NAMES, TECHNIQUES
from tests.core.plan.test_by_hand import MATERIALS, plan_of

# What a step may name, and the how-to that tells it.
NAMED = {
    "half hitch": "half hitch",
    "surgeon's knot": "surgeon's knot",
    "reef knot": "reef knot",
    "coil of french wire": "coil of French wire",
    "second coil": "coil of French wire",
    "run the tail back": "running a tail back",
    "run each tail back": "running a tail back",
    "single knot round the strand": "knot round the strand",
    "jump ring": "jump ring",
    "crimp": "crimp",
    "small stop bead": "stop bead",
    "toggle's bar": "toggle",
    "stretch the silk": "stretching silk",
    "stiffen": "stiffening an end",
    "the loop over": "button loop",
}


@pytest.mark.parametrize("closure", CLOSURES)
@pytest.mark.parametrize("finding", ["", "toggle clasp"])
def test_what_a_step_names_is_told_beside_it(closure, finding) -> None:
    for material, layers, tool in product(MATERIALS, (1, 2), ("awl", "needle")):
        plan = plan_of(closure, material, layers, tool, finding=finding)
        (strand,) = plan.strands
        for step in strand.steps:
            said = step.text.lower()
            told = {one.name for one in asked_for(plan, 0, step)}
            wanted = {how for words, how in NAMED.items() if words in said} if step.kind != "string" else set()
            wanted -= {"button loop"} if step.kind == "end" else {"toggle"}  # tied at the start; the bar is at the end
            assert wanted <= told, (step.text, material, layers, tool)


def test_no_more_is_told_than_a_step_asks_for() -> None:
    """Glue and trimming need no how-to of the hitches that were tied two steps before."""
    plan = plan_of("knotted to the clasp", "linen", finding="toggle clasp")
    (strand,) = plan.strands
    told = [[one.name for one in asked_for(plan, 0, step)] for step in strand.steps if step.kind == "end"]
    assert told == [["half hitch", "toggle"], ["toggle"], [], ["running a tail back"], [], []]


def test_a_knot_at_the_start_does_not_push_beads_up() -> None:
    plan = plan_of("bead tip and clasp", "linen")
    step = [one for one in plan.strands[0].steps if one.kind == "start"][-1]
    (told,) = asked_for(plan, 0, step)
    assert told.name == "Double knot"
    assert told.parts[0][1][0] == "Pinch the cord where the strand begins."


def test_nothing_is_told_of_a_step_of_beads_and_knots() -> None:
    plan = plan_of("bead tip and clasp")
    step = next(one for one in plan.strands[0].steps if one.kind == "string")
    assert list(asked_for(plan, 0, step)) == []


@pytest.mark.parametrize("name", [*OTHER_NAMES, "crimp", "crimp cover", "joining a new cord", "half hitch", "endless"])
def test_a_name_that_makers_use_is_found(name) -> None:
    told = how_to(name, "in")
    assert told is not None
    assert told.name in {OTHER_NAMES.get(name, name), OTHER_NAMES.get(name, name).capitalize()}


def test_other_names_lead_somewhere_and_hide_nothing() -> None:
    assert set(OTHER_NAMES.values()) <= set(names())
    assert not set(OTHER_NAMES) & {name.lower() for name in names()}


@pytest.mark.parametrize("one", TECHNIQUES.values(), ids=lambda one: one.name)
def test_sentences_can_be_read_aloud_in_one_breath(one) -> None:
    for text in (one.used_for, *one.steps, *one.mistakes):
        assert len(text) <= 200
        assert text[0].isupper()
        assert text.endswith(".")
        assert "!" not in text


def test_what_a_job_names_is_needed_for_it() -> None:
    for one in TECHNIQUES.values():
        told = " ".join(one.steps).lower()
        for thing in ("pliers", "glue"):
            assert (thing in told) <= (thing in one.needed), (one.name, thing)
