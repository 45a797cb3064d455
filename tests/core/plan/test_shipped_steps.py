"""The shipped designs, step by step, as hands would follow them: what is named is laid ready, the order works."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.plan.planner import compile_plan
from companion.core.plan.tray import findings, tools
from companion.core.words.cut_words import cut_list
from companion.core.words.plan_words import count_out_lines, needed_lines, order_lines
from companion.core.words.step_words import step_sentence
from companion.storage.design.files import read_design

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))
GOLDEN = Path(__file__).parent / "golden"


def plan_of(path: Path) -> Plan:
    design = read_design(path).design
    assert design is not None
    return compile_plan(design)


def told(plan: Plan) -> str:
    """What is cut and laid ready, and then every step."""
    cut = ["  " * line.depth + line.text for line in cut_list(plan)]
    lines = [plan.design, plan.note, "", *cut, "", *count_out_lines(plan), *order_lines(plan), "", *needed_lines(plan)]
    for strand in plan.strands:
        lines += ["", strand.label]
        lines += [f"{step.number:>3}  {step_sentence(step)}" for step in strand.steps]
    return "\n".join(lines) + "\n"


def text_of(strand: PlannedStrand, kind: str) -> str:
    return " ".join(step.text for step in strand.steps if step.kind == kind)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_every_step_as_it_reads(path) -> None:
    """UPDATE_GOLDEN=1 writes it anew; then it is read aloud, with imagined hands."""
    golden = GOLDEN / f"{path.stem}.txt"
    if os.environ.get("UPDATE_GOLDEN"):
        golden.write_text(told(plan_of(path)), encoding="utf-8")
    assert golden.read_text(encoding="utf-8") == told(plan_of(path))


def test_no_golden_text_is_left_of_a_design_that_is_gone() -> None:
    assert {path.stem for path in GOLDEN.glob("*.txt")} == {path.stem for path in PATTERNS}


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_what_the_steps_name_is_laid_ready(path) -> None:
    plan = plan_of(path)
    ready = " ".join((*tools(plan), *(one.name for one in findings(plan)))).lower()
    steps = " ".join(step.text for strand in plan.strands for step in strand.steps).lower()
    for thing in ("awl", "tweezers", "needle", "clip", "straw", "glue", "wax", "pliers", "bead tip", "crimp", "coil",
                  "clasp", "button", "stop bead", "closing bead", "cord end", "jump ring", "seed bead"):  # fmt: skip
        assert (thing in steps) <= (thing in ready), thing
    assert ("trim" in steps or "cut " in steps) <= ("snips" in ready)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_closure_is_made_before_the_beads_that_lie_on_it(path) -> None:
    """A bead tip, a loop or a clasp cannot be put on past beads that are strung already."""
    for strand in plan_of(path).strands:
        start = [step.text for step in strand.steps if step.kind == "start"]
        strung = [number for number, text in enumerate(start) if text.startswith("String ")]
        assert strung in ([], [len(start) - 1])
        assert bool(strung) == strand.strung_all_first


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_clip_that_is_put_on_is_taken_off(path) -> None:
    text = " ".join(step.text for strand in plan_of(path).strands for step in strand.steps)
    assert text.count("Put a clip") == text.count("Take off the clip")
    assert text.find("Put a clip") <= text.find("Take off the clip")


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_the_needle_is_on_the_end_that_strings(path) -> None:
    """French wire is begun with the short end: both ends have a needle, and no bead is strung on the wrong one."""
    for strand in plan_of(path).strands:
        start = text_of(strand, "start")
        if "short end" in start:
            assert "one fine needle on each end" in start
            assert start.index("On the short end thread") < start.index("on the long end.")
            assert "short end" not in text_of(strand, "string")
