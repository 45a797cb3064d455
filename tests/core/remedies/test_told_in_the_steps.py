"""A remedy that is chosen reaches the instructions: for every shipped design, at many steps, whatever is offered."""

from __future__ import annotations

from itertools import takewhile
from pathlib import Path

import pytest
import yaml

from companion.core.forecast.observations import ruler_mm
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import changed_plan
from companion.core.values.design import Space
from companion.core.values.measures.show_lengths import display_unit, show
from companion.storage.design.files import read_design
from tests.core.forecast.test_ruler_by_hand import length_mm, told_mm
from tests.core.oracles.plan_checks import check_identities
from tests.core.remedies.off_plan import aimed, what_to_do
from tests.examples import LONG

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))
NO_GAP = ("French wire and clasp", "crimp and clasp", "endless")


def offered(path):
    """(plan, piece, remedy) for everything offered at a few steps of a piece that is so much too short or too long: at
    each step with every second length, by turns from design to design; with all of them in the long run."""
    plan = compile_plan(read_design(path).design)
    if plan.target_mm is None:
        return
    string = [plan.piece_step(n, step.number) for n, one in enumerate(plan.strands) for step in one.steps[:-1]]
    places = sorted({string[len(string) // 3], string[2 * len(string) // 3], string[-9], string[-7]})
    for turn, done in enumerate(places, PATTERNS.index(path)):
        for off_mm in (-10, 4, 9.5, 25) if LONG else (-10, 4, 9.5, 25)[turn % 2 :: 2]:
            piece, _, found = what_to_do(aimed(plan, plan.finished_length_mm + off_mm), done)
            yield from ((plan, piece, remedy) for remedy in found if remedy.rests)


def trailing_mm(elements):
    return sum(one.length_mm for one in takewhile(lambda one: isinstance(one, Space), reversed(elements)))


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_the_steps_after_choosing_say_what_to_do_and_measure_what_they_say(path) -> None:
    document = yaml.safe_load(path.read_text(encoding="utf-8"))
    beads = {kind.get("name", key): length_mm(kind["length"]) for key, kind in document["beads"].items()}
    for plan, piece, remedy in offered(path):
        new = changed_plan(plan, (remedy.event(0),))
        check_identities(new)
        knots = {kind: new.cord.knot(kind).length_mm for kind in ("single", "double", "triple")}
        for rest in remedy.rests:
            strand, unit = new.strands[rest.entry], display_unit(new.unit)
            made = max(0, min(piece.done - new.piece_step(rest.entry, 0), len(strand.steps)))
            for step in strand.steps[made:]:
                if step.kind == "string" and made:
                    lies_mm = ruler_mm(new, rest.entry, step.number) - ruler_mm(new, rest.entry, step.number - 1)
                    if strand.steps[step.number - 2].kind == "string":
                        assert lies_mm == pytest.approx(told_mm(step.text, beads, knots), abs=1.0), step.text
            bare_mm = trailing_mm(strand.elements)
            if bare_mm > trailing_mm(plan.strands[rest.entry].elements):
                assert strand.end_closure not in NO_GAP
                ends = [step.text for step in strand.steps if step.kind == "end"]
                last = [step.text for step in strand.steps if step.kind == "string"][-1]
                assert show(bare_mm, unit) in ends[0]
                assert "bare cord" in last


def test_at_french_wire_a_pearl_is_offered_and_no_bare_cord() -> None:
    path = next(path for path in PATTERNS if "longstone" in path.stem)
    plan = compile_plan(read_design(path).design)
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm + 8), 20)
    assert not any("bare" in remedy.family for remedy in found)
    one = next(remedy for remedy in found if remedy.family == ("spacer",))
    assert one.text.startswith("One more Grey pearl before the closure. All beads are strung already: first thread one")
    new = changed_plan(plan, (one.event(0),))
    last = [step for step in new.strands[0].steps if step.kind == "string"][-1]
    assert last.text == "4 Grey pearls, left a little loose: their knots come with the clasp"
    assert new.finished_length_mm == pytest.approx(plan.finished_length_mm + 7)


def test_bare_cord_chosen_twice_is_told_once_with_its_whole_length() -> None:
    path = next(path for path in PATTERNS if "skerry" in path.stem)
    plan = compile_plan(read_design(path).design)
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm + 4), 20)
    one = next(remedy for remedy in found if remedy.family == ("bare",))
    new = changed_plan(plan, (one.event(0),))
    again = changed_plan(new, (one.event(0),))
    for changed in (new, again):
        first = next(step.text for step in changed.strands[0].steps if step.kind == "end")
        assert first.count("of bare cord before it open") == 1
