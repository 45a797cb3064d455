"""The rows of the bench: what goes where there is no room for all of it."""

from __future__ import annotations

from datetime import timedelta

import pytest
from rich.cells import cell_len

from companion.tui.bench.piece_rows import piece_rows, since
from tests.tui.bench.pieces import AT, piece

SIZES = ("36 in", "wrist 6 1/2 in")
PIECES = (piece("Bell Rock rope", 90, 219, "off, cord scant"), piece("Skerry bracelet", 9, 28))


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_a_row_of_the_bench_keeps_its_count_and_its_warning(columns) -> None:
    for row, shown in zip(piece_rows(PIECES, SIZES, columns), PIECES, strict=True):
        assert f" {shown.steps_done} of {shown.steps_total} " in f"{row.text} "
        assert row.text.endswith(since(AT))
        assert cell_len(row.text) + cell_len(row.mark) + 6 <= columns
    assert [row.mark for row in piece_rows(PIECES, SIZES, columns)] == ["▲ off, cord scant", ""]


def test_columns_agree_whatever_the_names_and_the_warnings() -> None:
    warned = [piece("誕生日の首飾り", 7, 53, "recount"), piece("A", 120, 222, "cord runs out"), piece("Rope", 1, 9)]
    rows = piece_rows(warned, ["36 in", "", "wrist 6 1/2 in"], 80)
    assert len({cell_len(row.text[: row.text.index(" of ")]) for row in rows}) == 1
    assert len({cell_len(row.text[: row.text.index(since(AT))]) for row in rows}) == 1
    assert [row.mark for row in rows] == ["▲ recount      ", "▲ cord runs out", ""]  # they begin below one another


def test_a_wide_screen_has_room_for_the_longest_name_and_for_what_is_counted() -> None:
    longest = "A cuff that Margarethe wants for her May"
    (row,) = piece_rows([piece(longest, 9, 18)], ["wrist 170 mm"], 120)
    half = 12
    assert f"{longest}  wrist 170 mm  {half * '•'}{half * '◦'}  9 of 18 steps  " in row.text


def test_where_there_is_hardly_room_the_count_is_the_last_to_stay() -> None:
    worst = piece("Bell Rock rope", 90, 219, "measure again, cord runs out")
    (row,) = piece_rows([worst], [""], 60)
    assert " 90 of 219" in row.text
    assert cell_len(row.text) + cell_len(row.mark) + 6 <= 60


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "just now"),
        (30, "30 min ago"),
        (60 * 24, "yesterday"),
        (60 * 24 * 3, "Tuesday"),
        (60 * 24 * 30, "01 Dec 2026"),
    ],
)
def test_when_in_plain_words(minutes, words) -> None:
    assert since(AT, AT + timedelta(minutes=minutes)) == words


def test_a_row_has_the_piece_s_name_and_size() -> None:
    first, second = piece_rows(PIECES, SIZES, 80)
    assert first.text.startswith("Bell Rock rope")
    assert "36 in" in first.text
    assert second.text.startswith("Skerry bracelet")
    assert "wrist 6 1/2 in" in second.text


def test_the_dots_go_before_the_name_and_the_name_before_the_count() -> None:
    named = [piece("A name as long as a name can be here", 9, 28)]
    wide, narrow, hardly = (piece_rows(named, ["wrist 6 1/2 in"], columns)[0].text for columns in (120, 60, 40))
    assert "••" in wide
    assert "wrist 6 1/2 in" in narrow
    assert "◦" not in narrow
    assert " 9 of 28" in hardly


@pytest.mark.parametrize("columns", [60, 72, 120])
def test_beside_a_drawing_the_beads_come_before_the_size(columns) -> None:
    rows = piece_rows([piece("Bell Rock rope", 90, 219), PIECES[1]], SIZES, columns, beads_first=True)
    for row in rows:
        assert row.strip is not None
        assert row.text[row.strip.at : row.strip.at + row.strip.columns].strip("•◦") == ""
        assert cell_len(row.text) + cell_len(row.mark) + 6 <= columns
    assert ("wrist 6 1/2 in" in rows[1].text) == (columns == 120)


def test_where_there_are_dots_the_beads_will_stand() -> None:
    for columns in range(50, 130):
        (row,) = piece_rows([piece("Skerry bracelet", 9, 28)], ["wrist 6 1/2 in"], columns)
        assert ("◦" in row.text) == (row.strip is not None)
        if row.strip is not None:
            assert set(row.text[row.strip.at : row.strip.at + row.strip.columns]) == {"•", "◦"}
