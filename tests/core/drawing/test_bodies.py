"""Beads as lit bodies: each form its own, light from the upper left, an outline all round."""

from __future__ import annotations

from itertools import combinations

import pytest

from companion.core.drawing.bodies import body, light_at
from companion.core.picture.outlines import SHAPE_WORDS, outline_of

FORMS = sorted({outline_of(word).form for word in SHAPE_WORDS})


def test_every_shape_word_has_a_form_that_can_be_drawn() -> None:
    assert len(FORMS) == 9
    for form in FORMS:
        assert light_at(form, 0, 0) is not None


def test_the_forms_differ_from_one_another_without_colour() -> None:
    masks = {form: tuple(tuple(shade.cover >= 0.5 for shade in row) for row in body(form, 15, 15)) for form in FORMS}
    lights = {
        form: tuple(tuple(round(shade.light, 1) for shade in row) for row in body(form, 15, 15)) for form in FORMS
    }
    same = [(a, b) for a, b in combinations(FORMS, 2) if (masks[a], lights[a]) == (masks[b], lights[b])]
    assert same == [("oval", "round")]  # in a box of their own proportions they differ


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize(("width", "height"), [(2, 1), (4, 5), (12, 13), (30, 9)])
def test_a_body_fills_its_box_and_has_an_outline(form, width, height) -> None:
    rows = body(form, width, height)
    assert (len(rows), len(rows[0])) == (height, width)
    inside = [shade for row in rows for shade in row if shade.cover >= 0.5]
    assert inside
    assert any(shade.rim for shade in inside)
    assert all(0 <= shade.cover <= 1 for row in rows for shade in row)


@pytest.mark.parametrize("form", ["round", "oval", "tube", "drop", "faceted"])
def test_light_comes_from_above(form) -> None:
    assert light_at(form, 0.1, -0.5) > light_at(form, 0.1, 0.5)


def test_a_round_bead_covers_what_a_circle_does() -> None:
    """Area of a circle in its square: pi / 4. Second way beside the samples."""
    cover = sum(shade.cover for row in body("round", 41, 41) for shade in row) / 41**2
    assert cover == pytest.approx(3.14159265 / 4, abs=0.005)
