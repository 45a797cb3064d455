"""A whole piece a line at a time, with an interruption, a wrong count, readings, and an end."""

from __future__ import annotations

import json


def steps_made(companion) -> tuple[int, int, str]:
    (piece,) = json.loads(companion("pieces", "--json").out)["pieces"]
    assert set(piece) == {"piece", "name", "steps_done", "steps_total", "state"}
    return piece["steps_done"], piece["steps_total"], piece["state"]


def test_start_to_finish(companion, skerry) -> None:
    name = companion("start", skerry, "--cut", "46 in").out.strip()
    assert name == "skerry-bracelet"
    total = steps_made(companion)[1]
    for step in range(1, total + 1):
        ran = companion("next", name)
        assert ran.code == 0
        assert f"Step {step} of {total}." in ran.out.splitlines()[0]
        if step == 13:
            assert companion("back", name).out.startswith("Taken back. 12 of")
            assert steps_made(companion)[0] == 12
            assert companion("next", "skerry").code == 0  # the beginning of a name will do
    assert steps_made(companion) == (total, total, "under way")
    assert companion("next", name).code == 1
    assert companion("finish", name, "202 mm").code == 0
    assert steps_made(companion) == (total, total, "finished")
    assert companion("next", name).code == 1
    fault = companion("journal", name).out.splitlines()
    assert "Begun: Skerry bracelet" in fault[0]
    assert "Cut 46 in" in fault[1]
    assert sum("Made:" in line for line in fault) == total + 1
    assert "Taken back" in "".join(fault)
    assert "Finished at 7 15/16 in" in fault[-1]


