"""Text from outside on one clean line, and the small words of sentences."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from companion.core.values.text import count_word, join_words, nearest, plain
from tests.core.outside.outside import rows
from tests.core.outside.screens import WIDTHS


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("Skerry bracelet", "Skerry bracelet"),
        ("  Bell\tRock\nrope ", "Bell Rock rope"),
        ("9\u00a03/8\u2009in\u2028", "9 3/8 in"),
        ("\x1b[31mred\x1b[0m", "[31mred[0m"),
        ("\x9b31mred\x07\x00\x7f", "31mred"),
        ("cuff\u202eknot\u2066\u200f", "cuffknot"),
        ("a\u200bb\u200dc\ufeffd\u00ade\u2060f", "abcdef"),
        ("a\ufe0fb\u034fc\u3164d\U000e0041e", "abcde"),
        ("a\ue000b\U000f0000c\u0378d\ud800e", "abcde"),
        ("e\u0301\u0301\u0301\u0301a", "e\u0301\u0301a"),
        ("\u0301\u0301a", "a"),
        (" \u0301a", "a"),
        ("貝殻 真珠", "貝殻 真珠"),
        ("[bold]$x[/bold]", "[bold]$x[/bold]"),
        ("", ""),
    ],
)
def test_a_line_fit_for_the_screen(text, line):
    assert plain(text) == line


@pytest.mark.parametrize(("text", "columns"), rows(WIDTHS))
def test_columns_that_others_count(text, columns):
    assert plain(text, columns) == text
    assert plain(text, columns - 1) == text[:-1]


def test_a_line_is_never_wider_than_asked():
    assert plain("a" * 300) == "a" * 200
    assert plain("abc def", 4) == "abc"
    assert plain("貝殻真珠", 5) == "貝殻"  # two columns each
    assert plain("e\u0301" * 9, 3) == "e\u0301" * 3
    assert plain("abc", 0) == ""


# Scripts whose widths every edition of Unicode's East Asian Width agrees on.
LETTERS = st.sampled_from("abz 019[]éñßжשع貝真가あﾊＡ\t\n\x1b\u0301\u0308\u200d\u202e\u00a0\ue000")


@given(st.text(LETTERS, max_size=60), st.integers(0, 40))
def test_any_line_fits_by_the_terminals_own_measure(text, limit):
    line = plain(text, limit)
    assert cell_len(line) <= limit  # rich's table of widths, made apart from ours
    assert line == plain(line, limit)


@given(st.text(max_size=80))
def test_no_text_brings_controls_or_piled_marks(text):
    line = plain(text)
    categories = [unicodedata.category(character) for character in line]
    assert not [category for category in categories if category[0] == "C" or category in ("Zl", "Zp")]
    assert "MMM" not in "".join(category[0] for category in categories)
    assert line == line.strip()
    assert line.isprintable()


@given(st.text(st.characters(categories=["L", "N", "P"], max_codepoint=0x24F), max_size=50))
def test_honest_text_is_left_as_it_is(text):
    assert plain(text) == text


def test_counts_in_words():
    assert [count_word(count) for count in (1, 2, 7, 12, 13, 212, 0)] == [
        "one",
        "two",
        "seven",
        "twelve",
        "13",
        "212",
        "0",
    ]


def test_a_list_in_a_sentence():
    assert [join_words(words) for words in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]


@pytest.mark.parametrize(
    ("word", "right"),
    [
        ("tolerence", "tolerance"),
        ("lenght", "length"),
        ("Length", "length"),
        ("WRIST", "wrist"),
        ("xyzzy", None),
        ("", None),
    ],
)
def test_the_nearest_right_word(word, right):
    assert nearest(word, ["length", "wrist", "neck", "ease", "tolerance"]) == right


def test_the_nearest_word_comes_back_as_written():
    assert nearest("sea-glas", ["Silver", "Sea-glass"]) == "Sea-glass"
    assert nearest("a" * 1_000_000, ["a" * 50]) is None
