"""Colour words: found in what a maker writes, never guessed."""

from __future__ import annotations

from colorsys import rgb_to_hsv

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.colours import COLOUR_WORDS, Colour, colour_of, contrast_ratio, ink_on, readable_on
from tests.core.outside.outside import rows
from tests.core.outside.screens import DEQUE_CONTRASTS, GREY_CONTRASTS, LONG_CODES, PRIMARY_CONTRASTS, SHORT_CODES

CHANNELS = st.tuples(*[st.integers(0, 255)] * 3)


def luminance(colour: tuple[int, int, int]) -> float:
    """Source: WCAG 2.2, relative luminance; sRGB read off its table form."""
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


@pytest.mark.parametrize(("code", "published"), rows(SHORT_CODES, LONG_CODES))
def test_a_number_that_was_published(code, published):
    assert colour_of(code) == published


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
    """Source: WCAG 2.2, 1.4.3: 4.5 to 1 at least."""
    assert ratio(colour, ink_on(colour)) >= 4.5


def ratio(one: Colour, other: Colour) -> float:
    """Source: WCAG 2.2, contrast ratio."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(("one", "other", "published", "by"), rows(DEQUE_CONTRASTS, PRIMARY_CONTRASTS, GREY_CONTRASTS))
def test_the_contrast_ratio_is_the_published_one(one, other, published, by):
    colours = colour_of(one), colour_of(other)
    assert contrast_ratio(*colours) == contrast_ratio(*colours[::-1]) == pytest.approx(published, abs=by)


def test_contrast_goes_from_1_to_21():
    """Source: WCAG 2.2, contrast ratio."""
    assert contrast_ratio(BLACK, WHITE) == pytest.approx(21)
    assert contrast_ratio(WHITE, WHITE) == 1


@given(CHANNELS, CHANNELS)
def test_the_contrast_ratio_two_ways(one, other):
    assert contrast_ratio(one, other) == pytest.approx(ratio(one, other))


LAMP, PAPER, BLACK, WHITE = (20, 24, 27), (251, 250, 246), (0, 0, 0), (255, 255, 255)


@given(CHANNELS, st.sampled_from([LAMP, PAPER, BLACK, WHITE]), st.sampled_from([3.0, 4.5, 7.0]))
def test_a_colour_is_made_readable_and_keeps_its_hue(colour, ground, least):
    found = readable_on(ground, colour, least)
    assert ratio(found, ground) >= least
    if ratio(colour, ground) >= least:
        assert found == colour
    else:  # towards the far end, and hardly farther than asked for
        towards = [(f - c) * (1 if ground in (LAMP, BLACK) else -1) for f, c in zip(found, colour, strict=True)]
        assert min(towards) >= 0
        assert ratio(found, ground) < least * 1.2
    chroma = min(max(shade) - min(shade) for shade in (colour, found))
    if chroma >= 8:  # of less, a channel's rounding is all the hue there is
        apart = abs(hue(found) - hue(colour))
        assert min(apart, 1 - apart) * 6 <= 1.5 / chroma


def hue(colour: Colour) -> float:
    """The hue, from 0 to 1 round the circle: the standard library's own."""
    return rgb_to_hsv(*(channel / 255 for channel in colour))[0]


def test_where_no_shade_is_enough_it_is_black_or_white():
    assert readable_on((119, 119, 119), (119, 40, 40), 7.0) == BLACK
    assert readable_on((20, 20, 20), (90, 40, 40), 21.0) == WHITE


def test_what_a_colour_looks_like_elsewhere_can_be_asked_for():
    """As on a terminal of few colours: here one that knows black and white only."""

    def coarse(ground, colour):
        return ratio(ground, WHITE if luminance(colour) > 0.5 else BLACK)

    assert luminance(readable_on(BLACK, (120, 0, 0), 4.5, coarse)) > 0.5