def test_status_tells_where_the_work_stands(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    assert "Nothing is made yet." in companion("status", name).out
    for _ in range(15):
        companion("next", name)
    out = companion("status", name).out
    assert "Last made: Silver daisy, then a single knot. That is step 15 of 28." in out
    assert (
        "Count back from the last one: 1 Silver daisy, then 1 Sea-glass round, then 1 Silver daisy, to the last" in out
    )
    assert "about 3 7/8 in (98 mm)" in out  # 2 + 10 x 8 + 4 + 8 + 4
    assert "Next: Sea-glass round, then a single knot." in out
    assert "On plan." in out
    assert "Enough cord." in out


def test_five_per_cent_short_at_half_way_warns_and_at_plan_does_not(companion, tmp_path) -> None:
    """A 7 1/2 in bracelet, the strand measured five per cent short half way."""
    path = tmp_path / "bracelet.yaml"
    path.write_text(
        "format: 1\nname: Half-way rock\nsize: {length: 7 1/2 in, tolerance: 1/8 in}\n"
        "cord: {name: silk, diameter: 0.45 mm, layers: 2, knots: {single: {take_up: 6 mm, length: 2 mm}}}\n"
        "beads: {glass: {length: 6 mm, hole: 1 mm}}\n"
        "strand: {start: {closure: bead tip and clasp}, layout: [{repeat: fit, of: [glass, knot]}], "
        "end: {closure: bead tip and clasp}}\n"
    )
    name = companion("start", path).out.strip()
    plan = json.loads(companion("plan", path, "--json").out)["strands"][0]
    half = next(step for step in plan["steps"] if step["strand_mm"] >= plan["strand_length_mm"] / 2)
    for _ in range(half["number"]):
        companion("next", name)
    at_plan = companion("measure", name, f"{half['strand_mm']:.1f} mm")
    assert at_plan.code == 0
    assert "On plan." in at_plan.out
    assert "What to do" not in at_plan.out
    companion("measure", name, "--withdraw")
    short = companion("measure", name, f"{half['strand_mm'] * 0.95:.1f} mm")
    assert short.code == 0
    assert "Watch. It would finish at 7 5/16 ± 3/16 in" in short.out
    assert "3/16 in short of 7 1/2 in." in short.out
    assert "What to do: A closure 3/16 in longer (a longer clasp, or a ring)" in short.out
    assert "Or: One more of «glass, then a single knot» in what is left" in short.out


def test_free_cord_too_short_names_the_step(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    for _ in range(13):
        companion("next", name)
    ran = companion("measure", name, "--free", "25 cm")
    assert ran.code == 0
    assert "Runs out near step 2" in ran.out
    assert "a layer is missing" in ran.out


def test_a_cut_fifteen_per_cent_short_is_questioned(companion, skerry) -> None:
    ran = companion("start", skerry, "--cut", "989 mm")
    assert ran.code == 0
    assert "15 % short" in ran.err
    assert "runs out before the end" in ran.err


def test_jump_and_note(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    assert "Steps 1 to 20 count as made. 20 of 28" in companion("jump", name, 20).out
    assert "Steps 6 on are taken back" in companion("jump", name, 5).out
    assert "20 of 28" in companion("back", name).out
    assert companion("note", name, "knots", "looser", "today").code == 0
    assert "Note: knots looser today" in companion("journal", name).out
    assert companion("jump", name, 29).code == 2
    assert companion("abandon", name, "gave it away").code == 0
    assert companion("next", name).code == 1
    assert companion("back", name).code == 0
    assert companion("next", name).code == 0


def test_steps_of_several_entries_are_named(companion, patterns) -> None:
    name = companion("start", patterns / "inner-farne-strands.yaml").out.strip()
    bare = companion("jump", name, 24)
    assert bare.code == 2
    assert "ENTRY:NUMBER" in bare.err
    assert companion("jump", name, "middle:2").code == 0
    assert "(middle)" in companion("status", name).out


def test_a_name_that_fits_several_pieces_is_refused(companion, skerry) -> None:
    assert companion("start", skerry).out.strip() == "skerry-bracelet"
    assert companion("start", skerry).out.strip() == "skerry-bracelet-2"
    ran = companion("next", "skerry")
    assert ran.code == 1
    assert "skerry-bracelet-2 and skerry-bracelet" in ran.err
    assert companion("next", "skerry-bracelet").code == 0
    assert companion("next", "nothing").code == 1


def test_lengths_need_their_unit_on_the_command_line(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    ran = companion("measure", name, "7")
    assert ran.code == 2
    assert "7 mm or 7 in" in ran.err


def test_a_remedy_chosen_changes_what_is_left_and_can_be_taken_back(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    companion("jump", name, 19)
    assert "Nothing needs doing" in companion("remedy", name).out
    for step, length in ((6, "33 mm"), (10, "63 mm"), (15, "92 mm"), (19, "120 mm")):
        companion("measure", name, length, "--at", step)
    listed = companion("remedy", name).out.splitlines()
    assert listed[0].startswith("1  ")
    assert companion("remedy", name, 9).code == 2
    more = next(line.split()[0] for line in listed if "more of «sea-glass round" in line)
    chosen = companion("remedy", name, more)
    assert chosen.code == 0
    total = steps_made(companion)[1]
    assert total > 28
    assert f"19 of {total} steps are made" in chosen.out
    for _ in range(total - 19):
        assert companion("next", name).code == 0
    assert companion("next", name).code == 1
    assert "Going on otherwise" in companion("journal", name).out
    for _ in range(total - 19 + 1):
        assert companion("back", name).code == 0
    assert steps_made(companion) == (19, 28, "under way")
    assert f"Step {total} of {total}." in companion("journal", name).out


def test_a_jump_to_where_the_work_stands_is_no_event(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    companion("jump", name, 10)
    assert "Nothing moved" in companion("jump", name, 10).out
    companion("back", name)
    assert steps_made(companion)[0] == 0


def test_a_free_reading_that_says_there_is_next_to_none_is_not_answered_with_enough(companion, skerry) -> None:
    ran = companion("forecast", skerry, "--free", "10=1mm")
    assert "15 1/2 in too little" in ran.out
    assert "Enough cord only if the free-cord reading after step 10 is wrong: read it again." in ran.out


def test_an_ended_piece_says_so_whatever_is_asked(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    companion("abandon", name)
    for command in (("finish", name), ("remedy", name), ("remedy", name, 1), ("next", name)):
        ran = companion(*command)
        assert ran.code == 1
        assert "given up" in ran.err
