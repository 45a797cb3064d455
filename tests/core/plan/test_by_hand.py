"""The steps of every closure, cord and tool, as hands would follow them: laid ready, in order, one job at a time."""

from __future__ import annotations

from itertools import pairwise, product
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.closures.joint import EndStep
from companion.core.closures.table import CLOSURES
from companion.core.gate.plan_document import from_document, to_document
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import same_steps_made, with_rest
from companion.core.plan.strand_figures import with_steps
from companion.core.plan.tray import findings, tools
from companion.core.values.design import (
    Bead,
    BeadKind,
    BeadRun,
    CordDesign,
    Design,
    End,
    Knot,
    Material,
    Repeat,
    Strand,
)
from companion.core.words.cut_words import cut_list
from companion.core.words.plan_words import count_out_lines, needed_lines, order_lines
from companion.core.words.step_words import step_in_two
from companion.storage.design.files import read_design

PATTERNS = Path(__file__).parents[3] / "patterns"
MATERIALS: tuple[Material, ...] = Material.__args__  # type: ignore[attr-defined]
TOOLS = ("awl", "needle", "tweezers", "knotting tool")
PEARL = BeadKind("p", "Grey pearl", 7, 7, 1.4)


def plan_of(closure: str, material: Material = "silk", layers: int = 1, tool="awl", finding: str = "", **more) -> Plan:
    cord = CordDesign("Dun cord", 0.5, layers, material, tool)
    layout = more.pop("layout", (Repeat(20, (Bead("p"), Knot("single"))), Bead("p")))
    strand = Strand(layout, End(closure, finding=finding), End(closure, finding=finding), **more)
    return compile_plan(Design("Dun", cord, (PEARL,), (strand,)))


def shipped(name: str) -> Plan:
    found = read_design(PATTERNS / f"{name}.yaml").design
    assert found is not None
    return compile_plan(found)


def texts(plan: Plan, *kinds: str) -> list[str]:
    return [step.text for strand in plan.strands for step in strand.steps if not kinds or step.kind in kinds]


@pytest.mark.parametrize("closure", CLOSURES)
@pytest.mark.parametrize("work", ["along", "from the middle"])
def test_what_any_step_names_is_laid_ready(closure, work) -> None:
    for material, layers, tool in product(MATERIALS, (1, 2, 3), TOOLS):
        plan = plan_of(closure, material, layers, tool, work=work)
        ready = " ".join((*tools(plan), *(one.name for one in findings(plan)))).lower()
        told = " ".join(texts(plan)).lower()
        for thing in ("awl", "tweezers", "needle", "fine needle", "clip", "straw", "glue", "pliers", "stop bead"):
            assert (thing in told) <= (thing in ready), (thing, material, layers, tool)
        waxed = told.replace("waxed", "")
        assert ("wax" in waxed) <= ("wax" in ready), (material, layers, tool)


@pytest.mark.parametrize("closure", CLOSURES)
def test_a_clip_that_is_put_on_is_taken_off_again(closure) -> None:
    for material, layers, work in product(MATERIALS, (1, 2), ("along", "from the middle")):
        told = " ".join(texts(plan_of(closure, material, layers, work=work))).lower()
        assert told.count("put a clip") == told.count("take off the clip"), (material, layers, work)


def test_beads_that_are_all_strung_first_cannot_slide_off() -> None:
    """The far end hangs free: a clip behind the last bead holds them (common practice, no source)."""
    plan = plan_of("bead tip and clasp", "silk", 2)
    assert "clip" in tools(plan)
    assert "Put a clip behind the last" in texts(plan, "start")[-1]
    assert texts(plan, "end")[0].startswith("Take off the clip")


