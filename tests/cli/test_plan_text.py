"""A plan for reading."""

from __future__ import annotations


def test_the_text_plan_says_what_the_maker_needs(tallycord, skerry) -> None:
    out = tallycord("plan", skerry).out
    for words in (
        "47 in (1194 mm) of twisted silk, 0.45 mm, used doubled",
        "old rule of thumb",
        "21 Sea-glass rounds (6 mm, hole 1 mm) and 1 to spare",
        "2 Silver daisies (2 mm long, 5 mm across, hole 1.2 mm) and 1 to spare",
        "Best fit: 10 repeats (9 gives 7 5/16 in, 11 gives 8 9/16 in).",
        "accredited laboratory",
        "Silver daisy, then a single knot",
    ):
        assert words in out


def test_findings_tools_and_the_order_of_stringing_are_laid_out_before_the_steps(tallycord, skerry) -> None:
    lines = tallycord("plan", skerry).out.splitlines()
    place = lines.index("String first, in this order")
    assert lines[place : place + 5] == [
        "String first, in this order",
        "  10 Sea-glass rounds, 1 Silver daisy, 1 Sea-glass round, 1 Silver daisy, 10 Sea-glass rounds",
        "You will need",
        "  2 bead tips and 1 clasp",
        "  awl, ruler, needle with a wide eye, flat pliers, snips, glue and clip",
    ]
    assert sum(line.startswith("Take care: ") for line in lines) == 5


def test_a_piece_that_slides_has_both_its_lengths(tallycord, patterns) -> None:
    out = tallycord("plan", patterns / "start-point-band.yaml").out
    assert "Finished length 15.1 cm (5 15/16 in) closed; usually within" in out
    assert "Opened wide it measures about 34.1 cm." in out


def test_only_a_neck_piece_has_a_name_for_its_length(tallycord, patterns) -> None:
    assert "princess length" in tallycord("plan", patterns / "longstone-necklace.yaml").out
    assert " length;" not in tallycord("plan", patterns / "rattray-head-wrap.yaml").out  # twice round a wrist


def test_the_cut_comes_first_for_it_is_needed_first(tallycord, skerry) -> None:
    out = tallycord("plan", skerry).out
    assert out.index("\nCut\n") < out.index("Finished length") < out.index("Count out")


def test_for_the_ear_each_figure_of_a_step_is_named(tallycord, skerry, patterns) -> None:
    out = tallycord("plan", skerry, "--spoken").out
    assert "\nSteps.\n1: Stretch the silk first" in out
    assert "\n6: Sea-glass round, then a single knot. Strand 3 eighths of an inch, leftover cord 20 and " in out
    assert " inches each.\n7: " in out
    assert "[" not in out
    one_cord = tallycord("plan", patterns / "longstone-necklace.yaml", "--spoken").out
    assert "inches each.\n" not in one_cord
    begun = one_cord[one_cord.index("\n1: ") :].splitlines()[1]
    assert begun.endswith("if it is not cut yet. Leftover cord 31 and 7 sixteenths inches.")
