"""The outline of a bead, by the words for its shape."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from companion.core.picture.marks import marks_of
from companion.core.picture.outlines import ROUND, SHAPE_WORDS, outline_of
from companion.core.values.design import BeadKind


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
