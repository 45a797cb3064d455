"""The strand's picture: to scale, each part in the form of its state, whole whichever way it folds, cheap when long."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from rich.cells import cell_len

from companion.core.picture.big_beads import big_beads, line_text
from companion.core.picture.columns import Part, StrandColumns
from companion.core.picture.marks import marks_of
from companion.core.picture.picture import BARE, KNOT, Picture, PictureRow, made_in_picture, progress
from tests.core.drawing.test_links import shipped
from tests.core.hand_plans import GLASS, GOLDEN, SILVER, hand_plan, skerry_columns

KINDS = (Part("bead", "glass", "G"), Part("bead", "silver", "S"), Part("knot"), Part("bare"))
PARTS = st.lists(st.tuples(st.sampled_from(KINDS), st.integers(50, 2500)), min_size=1, max_size=60)
TEN_BEADS_MADE = (21, 23)  # knot, ten beads with a knot each; the daisy and its knot are the present step


def picture(parts: list[tuple[Part, int]], unit: str, columns: int) -> Picture:
    index = StrandColumns.of([part for part, _ in parts], [hundredths / 100 for _, hundredths in parts], unit)
    return Picture(index, columns)


def strand_text(row: PictureRow) -> str:
    return "".join(cell.char for cell in row.cells)


def text(rows: Sequence[PictureRow]) -> str:
    lines = [line for row in rows for line in (row.ruler, strand_text(row), row.pointer)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def whole(drawn: Picture, made: int, until: int) -> list[PictureRow]:
    return [drawn.row(number, made, until) for number in range(drawn.rows())]


@pytest.mark.parametrize(
    ("name", "unit", "columns"),
    [("skerry-inches-74", "in", 74), ("skerry-centimetres-74", "cm", 74), ("skerry-inches-114", "in", 114)],
)
def test_the_skerry_bracelet_with_its_first_ten_beads_made(name, unit, columns):
    drawn = text(whole(Picture(skerry_columns(unit), columns), *TEN_BEADS_MADE))
    assert drawn == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


def test_the_skerry_bracelet_on_a_narrow_screen():
    window = Picture(skerry_columns(), 56).window(*TEN_BEADS_MADE)
    large = "\n".join(line_text(line).rstrip() for line in big_beads([marks_of([GLASS, SILVER])[1]], "single"))
    assert f"{large}\n\n{text([window])}" == (GOLDEN / "skerry-narrow-56.txt").read_text(encoding="utf-8")


def test_beads_that_touch_are_parted_and_bare_cord_has_its_length():
    parts = [(KINDS[0], 400)] * 9 + [(KINDS[3], 1500), (KINDS[2], 200)]
    drawn = text(whole(picture(parts, "cm", 74), 3, 6))
    assert drawn == (GOLDEN / "touching-beads.txt").read_text(encoding="utf-8")


@given(PARTS, st.sampled_from(["in", "cm", "mm"]), st.integers(10, 120), st.data())
def test_rows_hold_every_part_once_in_the_form_of_its_state(parts, unit, columns, data):
    until = data.draw(st.integers(0, len(parts)))
    made = data.draw(st.integers(0, until))
    drawn = picture(parts, unit, columns)
    rows = whole(drawn, made, until)
    cells = [cell for row in rows for cell in row.cells]
    assert len(cells) == drawn.strand.columns
    column = 0
    for number, (part, _) in enumerate(parts):
        state = "made" if number < made else "present" if number < until else "coming"
        own = cells[column : drawn.strand.ends[number]]
        column += len(own)
        assert own
        assert {(cell.state, cell.bead) for cell in own} == {(state, part.bead)}
        form = "".join(cell.char for cell in own)
        if part.kind == "bead":
            letter = part.letter.lower() if state == "coming" else part.letter
            assert form.count(letter) == 1
        elif part.kind == "knot":
            assert form.strip(BARE[state]) == KNOT[state]
        else:
            assert form == BARE[state] * len(own)


@given(st.integers(1, 60))
def test_made_present_and_coming_differ_at_every_width_of_bead_but_the_least(width):
    index = StrandColumns((KINDS[0],), (width,), (width / 0.6,), skerry_columns("cm").scale, True)
    made, present, coming = (
        strand_text(Picture(index, 80).window(*place))[:width] for place in ((1, 1), (0, 1), (0, 0))
    )
    assert coming not in (made, present)
    assert (made != present) == (width > 1)


@given(PARTS, st.sampled_from(["in", "cm", "mm"]), st.integers(10, 120), st.data())
def test_here_and_the_pointer_mark_the_present_step_once(parts, unit, columns, data):
    until = data.draw(st.integers(0, len(parts)))
    made = data.draw(st.integers(0, until))
    drawn = picture(parts, unit, columns)
    rows = whole(drawn, made, until)
    with_here = [row for row in rows if row.here_column is not None]
    assert len(with_here) == 1
    assert rows.index(with_here[0]) == drawn.row_of(made)
    for number, row in enumerate(rows):
        assert len(row.pointer) <= columns
        assert len(row.ruler) <= columns
        present = [c for c, cell in enumerate(row.cells) if cell.state == "present"]
        under = [c for c, char in enumerate(row.pointer) if char in "▲─"]
        if made < until:
            assert under == present
        if row.here_column is not None and row.here_column < columns:
            assert row.pointer[row.here_column] == "▲"
            assert drawn.strand.rows(columns)[number] + row.here_column == drawn.strand.begin(made)


@given(PARTS, st.sampled_from(["in", "cm", "mm"]), st.integers(20, 120), st.data())
def test_the_window_shows_here_and_is_a_piece_of_the_whole(parts, unit, columns, data):
    made = data.draw(st.integers(0, len(parts)))
    until = data.draw(st.integers(made, len(parts)))
    drawn = picture(parts, unit, columns)
    cells = tuple(cell for row in whole(drawn, made, until) for cell in row.cells)
    window = drawn.window(made, until)
    assert window.here_column is not None
    first = drawn.strand.begin(made) - window.here_column
    assert first >= 0
    assert window.cells == cells[first : first + columns]
    assert len(window.ruler) <= columns
    assert len(window.pointer) <= columns


def test_the_window_stays_for_a_while_and_then_moves_on_by_a_quarter_to_a_knot():
    drawn = Picture(skerry_columns(), 56)
    firsts = [drawn.strand.begin(made) - drawn.window(made, made + 1).here_column for made in range(47)]
    moves = [after - before for before, after in pairwise(firsts)]
    assert {move for move in moves if move} <= set(range(56 // 4 - 5, 56 // 4 + 6))  # to the next knot
    assert sum(move == 0 for move in moves) > 40
    assert {first for first in firsts if first} <= set(drawn.strand.breaks)
    assert 56 - 14 < len(drawn.window(47, 47).cells) <= 56, "little but blank past the end"


def test_a_step_that_begins_with_a_row_is_here_in_that_row_alone():
    drawn = Picture(StrandColumns.of([KINDS[0]] * 3, [25.4] * 3, "in"), 24)
    assert [row.here_column for row in whole(drawn, 1, 2)] == [None, 0, None]
    assert [row.here_column for row in whole(drawn, 3, 3)] == [None, None, 16]


def test_here_at_the_very_edge_of_the_screen_stays_on_it():
    drawn = Picture(StrandColumns.of([KINDS[0]] * 2, [25.4] * 2, "in"), 32)
    assert drawn.window(2, 2).pointer == " " * 26 + "here ▲"


def test_numbers_of_the_ruler_stand_over_the_part_that_lies_there():
    """An eight-inch strand of 5.5 mm beads and 1.9 mm knots, looked up by arithmetic of its own."""
    lengths_mm = [5.5, 1.9] * 27
    parts = [KINDS[0], KINDS[2]] * 27
    drawn = Picture(StrandColumns.of(parts, lengths_mm, "in"), 80)
    for row in whole(drawn, 54, 54):
        for column, char in enumerate(row.ruler):
            if char.isdigit() and column < len(row.cells):
                into_pair_mm = int(char) * 25.4 % 7.4
                near_a_border = min(abs(into_pair_mm - border) for border in (0, 5.5, 7.4)) < 25.4 / 16
                assert near_a_border or (row.cells[column].bead is not None) == (into_pair_mm < 5.5)


def test_a_strand_out_of_scale_says_so_instead_of_showing_a_ruler():
    drawn = picture([(KINDS[0], 1), (KINDS[2], 1)] * 40, "in", 60)
    assert drawn.row(0, 0, 1).ruler == "0 in to under 1/16 in, not to scale"
    assert strand_text(drawn.row(0, 0, 1)).startswith("G◦g◦")


def test_the_pointer_s_word_goes_to_the_left_where_the_right_has_no_room():
    row = Picture(skerry_columns(), 75).row(0, 25, 26)
    assert row.pointer.endswith("▲ here")
    narrow = Picture(skerry_columns(), 16).window(3, 5)
    assert "▲" in narrow.pointer
    assert len(narrow.pointer) <= 16
    at_the_edge = Picture(StrandColumns.of([KINDS[0]] * 3, [25.4] * 3, "in"), 36).row(0, 1, 2)
    assert at_the_edge.pointer == " " * 11 + "here ▲" + "─" * 15


def test_rows_past_the_last_are_an_error():
    drawn = Picture(skerry_columns(), 74)
    for number in (-1, drawn.rows()):
        with pytest.raises(IndexError):
            drawn.row(number, 0, 0)


def test_every_character_is_one_column_wide():
    drawn = "".join(text(whole(Picture(skerry_columns(unit), 74), 5, 25)) for unit in ("in", "cm", "mm"))
    drawn += text(whole(picture([(KINDS[0], 400), (KINDS[0], 900), (KINDS[3], 900)] * 6, "in", 80), 7, 12))
    assert all(cell_len(char) == 1 for char in set(drawn) - {"\n"})


def test_progress_takes_the_elements_of_the_steps():
    strand = hand_plan().strands[0]
    steps = tuple(replace(strand.steps[0], number=n, elements=made) for n, made in enumerate((0, 1, 3, 5, 5), start=1))
    strand = replace(strand, steps=steps)
    assert [progress(strand, made) for made in range(6)] == [(0, 0), (0, 1), (1, 3), (3, 5), (5, 5), (5, 5)]


class Counted(Sequence):
    """A sequence that counts how often it is read."""

    def __init__(self, values):
        self.values, self.reads = values, 0

    def __len__(self):
        return len(self.values)

    def __getitem__(self, place):
        self.reads += 1
        return self.values[place]


def reads_of_a_row(pairs: int) -> int:
    index = StrandColumns.of([KINDS[0], KINDS[2]] * pairs, [6.0, 2.0] * pairs, "in")
    parts, ends, ends_mm = (Counted(values) for values in (index.parts, index.ends, index.ends_mm))
    drawn = Picture(replace(index, parts=parts, ends=ends, ends_mm=ends_mm), 74)
    middle = drawn.rows() // 2  # where its rows begin is found once
    parts.reads = ends.reads = ends_mm.reads = 0
    drawn.row(middle, pairs, pairs + 2)
    drawn.window(pairs, pairs + 2)
    return parts.reads + ends.reads + ends_mm.reads


def test_a_row_of_ten_thousand_parts_costs_what_a_row_of_a_hundred_does():
    """But for the searches for its first part and for its marks, each of which takes a few looks more."""
    assert reads_of_a_row(5000) <= 1.5 * reads_of_a_row(50)


def test_a_row_of_one_endless_span_is_no_longer_than_the_row():
    drawn = picture([(KINDS[3], 100_000_000), (KINDS[0], 600)], "mm", 74)
    assert len(drawn.row(500, 0, 1).cells) == 74


def test_of_two_strands_each_is_made_by_its_own_steps(data_folder) -> None:
    plan = shipped(data_folder, "wolf-rock-necklace")
    first, second = plan.strands
    total = plan.total_steps
    assert [made_in_picture(plan, entry, 0) for entry in (0, 1)] == [0, 0]
    assert [made_in_picture(plan, entry, None) for entry in (0, 1)] == [
        len(first.elements) + 1,
        len(second.elements) + 1,
    ]
    assert made_in_picture(plan, 0, total) == len(first.elements) + 1
    assert made_in_picture(plan, 0, len(first.steps)) == len(first.elements) + 1
    assert made_in_picture(plan, 1, len(first.steps)) == 0
    assert made_in_picture(plan, 1, len(first.steps) + 9) == second.steps[8].elements
