"""What is said of a piece: its steps, its length, its cord, and what to do."""

from __future__ import annotations

import json


def test_five_per_cent_short_is_told_at_half_way_and_asked_about_at_three_quarters(tallycord, tmp_path) -> None:
    """A 7 1/2 in bracelet with an eighth allowed. Half way it may still turn out either way; at three quarters there is
    hardly any cord left to put it right on."""
    path = tmp_path / "bracelet.yaml"
    path.write_text(
        "format: 1\nname: Half-way rock\nsize: {length: 7 1/2 in, tolerance: 1/8 in}\n"
        "cord: {name: silk, diameter: 0.45 mm, layers: 2, knots: {single: {take_up: 6 mm, length: 2 mm}}}\n"
        "beads: {glass: {length: 6 mm, hole: 1 mm}}\n"
        "strand: {start: {closure: bead tip and clasp}, layout: [{repeat: fit, of: [glass, knot]}], "
        "end: {closure: bead tip and clasp}}\n"
    )
    name = tallycord("start", path).out.strip()
    plan = json.loads(tallycord("plan", path, "--json").out)["strands"][0]
    half, later = (
        next(step for step in plan["steps"] if step["strand_mm"] >= plan["strand_length_mm"] * share)
        for share in (0.5, 0.75)
    )
    for _ in range(half["number"]):
        tallycord("next", name)
    at_plan = tallycord("measure", name, f"{half['strand_mm']:.1f} mm")
    assert at_plan.code == 0
    assert "On length." in at_plan.out
    assert "What to do" not in at_plan.out
    tallycord("measure", name, "--withdraw")
    short = tallycord("measure", name, f"{half['strand_mm'] * 0.95:.1f} mm")
    assert short.code == 0
    assert "On course for 7 1/4 ± 3/16 in, a quarter inch under your 7 1/2 in. Measure" in short.out
    assert "Warning" not in short.out
    assert "What to do" not in short.out
    for _ in range(later["number"] - half["number"]):
        tallycord("next", name)
    short = tallycord("measure", name, f"{later['strand_mm'] * 0.95:.1f} mm")
    assert "The piece will be too short. On course for 7 1/4 ± 1/8 in" in short.out
    assert "a quarter inch under your 7 1/2 in." in short.out
    assert "What to do: " in short.out


def test_free_cord_that_reaches_the_last_knot_is_not_said_to_run_out(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    for _ in range(16):
        tallycord("next", name)
    ran = tallycord("measure", name, "--free", "25 cm", "--anyway")
    assert ran.code == 0
    assert "step 33" not in ran.out  # hanging the clasp ties no knot of the strand
    assert "The cord reaches the last knot, but little of it is left." in ran.out
    assert "of each cord" in ran.out


def test_free_cord_that_ends_too_soon_names_the_bead(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    for _ in range(16):
        tallycord("next", name)
    tallycord("measure", name, "--free", "13 cm", "--anyway")
    ran = tallycord("measure", name, "--free", "13 cm", "--anyway")
    assert "the cord ends before the last knot, near bead " in ran.out


def test_steps_of_several_entries_are_said_by_the_number_in_the_heading(tallycord, strands) -> None:
    name = tallycord("start", strands).out.strip()
    assert "Step 2 of 150, upper.\n" in tallycord("next", name).out
    moved = tallycord("jump", name, "middle:3").out
    assert moved.startswith("Steps 2 to 56 count as done.")
    assert moved.rstrip().endswith("Step 57 of 150, middle.")
    assert json.loads(tallycord("status", name, "--json").out)["next_step"] == "middle:4"
    assert tallycord("next", name, "--step", "middle:4").code == 0
    assert tallycord("next", name, "--step", 58).code == 0  # the number in the heading does as well
    assert "Step 5 is not the present one" in tallycord("next", name, "--step", 5).err


def test_the_end_names_all_that_finish_takes(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    assert f"`tallycord finish {name} LENGTH --left LENGTH`" in tallycord("jump", name, 33).out
    tallycord("undo", name)
    tallycord("jump", name, 31)
    tallycord("next", name)
    tallycord("measure", name, "--free", "8 in")


def test_the_first_step_says_the_cut_that_was_entered(tallycord, skerry) -> None:
    name = tallycord("start", skerry, "--cut", "50 in").out.strip()
    assert "Cut 50 in, as you entered, if it is not cut yet." in tallycord("jump", name, 0).out
    assert "Cut 50 in, as you entered, if it is not cut yet. Step 1 of 33." in tallycord("next", name).out
    assert "That is step 1 of 33." in tallycord("status", name).out
    journal = tallycord("journal", name).out
    assert "Cut 50 in (planned 47 in)." in journal
    assert "Cut 50 in, as you entered, if it is not cut yet. Step 1 of 33." in journal
    assert "Cut 47 in" not in journal
