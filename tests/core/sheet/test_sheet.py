"""What a sheet holds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.cut import share_a_layer_mm, told_cut_mm
from companion.core.plan.plan import element_mm
from companion.core.sheet.sheet import RulerRow, step_sheet
from companion.core.values.design import Knot
from companion.core.values.measures.show_lengths import display_unit, show
from tests.core.sheet.shipped_plans import NAMES, random_plan, shipped


@pytest.mark.parametrize("name", NAMES)
def test_it_says_what_the_plan_says(name: str) -> None:
    plan = shipped(name)
    sheet = step_sheet(plan)
    titles = [part.title for part in sheet.parts]
    assert titles[:2] == ["Cut", "Count out"]
    assert "You will need" in titles
    assert "Take care" in titles
    assert [entry.title for entry in sheet.entries] == (
        [""] if len(plan.strands) == 1 else [strand.title for strand in plan.strands]
    )
    kinds = {f"{step.knot} knot" for strand in plan.strands for step in strand.steps if step.knot}
    assert kinds <= {one.name.lower() for one in sheet.how_tos}
    assert len({one.name for one in sheet.how_tos}) == len(sheet.how_tos)


@pytest.mark.parametrize("name", ["skerry-bracelet", "muckle-flugga-necklace", "wolf-rock-necklace"])
def test_lengths_at_the_ruler_are_those_added_up_by_hand(name: str) -> None:
    """Where closures tie no knots of their own: beads, knots and bare cord up to there; and what the cord still is."""
    plan = shipped(name)
    beads, unit = {kind.key: kind for kind in plan.beads}, display_unit(plan.unit)
    for entry, sheet in enumerate(step_sheet(plan).entries):
        strand = plan.strands[entry]
        cut = next(number for number, cord in enumerate(plan.cuts) if entry in cord.entries)
        for row in sheet.rows:
            if isinstance(row, RulerRow):
                made = strand.elements[: strand.steps[plan.place(row.step)[1] - 1].elements]
                length_mm = sum(element_mm(one, beads, plan.cord) for one in made)
                up_mm = sum(plan.cord.knot(one.kind).take_up_mm for one in made if isinstance(one, Knot))
                start_mm = share_a_layer_mm(plan, cut, entry, told_cut_mm(plan, cut))
                gone_mm = strand.start_tail_mm + strand.start_closure_cord_mm + length_mm + up_mm
                assert f"the strand is {show(length_mm, unit)}," in row.words
                assert row.words.endswith(f"leftover cord {show(start_mm - gone_mm, unit)}.")


def test_a_piece_has_its_own_cut_its_ticks_and_its_readings() -> None:
    plan = shipped("muckle-flugga-necklace")
    usual = step_sheet(plan)
    first = next(row for row in usual.entries[0].rows if isinstance(row, RulerRow))
    readings = (Measured("strand", first.step, 101.0, "10.1 cm"), Measured("free", first.step, 850.0, "85 cm"))
    piece = Piece(plan.total_steps, first.step, cuts=(CutEntered(0, plan.cuts[0].cut_mm + 100, ""),), readings=readings)
    sheet = step_sheet(plan, "For the stall", piece)
    assert sheet.title == "For the stall"
    assert sheet.about[0] == "A piece of Muckle Flugga necklace."
    assert any("you cut 126.3 cm" in text for _, text in sheet.parts[0].lines)
    rows = sheet.entries[0].rows
    read = next(row for row in rows if isinstance(row, RulerRow))
    assert read.read == ("10.1 cm", "85 cm left over")
    assert sum(row.done for row in rows if not isinstance(row, RulerRow)) == first.step
    later = [row for row in rows if isinstance(row, RulerRow)][1]
    same = [row for row in usual.entries[0].rows if isinstance(row, RulerRow)][1]
    assert later.step == same.step
    assert later.words != same.words  # ten centimetres more are left


@given(st.integers(0, 10**6))
def test_every_step_of_any_plan_is_on_it_once(seed: int) -> None:
    plan = random_plan(seed)
    rows = [row for entry in step_sheet(plan).entries for row in entry.rows if not isinstance(row, RulerRow)]
    assert [n for row in rows for n in range(row.first, row.last + 1)] == list(range(1, plan.total_steps + 1))
