"""The present step drawn large."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from companion.core.picture.big_beads import big_beads, line_text
from companion.core.picture.marks import marks_of
from companion.core.picture.outlines import ROUND, SHAPE_WORDS, outline_of
from companion.core.values.design import BeadKind
from tests.core.hand_plans import GLASS, SILVER

ROUND_GLASS, DAISY = marks_of([GLASS, SILVER])


def drawn(*args) -> str:
    return "\n".join(line_text(line) for line in big_beads(*args))


def test_one_bead_and_its_knot():
    assert drawn([ROUND_GLASS], "single") == "╭─────╮   \n│  G  │─•─\n╰─────╯   "


def test_a_bead_is_drawn_by_the_word_for_its_shape():
    assert drawn([DAISY], None) == "╭┬┬┬┬┬╮\n├  S  ┤\n╰┴┴┴┴┴╯"


def test_ten_alike_are_three_and_their_number():
    assert drawn([ROUND_GLASS] * 10, "double").split("\n")[1] == "│  G  ││  G  ││  G  │ … ×10─•─"


def test_several_kinds_are_counted_as_beads():
    assert drawn([ROUND_GLASS, DAISY] * 2, None).split("\n")[1] == "│  G  │├  S  ┤│  G  │ … 4 beads"


def test_as_many_as_there_is_room_for_need_no_number():
    assert "…" not in drawn([ROUND_GLASS] * 4, None, 4)


def test_a_knot_alone_and_nothing_at_all():
    assert drawn([], "triple") == "   \n─•─\n   "
    assert drawn([], None) == "\n\n"


def test_each_stroke_knows_its_bead_so_that_colour_can_be_put_on_it():
    middle = big_beads([ROUND_GLASS, DAISY], "single")[1]
    assert [(stroke.text, stroke.bead) for stroke in middle] == [
        ("│  G  │", "glass"),
        ("├  S  ┤", "silver"),
        ("─•─", None),
    ]


@pytest.mark.parametrize("word", SHAPE_WORDS)
def test_an_outline_is_three_lines_of_one_width_in_single_columns(word):
    lines = outline_of(word).lines("W")
    assert len({len(line) for line in lines}) == 1
    assert all(cell_len(line) == len(line) for line in lines)
    assert lines[1].count("W") == 1


@pytest.mark.parametrize(("words", "like"), [("Flat Disc", "disc"), ("round daisy", "daisy"), ("faceted tube", "tube")])
def test_of_several_shape_words_the_last_counts(words, like):
    assert outline_of(words) == SHAPE_WORDS[like]
    assert SHAPE_WORDS[like] != ROUND


@pytest.mark.parametrize("words", ["", "seahorse", "{}", "\x1b[2J"])
def test_an_unknown_shape_is_round(words):
    kind = BeadKind("x", "X", 6, 6, shape=words)
    assert marks_of([kind])[0].outline == outline_of("round")
