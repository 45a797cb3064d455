"""The present step, large: all of it can be read."""

from __future__ import annotations

from pathlib import Path

from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design
from companion.tui.app import TallycordApp
from companion.tui.follow.picture.big_step import LINES, WHOLE, BigStep
from companion.workshop import Workshop
from tests.tui.screens import until_seen

PATTERNS = sorted((Path(__file__).parents[4] / "patterns").glob("*.yaml"))
SMALLEST = (60, 18)


async def test_no_step_of_a_shipped_design_is_cut_off_on_the_smallest_screen(app) -> None:
    async with app.run_test(size=SMALLEST) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of")
        big = app.screen.query_one(BigStep)
        for path in PATTERNS:
            plan = compile_plan(read_design(path).design)
            for number in range(1, plan.total_steps + 1):
                big.show(plan, number)
                shown = " ".join(big.render().plain.split())
                assert WHOLE.strip() not in shown, f"{path.stem} {number}: {shown}"


LONG = """\
format: 1
name: Sumburgh chain
cord: {name: braid, material: nylon, diameter: 0.6 mm}
beads: {a: {name: A bead with quite some name to it, length: 6 mm, hole: 2 mm}}
strand:
  start:
    closure: French wire and clasp
    finding: box clasp with a safety chain and two tongues and a stone set in its lid,
      the colour of the sea just after rain at home
  layout: [{beads: a, count: 12, knot every: 1}, a]
  end: {closure: French wire and clasp}
"""


async def test_a_step_that_is_too_long_says_so_and_k_shows_the_whole(workshop: Workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    path.write_text(LONG, encoding="utf-8")
    app = TallycordApp(workshop, path)
    async with app.run_test(size=SMALLEST) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of")
        piece = app.screen.session
        long = next(step for step in piece.plan.strands[0].steps if "box clasp" in step.text and step.kind == "end")
        assert "rain at home" in long.text
        await pilot.press(*["space"] * (long.number - 1))
        seen = await until_seen(pilot, f"step {long.number} of")
        assert WHOLE in seen
        await pilot.press("k")
        await until_seen(pilot, "at home")


def first_bead(plan: Plan) -> int:
    """The first step that strings a bead."""
    return next(step.number for step in plan.strands[0].steps if step.beads)


def test_a_step_in_two_lines_and_what_stands_there_at_the_end(workshop, skerry) -> None:
    plan = workshop.start(skerry).plan
    step = BigStep(plan)
    step.step = first_bead(plan)
    assert step.words() == ("Sea-glass round", "then a single knot, both cords as one")
    assert step.drawing(3) is not None
    step.step = None
    assert step.words() == ("Every step is done.", "Press Space to finish the piece.")
    step.ended = "finished"
    assert step.words() == ("The piece is finished.", "u opens it again.")
    step.ended = "abandoned"
    assert step.words() == ("The piece is put away.", "u takes it up again.")
    assert step.drawing(3) is None


def test_the_knot_keeps_its_line(workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    name = " ".join(["very"] * 30)
    path.write_text(
        f"format: 1\nname: Long\ncord: {{name: c, diameter: 1 mm}}\nbeads: {{b: {{name: {name} long, length: 6 mm}}}}\n"
        "strand: {layout: [{repeat: 9, of: [b, knot]}]}\n"
    )
    plan = workshop.start(path).plan
    step = BigStep(plan)
    step.step = first_bead(plan)
    lines = step._beside(26)
    assert len(lines) == LINES
    assert lines[1].endswith(f"…{WHOLE}")
    assert lines[2] == "then a single knot"
