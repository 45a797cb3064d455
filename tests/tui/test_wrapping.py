"""Breaking text by the columns it takes, and what goes where there is no room for all of it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from companion.tui.bench.piece_rows import piece_rows, since
from companion.tui.widgets.wrapping import fitted, hanging, wrapped
from companion.workshop import PieceRow

OFF = "▲ Off. It would finish at 7 5/8 ± 1/4 in, 3/8 in short of 8 in. Likeliest: knots 12 % tighter. Or count."
SCANT = "△ Scant: 9 % that the cord runs out. To be sure of it, 7 7/16 in a layer is missing."
WORDS = st.lists(st.text("ab12/ .%真", min_size=1, max_size=9), max_size=20).map(" ".join)


def unspaced(text: str) -> str:
    return text.replace(" ", "")


@settings(max_examples=200, deadline=None)
@given(WORDS, st.integers(2, 40))
def test_no_line_is_too_long_and_no_letter_is_lost(text, columns) -> None:
    lines = wrapped(text, columns)
    assert all(cell_len(line) <= columns for line in lines)
    assert unspaced("".join(lines)) == unspaced(text)


@settings(max_examples=200, deadline=None)
@given(WORDS, st.integers(12, 40), st.integers(0, 8))
def test_a_hanging_paragraph_is_set_in_after_its_first_line(text, columns, indent) -> None:
    first, *later = hanging(text, columns, indent)
    assert all(line.startswith(" " * indent) for line in later)
    assert all(cell_len(line) <= columns for line in later)
    assert unspaced("".join([first, *later])) == unspaced(text)


@pytest.mark.parametrize("columns", range(12, 80))
def test_a_number_keeps_its_fraction_and_its_unit(columns) -> None:
    for line in wrapped(OFF, columns):
        assert not line.lstrip().startswith(("in", "%", "5/8", "1/4"))


def test_where_there_is_room_all_is_said() -> None:
    assert " ".join(fitted([OFF, SCANT], 80, 9)).split() == f"{OFF} {SCANT}".split()


@pytest.mark.parametrize(("columns", "rows"), [(58, 3), (78, 3), (58, 2), (118, 2)])
def test_what_has_no_room_goes_by_whole_sentences_and_each_text_keeps_its_first(columns, rows) -> None:
    lines = fitted(["Jumped; u takes it back.", OFF, SCANT], columns, max(rows, 3))
    assert len(lines) <= max(rows, 3)
    said = " ".join(lines)
    for kept in ("Jumped; u takes it back.", "▲ Off.", "△ Scant:"):
        assert kept in said
    assert lines[-1].endswith(".")


def test_a_sentence_longer_than_its_room_ends_with_an_ellipsis() -> None:
    (line,) = fitted(["One sentence that is a good deal too long for one line."], 20, 1)
    assert line.endswith("…")
    assert cell_len(line) <= 20


AT = datetime(2026, 12, 1, 18, 0, tzinfo=UTC)


def piece(name: str, done: int, total: int, warning: str = "") -> PieceRow:
    fields = {
        "id": 1, "name": name, "design_name": name, "design_path": "", "design_digest": "", "steps_done": done,
        "steps_total": total, "state": "under way", "started_at": AT, "touched_at": AT, "warning": warning,
    }  # fmt: skip
    return PieceRow(**fields)


PIECES = (piece("Bell Rock rope", 90, 219, "off, cord scant"), piece("Skerry bracelet", 9, 28))


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_a_row_of_the_bench_keeps_its_count_and_its_warning(columns) -> None:
    for row, shown in zip(piece_rows(PIECES, columns), PIECES, strict=True):
        assert f" {shown.steps_done} of {shown.steps_total} " in f"{row.text} "
        assert since(AT) in row.text
        assert cell_len(row.text) + cell_len(row.mark) + 6 <= columns
    assert [row.mark for row in piece_rows(PIECES, columns)] == ["▲ off, cord scant", ""]


def test_where_there_is_hardly_room_the_count_is_the_last_to_stay() -> None:
    worst = piece("Bell Rock rope", 90, 219, "measure again, cord runs out")
    (row,) = piece_rows([worst], 60)
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