@pytest.mark.parametrize("layers", [1, 2, 3])
def test_french_wire_ties_one_knot_a_step(layers) -> None:
    """Stuller, Lupo: a knot beside each of three beads, at both ends."""
    plan = plan_of("French wire and clasp", "silk", layers, layout=(BeadRun("p", 20, 4), *[Bead("p")] * 3))
    for kind in ("start", "end"):
        tied = [text for text in texts(plan, kind) if "single knot" in text]
        assert len(tied) == 3
        assert all(text.count("knot") == 1 for text in tied)
    assert "already on" not in " ".join(texts(plan, "string"))
    (first,) = [step for step in plan.strands[0].steps if step.kind == "string"][:1]
    assert first.beads == ("p",) * 4
    assert first.text == "Grey pearl, then a single knot; the first three are on already"
    assert step_in_two(plan, first.number) == (first.text, "")


def test_the_last_beads_before_french_wire_are_left_loose() -> None:
    plan = plan_of("French wire and clasp", layout=(BeadRun("p", 20, 4), *[Bead("p")] * 3))
    assert texts(plan, "string")[-1] == ("3 Grey pearls, left a little loose: their knots come with the clasp")


@pytest.mark.parametrize("layers", [1, 2, 3])
def test_french_wire_has_a_needle_at_each_end(layers) -> None:
    """The short end makes the clasp, the long end goes on: neither has to be threaded again."""
    plan = plan_of("French wire and clasp", "silk", layers, "needle", layout=(BeadRun("p", 20, 4), *[Bead("p")] * 3))
    assert "2 fine needles" in tools(plan)
    assert "one fine needle" in texts(plan, "start")[1]
    assert "blunt needle" in tools(plan)


def test_a_necklace_begun_before_keeps_the_steps_it_was_begun_with() -> None:
    """Its plan says nothing of how its steps are told; a way out plans the rest again, and the steps that are done must
    be the same ones."""
    new = plan_of("French wire and clasp", layout=(BeadRun("p", 20, 4), *[Bead("p")] * 3))
    begun = tuple(EndStep(text) for text in ("Cut.", "Thread the short end.", "Coil.", "Back through."))
    ended = tuple(EndStep(text) for text in ("Coil.", "Three knots.", "Glue.", "Trim."))
    before = with_steps(new, replace(new.strands[0], told_as=1, strung_all_first=False), begun, ended)
    document = to_document(replace(new, strands=(before,)))
    assert "told_as" not in document["strands"][0]
    kept = from_document(document)
    assert texts(kept, "start") == [step.text for step in begun]
    assert texts(kept, "string")[0] == (
        "3 Grey pearls, already on: with the short end tie a single knot beside each, then through the next bead. "
        "Needle on the long end: Grey pearl, then a single knot"
    )
    changed = with_rest(kept, 0, (*before.elements[:-3], *[Bead("p")] * 4))
    assert same_steps_made(kept, changed, 4 + 5)
    assert texts(changed, "end") == texts(kept, "end")
    assert "clip" not in tools(kept)


def test_silk_with_french_wire_is_strung_before_the_first_knot_as_other_silk_is() -> None:
    plan = shipped("longstone-necklace")
    (strand,) = plan.strands
    assert strand.strung_all_first
    assert "String the other 56 Grey pearls on the long end" in texts(plan, "start")[-1]


@pytest.mark.parametrize(
    ("name", "order"),
    [
        ("longstone-necklace", "56 Grey pearls, after the three that the short end strings"),
        ("portland-bill-key-cord", "4 times (1 Brass ring bead, 1 Painted float, 1 Brass ring bead)"),
        ("bell-rock-rope", "36 times (5 Red granites, 1 White granite)"),
        ("girdle-ness-anklet", "11 times (2 Shingle chips, 1 Lamp round), 2 Shingle chips"),
    ],
)
def test_every_lay_out_says_the_order_of_the_beads(name, order) -> None:
    assert list(order_lines(shipped(name)))[-1] == order


def test_three_strands_hang_evenly_and_the_note_says_by_how_much() -> None:
    """Differences that suit the eye, even and named: common practice, no source."""
    plan = shipped("inner-farne-strands")
    lengths = [strand.strand_length_mm for strand in plan.strands]
    steps = [longer - shorter for shorter, longer in pairwise(lengths)]
    assert max(steps) - min(steps) < 3
    assert all(18 < step < 25 for step in steps)
    assert "about 2 cm longer" in plan.note


