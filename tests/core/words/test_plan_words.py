"""Sentences about a plan that the paper and the screen share."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.closures.joint import Finding
from companion.core.plan.plan import OtherCount
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, End, Knot, Repeat, Strand
from companion.core.words.plan_words import (
    count_out_lines,
    finding_words,
    fit_line,
    needed_lines,
    opened_line,
    order_lines,
    order_of,
    order_words,
)
from companion.storage.design.files import read_design
from tests.core.hand_plans import hand_plan

PEARL, DISC = BeadKind("p", "Grey pearl", 7, 7, 1.2), BeadKind("d", "Dun disc", 3, 6, 1.2)
SILK = CordDesign("silk", 0.6, material="silk")
PAIRS = Repeat(30, (Bead("p"), Knot("single"), Bead("d"), Knot("single")))


def plan(layout=(PAIRS,), closure="plain tail", cord=SILK):
    end = End(closure)
    return compile_plan(Design("Dun", cord, (PEARL, DISC), (Strand(tuple(layout), end, end),)))


def test_what_fits_and_what_the_counts_beside_it_would_give() -> None:
    plan = hand_plan(unit="mm")
    assert fit_line(plan) == ""
    others = (OtherCount(11, 182.0), OtherCount(13, 198.0))
    assert (
        fit_line(replace(plan, fit=12, fit_others=others)) == "Best fit: 12 repeats (11 gives 182 mm, 13 gives 198 mm)."
    )
    assert fit_line(replace(plan, fit=12)) == "Best fit: 12 repeats."
    assert fit_line(replace(plan, fit=1)) == "Best fit: 1 repeat."


@pytest.mark.parametrize(
    ("of", "words"),
    [
        ((Bead("p"), Knot("single")), "12 Grey pearls"),
        ((Bead("p"), Bead("d")), "12 repeats"),
        ((Bead("p"), Bead("p"), Bead("d")), "12 repeats"),
    ],
)
def test_what_fits_has_its_noun(of, words) -> None:
    assert fit_line(replace(plan([Repeat(12, of)]), fit=12)) == f"Best fit: {words}."


def test_a_bead_beside_the_repeat_is_not_what_was_fitted() -> None:
    assert fit_line(replace(plan([Repeat(12, (Bead("p"),)), Bead("d")]), fit=12)) == "Best fit: 12 Grey pearls."
    two_each = [Repeat(12, (Bead("p"), Bead("p"))), Bead("p")]
    assert fit_line(replace(plan(two_each), fit=12)) == "Best fit: 12 repeats."


def test_of_one_kind_of_bead_those_beside_the_run_are_counted_with_it() -> None:
    """She counts out 15 pearls, not 12 of something and three more. A repeat of two is no single bead."""
    for of, more, words in (
        ((Bead("p"),), 3, "15 Grey pearls (14 gives 182 mm, 16 gives 198 mm)"),
        ((Bead("p"), Bead("p")), 3, "12 repeats (11 gives 182 mm, 13 gives 198 mm)"),
    ):
        made = plan([Repeat(12, of), *[Bead("p")] * more])
        line = fit_line(
            replace(
                made,
                unit="mm",
                fit=12,
                finished_length_mm=190.0,
                fit_others=(OtherCount(11, 182.0), OtherCount(13, 198.0)),
                beads=tuple(replace(kind, length_mm=8.0 / len(of)) for kind in made.beads),
            )
        )
        assert line == f"Best fit: {words}."


def test_what_to_lay_ready_is_what_the_steps_ask_for() -> None:
    """A needle draws the cord through: nothing stiffens its end. A plain tail's raw ends are glued or waxed."""
    needle, crimp = replace(SILK, worked_with="needle"), "crimp and clasp"
    assert "glue" in needed_lines(plan(closure=crimp))[-1]
    assert "glue" not in needed_lines(plan(cord=needle, closure=crimp))[-1]
    assert "wax" in needed_lines(plan(cord=replace(needle, material="linen"), closure=crimp))[-1]  # drawn over it first
    assert "wax" not in needed_lines(plan(cord=replace(needle, material="waxed linen"), closure=crimp))[-1]
    assert "glue" in needed_lines(plan(cord=needle))[-1]
    assert "wax" in needed_lines(plan(cord=replace(needle, material="waxed linen")))[-1]
    assert "glue" in needed_lines(plan(cord=needle, closure="bead tip and clasp"))[-1]  # on its knots


def test_what_to_lay_ready() -> None:
    assert "needle" in needed_lines(hand_plan(needle=True))[-1]
    assert "awl" in needed_lines(hand_plan(needle=False))[-1]
    assert needed_lines(plan(closure="crimp and clasp"))[0] == "2 crimps (hole at least 1.4 mm) and 1 clasp"


