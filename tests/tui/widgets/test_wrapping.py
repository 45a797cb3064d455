"""Breaking text by the columns it takes, and what goes where there is no room for all of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from companion.core.words.notices import Notice
from companion.tui.widgets.wrapping import fitted as fitted_lines
from companion.tui.widgets.wrapping import hanging, shortened, wrapped

OFF = Notice(
    "off",
    "Too short (w: what to do).",
    "On course for 7 5/8 ± 1/4 in, 3/8 in under your 8 in. Most likely your knots are 12 % tighter.",
    "Count the beads in steps 13 to 18 (r): there should be 6.",
)
SCANT = Notice(
    "watch", "Tight: 9 % chance of running out of cord.", "To be safe you need another 7 7/16 in of each cord."
)
MARKED = Notice("quiet", "Step 18 done: G knot.")
READ = Notice("quiet", "You read 3 1/2 in. All readings together make it 3 9/16 in.")
WORDS = st.lists(st.text("ab12/ .%真", min_size=1, max_size=9), max_size=20).map(" ".join)


def fitted(notices, columns: int, rows: int) -> list[str]:
    """Their words alone."""
    return [text for text, _ in fitted_lines(notices, columns, rows)]


def unspaced(text: str) -> str:
    return text.replace(" ", "")


@given(WORDS, st.integers(2, 40))
def test_no_line_is_too_long_and_no_letter_is_lost(text, columns) -> None:
    lines = wrapped(text, columns)
    assert all(cell_len(line) <= columns for line in lines)
    assert unspaced("".join(lines)) == unspaced(text)


@given(WORDS, st.integers(12, 40), st.integers(0, 8))
def test_a_hanging_paragraph_is_set_in_after_its_first_line(text, columns, indent) -> None:
    first, *later = hanging(text, columns, indent)
    assert all(line.startswith(" " * indent) for line in later)
    assert all(cell_len(line) <= columns for line in later)
    assert unspaced("".join([first, *later])) == unspaced(text)


@pytest.mark.parametrize("columns", range(12, 80))
def test_a_number_keeps_its_fraction_and_its_unit(columns) -> None:
    for line in wrapped(OFF.detail, columns):
        assert not line.lstrip().startswith(("in", "%", "5/8", "1/4"))


def test_where_there_is_room_all_is_said() -> None:
    assert " ".join(fitted([OFF, SCANT], 80, 9)).split() == f"{OFF} {SCANT}".split()


@pytest.mark.parametrize("notices", [[MARKED, OFF], [OFF, SCANT], [MARKED, OFF, READ], [MARKED, OFF, SCANT, READ]])
@pytest.mark.parametrize("columns", [58, 78, 118])
def test_what_is_to_be_done_is_never_left_out(columns, notices) -> None:
    """Reasons and figures go first, those of quiet notices before others; then quiet notices that ask for nothing."""
    lines = fitted(notices, columns, 3)
    said = " ".join(lines)
    assert len(lines) <= 3
    assert lines[-1].endswith(".")
    for kept in ("▲ Too short (w: what to do).", OFF.action, SCANT.headline if SCANT in notices else ""):
        assert kept in said


def test_the_quiet_go_before_the_loud_and_the_last_before_the_first() -> None:
    notices = [MARKED, Notice("watch", "Keep an eye on it.", "On course for 190 mm."), READ]
    whole = [str(notice) for notice in notices]
    assert fitted(notices, 78, 3) == whole
    assert fitted(notices, 78, 2) == [whole[0], "△ Keep an eye on it."]
    assert fitted(notices, 78, 1) == ["Step 18 done: G knot. △ Keep an eye on it."]
    assert fitted(notices, 30, 1) == ["△ Keep an eye on it."]


HELD = Notice(
    "watch",
    "The cord reaches the last knot, but little of it is left.",
    "To be safe you need at least another 2 5/16 in of each of the cords.",
    "Tweezers hold a short end, and a needle draws it through.",
)


def test_two_that_ask_stand_in_one_paragraph_and_the_quiet_one_without_its_word() -> None:
    due = Notice("quiet", "On length.", "", "Measure the strand now (m).")
    assert fitted([due, HELD], 58, 4) == [str(due), *wrapped(f"△ {HELD.headline} {HELD.action}", 58)]
    assert " ".join(fitted([due, HELD], 58, 3)) == f"{due} △ {HELD.headline} {HELD.action}"
    with_step = " ".join(fitted([MARKED, due, HELD], 58, 3))
    assert with_step == f"{MARKED} {due.action} △ {HELD.headline} {HELD.action}"


def test_a_sentence_longer_than_its_room_ends_with_an_ellipsis() -> None:
    (line,) = fitted([Notice("watch", "One sentence that is a good deal too long for one line.")], 20, 1)
    assert line.endswith("…")
    assert cell_len(line) <= 20


def test_a_text_is_cut_off_between_words_unless_that_leaves_too_little() -> None:
    assert shortened("Undo the latest thing you did", 20) == "Undo the latest …"
    assert shortened("Undo the latest", 15) == "Undo the latest"
    assert shortened("A Muckle-Flugga-necklace", 20) == "A Muckle-Flugga-ne …"