def test_silk_for_several_strands_is_stretched_once() -> None:
    told = texts(shipped("inner-farne-strands"))
    assert sum("Stretch" in text for text in told) == 1
    assert sum("of the stretched silk" in text for text in told) == 2


def test_the_needle_of_a_folded_strand_is_free_for_the_next() -> None:
    plan = shipped("inner-farne-strands")
    freed = [text for text in texts(plan, "end") if "Cut the fold" in text]
    assert len(freed) == len(plan.strands) - 1


def test_a_toggles_bar_has_room_and_is_tried_before_the_glue() -> None:
    """The bar tips only where half its length beside it is bare or goes through the ring (common practice)."""
    plan = shipped("muckle-flugga-necklace")
    end = texts(plan, "end")
    assert "the toggle's ring" in texts(plan, "start")[-1]
    assert "the toggle's bar" in end[0]
    tried = next(number for number, text in enumerate(end) if "Pass the bar through the ring" in text)
    glued = next(number for number, text in enumerate(end) if "glue" in text)
    assert tried < glued
    assert "toggle" not in " ".join(texts(plan_of("knotted to the clasp")))


@pytest.mark.parametrize("closure", ["knotted to the clasp", "French wire and clasp", "crimp and clasp"])
def test_a_bar_is_tried_before_the_end_is_made_fast(closure) -> None:
    end = texts(plan_of(closure, finding="toggle clasp"), "end")
    tried = next(number for number, text in enumerate(end) if "Pass the bar through the ring" in text)
    fast = next(
        number for number, text in enumerate(end) if "Run the tail" in text or "Squeeze" in text or "Tie a" in text
    )
    assert 0 < tried < fast


def test_the_lay_out_names_sizes() -> None:
    """Cord diameter, bead size, hole: what she measures at her tray before the first knot."""
    plan = shipped("eddystone-pendant")
    assert [line.split(" and ")[0].strip() for line in count_out_lines(plan)] == [
        "32 Shell discs (4 mm long, 10 mm across, hole 1.5 mm)",
        "16 Cobalt rounds (10 mm, hole 2 mm)",
        "1 Lantern drop (24 mm long, 16 mm across, hole 2.2 mm)",
    ]
    assert any("93 cm" in line.text and "cotton, waxed, 1 mm" in line.text for line in cut_list(plan))


def test_findings_that_the_cord_must_pass_name_the_hole() -> None:
    """Kravitz's packing of circles with a tenth to spare: four cords of 0.9 mm want 2.4 mm."""
    assert needed_lines(shipped("rattray-head-wrap"))[0] == (
        "1 cork closing bead (12 mm, hole at least 2.4 mm) and 1 small stop bead"
    )
    assert needed_lines(shipped("girdle-ness-anklet"))[0].startswith("2 crimps (hole at least 1.1 mm)")


def test_both_ends_of_an_endless_piece_are_checked_for_the_second_pass() -> None:
    """Each tail goes back through the beads on its own side of the knot."""
    small = BeadKind("s", "Small", 6, 6, 0.6)
    layout = (Bead("s"), Knot("single"), Bead("s"), Knot("single"), *[Bead("p"), Knot("single")] * 90)
    cord = CordDesign("Dun cord", 0.5, 1, "nylon")
    design = Design("Dun", cord, (PEARL, small), (Strand(layout, End("endless"), End("endless")),))
    assert ("hole too small", "bead s") in [(one.code, one.where) for one in compile_plan(design).warnings]


def test_a_bore_without_room_for_glue_is_warned_of() -> None:
    cord = CordDesign("Dun cord", 1.5, 1, "leather")
    end = End("cord end and clasp", size_mm=1.5)
    design = Design("Dun", cord, (BeadKind("p", "P", 7, 7, 3),), (Strand((Bead("p"), Knot("single")), end, end),))
    assert "bore too small" in [one.code for one in compile_plan(design).warnings]
