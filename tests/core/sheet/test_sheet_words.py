"""The sentences of a sheet."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Measured
from companion.core.sheet.sheet_words import boxes_words, check_words, read_words, row_words, ruler_words
from tests.core.sheet.shipped_plans import shipped


def test_they_read_as_said() -> None:
    assert [boxes_words(4, 4), boxes_words(4, 9)] == ["4", "4–9"]
    assert read_words(Measured("free", 3, 850.0, "85 cm")) == "85 cm left over"
    assert read_words(Measured("strand", 3, 85.0, "8.5 cm")) == "8.5 cm"
    assert check_words("4 in").startswith("Lay a ruler on this line first. Is it not 4 in long?")


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("skerry-bracelet", "After step 18 the strand is 4 in, each leftover cord 12 in."),
        ("longstone-necklace", "After step 18 the strand is 4 in, the leftover cord 12 in."),
    ],
)
def test_of_two_cords_each_one_is_measured(name, words) -> None:
    assert ruler_words(shipped(name), 18, 101.6, 304.8) == words


@pytest.mark.parametrize(
    ("texts", "times", "said"),
    [
        (("A.",), 1, ("", ("A.",))),
        (("A.",), 2, ("Twice:", ("A.",))),
        (("A.",), 13, ("13 times:", ("A.",))),
        (("A.", "B."), 3, ("3 times in turn:", ("A.", "B."))),
        (("A.", "A.", "A.", "B."), 2, ("Twice in turn:", ("3 times: A.", "B."))),
    ],
)
def test_what_repeats_is_said_once(texts, times, said) -> None:
    assert row_words(texts, times) == said
