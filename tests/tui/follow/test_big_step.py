"""The present step, large: its words beside it, whatever the beads are called."""

from __future__ import annotations

from companion.tui.follow.big_step import LINES, BigStep


def test_a_step_in_two_lines_and_what_stands_there_at_the_end(workshop, skerry) -> None:
    plan = workshop.start(skerry).plan
    step = BigStep(plan)
    step.step = 3
    assert step.words() == ("Sea-glass round", "then a single knot, both cords as one")
    assert step.drawing(3) is not None
    step.step = None
    assert step.words() == ("Every step is made.", "Space closes the piece.")
    step.ended = "finished"
    assert step.words() == ("The piece is finished.", "u opens it again.")
    assert step.drawing(3) is None


def test_the_knot_keeps_its_line(workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    name = " ".join(["very"] * 30)
    path.write_text(
        f"format: 1\nname: Long\ncord: {{name: c, diameter: 1 mm}}\nbeads: {{b: {{name: {name} long, length: 6 mm}}}}\n"
        "strand: {layout: [{repeat: 9, of: [b, knot]}]}\n"
    )
    step = BigStep(workshop.start(path).plan)
    step.step = 2
    lines = step._beside(26)
    assert len(lines) == LINES
    assert lines[1].endswith("…")
    assert lines[2] == "then a single knot"
