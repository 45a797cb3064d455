"""The ruler over a drawn row: a number at every inch or centimetre, where the strand really is."""

from __future__ import annotations

import itertools

import pytest

from companion.core.drawing.row_ruler import row_ruler, ruler_marks
from companion.core.drawing.strand import drawn_strand
from tests.core.hand_plans import hand_plan


@pytest.mark.parametrize(("unit", "step_mm", "per"), [("in", 25.4, 1), ("cm", 10.0, 1), ("mm", 10.0, 10)])
def test_numbers_stand_over_their_place(unit: str, step_mm: float, per: int) -> None:
    strand = drawn_strand(hand_plan(unit=unit), 0, 2.0)  # 6 and 2 mm come out even: no rounding
    for first, end in strand.rows(70):
        begin = strand.begin(first)
        for column, label in ruler_marks(strand, (first, end)):
            if label:
                assert begin + column == pytest.approx(
                    int(label) / per * step_mm * 2.0, abs=0.7
                )  # the last one has no pixel beyond the end


def test_a_row_begins_where_its_first_bead_does() -> None:
    strand = drawn_strand(hand_plan(), 0, 2.0)
    rows = strand.rows(70)
    texts = [row_ruler(strand, row) for row in rows]
    assert texts[0].startswith("0 in")
    assert [len(text) for text in texts] == [strand.begin(end) - strand.begin(first) for first, end in rows]
    numbers = [label for row in rows for _, label in ruler_marks(strand, row) if label]
    assert numbers == [str(n) for n in range(8)]  # 178 mm: seven inches and a little


def test_a_small_scale_has_fewer_marks() -> None:
    strand = drawn_strand(hand_plan(), 0, 0.15)
    (row,) = strand.rows(200)
    columns = [column for column, _ in ruler_marks(strand, row)]
    assert all(after - before >= 2 for before, after in itertools.pairwise(columns))


def test_no_elements_no_ruler() -> None:
    strand = drawn_strand(hand_plan(), 0, 2.0)
    assert row_ruler(strand, (3, 3)) == ""


@pytest.mark.parametrize("scale", [0.15, 0.2, 0.25, 0.3, 0.4, 0.5])
def test_no_tick_stands_on_a_number_or_its_unit(scale) -> None:
    strand = drawn_strand(hand_plan(*[(*hand_plan().strands[0].elements,) * 6]), 0, scale)
    for row in strand.rows(150):
        text = row_ruler(strand, row)
        assert text.count(" in") == 1
        assert set(text.replace(" in", "")) <= set("─┬0123456789")
