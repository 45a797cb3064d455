"""Colours and shapes that nobody here knows are named in a hint, with the nearest that is known."""

from __future__ import annotations

import pytest

from companion.core.values.design import BeadKind
from companion.core.words.bead_hints import look_hints


def hints(colour: str = "", shape: str = "") -> list[str]:
    bead = BeadKind("g", "Sea-glass round", 6, 6, colour=colour, shape=shape)
    found = list(look_hints([bead]))
    assert all(kind is bead for _, kind in found)
    return [text for text, _ in found]


@pytest.mark.parametrize("colour", ["", " ", "teal", "Pale Sea Green", "#1a8", "dark amber", "grey-green"])
def test_a_colour_that_is_known_has_no_hint(colour) -> None:
    assert hints(colour=colour) == []


@pytest.mark.parametrize("shape", ["", "daisy", "Flat disc", "faceted rondelle"])
def test_a_shape_that_is_known_has_no_hint(shape) -> None:
    assert hints(shape=shape) == []


@pytest.mark.parametrize(
    ("colour", "near"), [("taeal", " Did you mean teal?"), ("pale turqoise", " Did you mean turquoise?"), ("zzzz", "")]
)
def test_an_unknown_colour_is_named_with_the_nearest(colour, near) -> None:
    assert hints(colour=colour) == [
        f'"{colour}" is no colour known here, so the bead is drawn in no colour of its own.{near}'
    ]


@pytest.mark.parametrize(("shape", "near"), [("dasiy", " Did you mean daisy?"), ("qqqq", "")])
def test_an_unknown_shape_is_named_with_the_nearest(shape, near) -> None:
    assert hints(shape=shape) == [f'"{shape}" is no shape known here, so the bead is drawn round.{near}']


def test_what_a_file_holds_is_only_text() -> None:
    (text,) = hints(colour="\x1b[31mzz" + "z" * 500)
    assert "\x1b" not in text
    assert len(text) < 150
