"""Breaking text by the columns it takes, and what goes where there is no room for all of it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from companion.tui.widgets.wrapping import fitted, hanging, wrapped

OFF = "▲ Off. On course for 7 5/8 ± 1/4 in, 3/8 in short of 8 in. Most likely your knots are 12 % tighter. Or count."
SCANT = "△ Scant: 9 % that the cord runs out. To be sure of it, 7 7/16 in a layer is missing."
WORDS = st.lists(st.text("ab12/ .%真", min_size=1, max_size=9), max_size=20).map(" ".join)


def unspaced(text: str) -> str:
    return text.replace(" ", "")


@settings(max_examples=200)
@given(WORDS, st.integers(2, 40))
def test_no_line_is_too_long_and_no_letter_is_lost(text, columns) -> None:
    lines = wrapped(text, columns)
    assert all(cell_len(line) <= columns for line in lines)
    assert unspaced("".join(lines)) == unspaced(text)


@settings(max_examples=200)
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
    lines = fitted(["Jumped; u undoes it.", OFF, SCANT], columns, max(rows, 3))
    assert len(lines) <= max(rows, 3)
    said = " ".join(lines)
    for kept in ("Jumped; u undoes it.", "▲ Off.", "△ Scant:"):
        assert kept in said
    assert lines[-1].endswith(".")


def test_a_sentence_longer_than_its_room_ends_with_an_ellipsis() -> None:
    (line,) = fitted(["One sentence that is a good deal too long for one line."], 20, 1)
    assert line.endswith("…")
    assert cell_len(line) <= 20
