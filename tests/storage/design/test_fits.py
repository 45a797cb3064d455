"""Every `fit` of a design: what it needs, where a fault in it is shown, and what is judged at the count that fits."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design_text

HEAD = "format: 1\nname: Fit light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"
SIZE = "size: {length: 20 cm}\n"


def read(text: str):
    return read_design_text(HEAD + text, "fit.yaml")


def places(reading) -> list[tuple[str, int, int]]:
    return [(problem.code, problem.line, problem.column) for problem in reading.problems]


def test_each_fit_must_add_length_though_another_does() -> None:
    layout = "[{repeat: fit, of: [b]}, {repeat: fit, of: [{space: 0 mm}]}]"
    assert places(read(SIZE + f"strand: {{layout: {layout}}}\n")) == [("fit adds nothing", 6, 52)]


def test_idle_fits_are_found_inside_mirrors_and_repeats_each_at_its_place() -> None:
    text = """strand:
  layout:
    - repeat: 2
      of:
        - repeat: fit
          of: [{space: 0 mm}]
    - mirror:
        side: [{repeat: fit, of: [b]}]
        middle: [{repeat: fit, of: [{space: 0 mm}]}]
    - {beads: b, count: fit}
"""
    assert places(read(SIZE + text)) == [("fit adds nothing", 10, 19), ("fit adds nothing", 14, 27)]


def test_knots_without_length_add_nothing_and_knots_with_some_do() -> None:
    for length, wrong in (("0 mm", True), ("2 mm", False)):
        cord = f"{{name: c, diameter: 1 mm, knots: {{single: {{take_up: 9 mm, length: {length}}}}}}}"
        text = (
            HEAD.replace("{name: c, diameter: 1 mm}", cord) + SIZE + "strand: {layout: [{repeat: fit, of: [knot]}]}\n"
        )
        assert bool(read_design_text(text, "fit.yaml").problems) is wrong


def test_a_fit_without_a_size_is_told_beside_other_faults() -> None:
    reading = read("sise: {length: 20 cm}\nstrand: {layout: [b, {repeat: fit, of: [b]}]}\n")
    assert places(reading) == [("unknown key", 5, 1), ("fit without size", 6, 31)]


@pytest.mark.parametrize(("size", "taken"), [("20 cm", True), ("12 mm", True), ("6 mm", False)])
def test_from_the_middle_counts_the_elements_that_fit(size, taken) -> None:
    reading = read(f"size: {{length: {size}}}\nstrand: {{work: from the middle, layout: [{{repeat: fit, of: [b]}}]}}\n")
    assert [problem.code for problem in reading.problems] == ([] if taken else ["no middle"])
    if taken:
        assert len(compile_plan(reading.design).strands) == 2


@pytest.mark.parametrize("word", ["Fit", "FIT", "' fit'", "fitt"])
def test_fit_is_written_as_it_is(word) -> None:
    (problem,) = read(SIZE + f"strand: {{layout: [{{repeat: {word}, of: [b]}}]}}\n").problems
    assert (problem.code, problem.hint) == ("no count", "Did you mean fit?")


@pytest.mark.parametrize("knot", ["knot", "single knot", "double knot", "triple knot"])
def test_a_run_is_of_beads_never_of_knots(knot) -> None:
    reading = read(f"strand: {{layout: [b, {{beads: {knot}, count: 3}}]}}\n")
    assert places(reading) == [("undefined bead", 5, 30)]
    assert "repeat" in reading.problems[0].hint


def test_a_bead_is_measured_against_the_target_of_a_wrist_at_the_count_that_fits() -> None:
    """Wrist 20 mm, one bead 60 mm long and 20 mm thick: target 20 + 20 pi = 82.8 mm, above the bead's own length."""
    beads = "beads: {b: {length: 60 mm, diameter: DIAMETER}}"
    for diameter, wrong in (("20 mm", False), ("10 mm", True)):
        head = HEAD.replace("beads: {b: {length: 6 mm}}", beads.replace("DIAMETER", diameter))
        text = head + "size: {wrist: 20 mm}\nstrand: {layout: [{repeat: fit, of: [b]}]}\n"
        codes = [problem.code for problem in read_design_text(text, "fit.yaml").problems]
        assert codes == (["bead too long"] if wrong else [])
