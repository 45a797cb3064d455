"""Colour words: found in what a maker writes, never guessed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.colours import COLOUR_WORDS, colour_of, ink_on

CHANNELS = st.tuples(*[st.integers(0, 255)] * 3)


def luminance(colour: tuple[int, int, int]) -> float:
    """Source: WCAG 2.1, relative luminance; sRGB read off its table form."""
    red, green, blue = (c / 255 / 12.92 if c <= 10 else ((c / 255 + 0.055) / 1.055) ** 2.4 for c in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_there_are_words_enough_for_a_bead_tray():
    assert len(COLOUR_WORDS) >= 60
    assert {"teal", "silver", "amber", "cobalt", "sea green", "pearl"} <= set(COLOUR_WORDS)


@pytest.mark.parametrize("name", COLOUR_WORDS)
def test_a_word_is_found_alone_capitalised_and_with_a_finish(name):
    assert colour_of(name) == colour_of(name.upper()) == colour_of(f"matt {name}") == COLOUR_WORDS[name]


@pytest.mark.parametrize(
    ("words", "same_as"),
    [
        ("sea-green", "sea green"),
        ("frosted sea green, matt", "sea green"),
        ("grey green", "green"),
        ("silver grey", "grey"),
        ("rose gold", "rose gold"),
        ("teal-coloured", "teal"),
    ],
)
def test_a_phrase_goes_by_its_last_colour(words, same_as):
    assert colour_of(words) == COLOUR_WORDS[same_as]


def test_pale_is_lighter_and_dark_is_darker_than_the_word_alone():
    shades = [colour_of(f"{shade} sea green".strip()) for shade in ("dark", "", "pale")]
    assert shades[1] == COLOUR_WORDS["sea green"]
    assert luminance(shades[0]) < luminance(shades[1]) < luminance(shades[2])


@given(CHANNELS)
def test_a_number_is_read_as_it_is_written(colour):
    code = "#{:02x}{:02X}{:02x}".format(*colour)
    assert colour_of(code) == colour_of(f" {code} ") == colour


def test_a_short_number_doubles_its_digits():
    assert colour_of("#1aF") == (0x11, 0xAA, 0xFF)


@pytest.mark.parametrize(
    "words", ["", "driftwoodish", "#12", "#12345", "#ggg", "#１２３", "12ab45", "tealish", "\x1b[31m"]
)
def test_what_is_no_colour_is_drawn_plain(words):
    assert colour_of(words) is None


@given(st.text(max_size=200))
def test_any_text_is_a_colour_or_plain(words):
    colour = colour_of(words)
    assert colour is None or all(0 <= channel <= 255 for channel in colour)


@given(CHANNELS)
def test_a_letter_reads_on_any_colour(colour):
    """Source: WCAG 2.1, 1.4.3: 4.5 to 1 at least."""
    lighter, darker = sorted((luminance(colour), luminance(ink_on(colour))), reverse=True)
    assert (lighter + 0.05) / (darker + 0.05) >= 4.5