@pytest.mark.parametrize(
    ("finding", "words"),
    [
        (Finding("bead tip", 2), "2 bead tips"),
        (Finding("clasp with three rings each side", 1), "1 clasp with three rings each side"),
        (Finding("button with a shank", 2), "2 buttons with a shank"),
        (Finding("coil of French wire", 2, 9.5), "2 coils of French wire (9.5 mm)"),
    ],
)
def test_findings_with_count_and_size(finding, words) -> None:
    assert finding_words(finding, "cm") == words


def test_a_size_in_the_maker_s_unit_and_as_it_is_sold() -> None:
    assert finding_words(Finding("horn button", 1, 15.875), "in") == "1 horn button (5/8 in, 15.88 mm)"


def test_beads_to_count_out_and_a_few_to_spare() -> None:
    assert list(count_out_lines(plan([PAIRS, Repeat(90, (Bead("d"),))]))) == [
        " 30 Grey pearls (7 mm, hole 1.2 mm) and 1 to spare",
        "120 Dun discs (3 mm long, 6 mm across, hole 1.2 mm) and 4 to spare",
    ]


def test_the_order_of_stringing_where_all_are_strung_first() -> None:
    order = "30 times (1 Grey pearl, 1 Dun disc)"
    assert order_lines(plan()) == ("String first, in this order", order)
    assert order_lines(plan(cord=replace(SILK, material="linen"))) == ("String one by one, in this order", order)
    assert order_lines(plan([Repeat(30, (Bead("p"), Knot("single")))], cord=replace(SILK, material="linen"))) == ()


def test_beads_that_a_closure_strings_itself_are_not_strung_again() -> None:
    wired = Design(
        "Dun", SILK, (PEARL, DISC),
        (Strand((PAIRS,), End("French wire and clasp"), End("French wire and clasp"), stringing="all first"),),
    )  # fmt: skip
    compiled = compile_plan(wired)
    order = "28 times (1 Dun disc, 1 Grey pearl), 1 Dun disc"
    assert order_lines(compiled)[1:] == (f"{order}, after the three that the short end strings",)
    start = [step.text for step in compiled.strands[0].steps if step.kind == "start"]
    assert "the other 57 beads on the long end" in start[-1]


@pytest.mark.parametrize(
    ("runs", "words"),
    [
        ((("a", 3),), "3 as"),
        ((("a", 3), ("b", 1)), "3 as, 1 b"),
        ((("a", 1), ("b", 2)) * 4, "4 times (1 a, 2 bs)"),
        ((("c", 9), *((("a", 1), ("b", 2), ("c", 1)) * 2), ("c", 5)), "9 cs, 2 times (1 a, 2 bs, 1 c), 5 cs"),
        ((("a", 1), ("b", 1)) * 3 + (("c", 2), ("a", 1)) * 2, "3 times (1 a, 1 b), 2 times (2 cs, 1 a)"),
    ],
)
def test_what_repeats_is_said_once(runs, words) -> None:
    assert order_words(runs) == words


def test_an_order_without_a_pattern_is_not_longer_than_a_page() -> None:
    words = order_words([(f"b{number}", 1) for number in range(500)])
    assert words.endswith("1 b39, then as the steps say")


def test_a_piece_that_slides_says_how_wide_it_opens() -> None:
    assert opened_line(plan()) == ""
    slides = plan(closure="sliding knot")
    assert opened_line(slides) == f"Opened wide it measures about {round(slides.finished_length_mm + 190)} mm."


def read_back(words):
    """The beads that an order in words names, one by one; written apart from what writes them."""
    beads = []
    for times, inside, count, name in re.findall(r"(\d+) times \(([^)]*)\)|(\d+) ([A-Z][a-z ]+)", words):
        once = re.findall(r"(\d+) ([A-Z][a-z ]+)", inside) or [(count, name)]
        beads += [name.removesuffix("s") for number, name in once for _ in range(int(number))] * int(times or 1)
    return beads


STEPS = st.lists(st.lists(st.sampled_from(["p", "d"]), min_size=0, max_size=4), min_size=1, max_size=14)


@given(STEPS.map(lambda steps: [*steps, *reversed(steps)]) | STEPS | STEPS.map(lambda steps: steps[:3] * 4))
def test_the_order_read_back_gives_the_beads_in_order(steps) -> None:
    keys = [key for step in steps for key in step]
    assume(keys)
    layout = [element for step in steps for element in (*map(Bead, step), Knot("single"))]
    made = plan(layout)
    names = {"p": "Grey pearl", "d": "Dun disc"}
    assert read_back(order_of(made, made.strands[0])) == [names[key] for key in keys]


@pytest.mark.parametrize("path", sorted(Path("patterns").glob("*.yaml")), ids=lambda path: path.stem)
def test_the_order_of_every_shipped_design_is_said_in_few_groups(path) -> None:
    made = compile_plan(read_design(path).design)
    for strand in made.strands:
        words = order_of(made, strand)
        assert "steps say" not in words
        assert "2 times (1 Quartz" not in words
    if path.stem == "start-point-band":
        each = "3 times (1 Driftwood disc, 1 Quartz round, 1 Driftwood disc)"
        assert words == f"{each}, 2 Quartz rounds, {each}"
