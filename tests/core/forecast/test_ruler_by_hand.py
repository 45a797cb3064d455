"""The running length of every shipped design as hands would measure it: from the words of its steps and the figures in
its file alone. The planner and its elements have no part in it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from companion.core.closures.table import CLOSURES
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.observations import OWN_KNOTS, own_knots_mm, ruler_mm
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.words.measured.reading_words import expected_reading, where_from
from companion.storage.design.files import read_design

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))
INCH = 25.4


def length_mm(text):
    """ "6 mm", "2 3/8 in" """
    *numbers, unit = text.split()
    value = sum(int(n) / int(d or 1) for n, _, d in (number.partition("/") for number in numbers) if "." not in n)
    value += sum(float(number) for number in numbers if "." in number)
    return value * {"mm": 1, "cm": 10, "in": INCH}[unit]


def told_mm(text, beads, knots):
    """How long what a step tells to string and tie is, mm; without `beads` its knots alone."""
    total = 0.0
    for name, mm in beads.items():
        many = re.escape(name).removesuffix("y") + "(?:ies|s|es|y)?"
        for count in re.findall(rf"(?:(\d+) )?\b{many}\b", text, re.IGNORECASE):
            total += mm * int(count or 1)
    for kind, mm in knots.items():
        total += mm * len(re.findall(rf"\b{kind} knot\b", text, re.IGNORECASE))
    return (
        total
        if not beads
        else total + sum(length_mm(bare) for bare in re.findall(r"([\d/ .]+ (?:mm|cm|in)) of bare cord", text))
    )


def by_hand(path):
    """(entry, step, what the ruler says after it), mm, for every string step."""
    document = yaml.safe_load(path.read_text(encoding="utf-8"))
    beads = {kind.get("name", key): length_mm(kind["length"]) for key, kind in document["beads"].items()}
    knots = {kind: length_mm(one["length"]) for kind, one in document["cord"]["knots"].items()}
    plan = compile_plan(read_design(path).design)
    for entry, strand in enumerate(plan.strands):
        at_mm = 0.0
        if "French wire" in strand.start_closure:  # its beads and the knots among them come first
            start = " ".join(step.text for step in strand.steps if step.kind == "start").replace("thread three", "3")
            threaded = start.partition("the other")[0].partition("String")[0]
            at_mm += told_mm(threaded, beads, knots)
        for step in strand.steps:
            if step.kind == "string":
                at_mm += told_mm(step.text, beads, knots)
                yield plan, entry, step, at_mm


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_the_running_length_is_what_hands_would_measure(path) -> None:
    steps = list(by_hand(path))
    assert steps
    for plan, entry, step, at_mm in steps:
        rounding_mm = 1.0 if "bare cord" in " ".join(one.text for one in plan.strands[entry].steps) else 1e-6
        assert ruler_mm(plan, entry, step.number) == pytest.approx(at_mm, abs=rounding_mm), step.text


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_the_ruler_ends_at_what_the_step_made_last(path) -> None:
    for plan, entry, step, _ in by_hand(path):
        where = where_from(plan, entry, plan.piece_step(entry, step.number))
        if step.knot:
            assert "to the end of the last knot." in where
        elif step.beads:
            assert f"to the end of the last {plan.bead(step.beads[-1]).name}." in where


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_cord_used_is_what_lies_and_what_the_told_knots_take(path) -> None:
    """Tail and the closure's own cord apart, which holds the closure's knots."""
    cord = yaml.safe_load(path.read_text(encoding="utf-8"))["cord"]["knots"]
    take_up_mm = {kind: length_mm(one["take_up"]) for kind, one in cord.items()}
    taken, of = 0.0, -1
    for plan, entry, step, at_mm in by_hand(path):
        taken = (taken if of == entry else 0.0) + told_mm(step.text, {}, take_up_mm)
        strand, of = plan.strands[entry], entry
        before_mm = strand.start_tail_mm + strand.start_closure_cord_mm - own_knots_mm(plan, entry, step.number)
        assert step.cord_used_mm == pytest.approx(before_mm + at_mm + taken, abs=1.0)


def test_the_knots_between_the_first_pearls_lie_under_the_ruler() -> None:
    """Four pearls of 7 mm and four knots of 1.3 mm: 33.2 mm, about 1 5/16 in. A strand that reads so is on its plan."""
    plan = compile_plan(read_design(next(path for path in PATTERNS if "longstone" in path.stem)).design)
    first = next(step for step in plan.strands[0].steps if step.kind == "string")
    assert ruler_mm(plan, 0, first.number) == pytest.approx(4 * 7 + 4 * 1.3)
    made = Piece(plan.total_steps, first.number)
    outlook = Forecaster(plan).outlook(made)
    assert expected_reading(plan, made, outlook, "strand").mean_mm == pytest.approx(33.2, abs=0.1)
    read = Piece(
        plan.total_steps, first.number + 5, readings=(Measured("strand", first.number + 5, 33.2 + 5 * 29.3, ""),)
    )
    assert Forecaster(plan).outlook(read).finished.mean_mm == pytest.approx(outlook.finished.mean_mm, abs=0.5)


def test_after_the_closure_its_knots_lie_under_the_ruler_too() -> None:
    plan = compile_plan(read_design(next(path for path in PATTERNS if "longstone" in path.stem)).design)
    last = len(plan.strands[0].steps)
    assert ruler_mm(plan, 0, last) == pytest.approx(59 * 7 + 14 * 1.3 + 6 * 1.3)
    assert ruler_mm(plan, 0, last) + 2 * 9.5 == pytest.approx(plan.finished_length_mm)


def test_the_closures_that_tie_knots_among_the_beads_are_those_of_the_table() -> None:
    assert {name for name, one in CLOSURES.items() if one.start.own_knots or one.end.own_knots} == OWN_KNOTS
