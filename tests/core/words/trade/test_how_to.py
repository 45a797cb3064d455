"""Every knot and closure can be looked up without a piece."""

from __future__ import annotations

import pytest

from companion.core.closures.table import CLOSURES
from companion.core.tying.knot_picture import in_words
from companion.core.words.trade.how_to import how_to, how_to_list, how_to_page, names, used_for
from companion.core.words.trade.techniques import TECHNIQUES


@pytest.mark.parametrize("name", names())
def test_everything_has_steps(name) -> None:
    told = how_to(name, "in")
    assert told is not None
    assert told.used_for.endswith(".")
    assert all(step.endswith(".") for _, steps in told.parts for step in steps)
    assert [heading for heading, _ in told.parts] == (
        ["At the start", "At the end"] if name in CLOSURES else ["", "What goes wrong"]
    )


@pytest.mark.parametrize(
    ("typed", "found"),
    [("french wire", "French wire and clasp"), ("Double knot", "Double knot"), ("slidng knot", "sliding knot")],
)
def test_a_name_that_is_nearly_right_is_found(typed, found) -> None:
    told = how_to(typed, "mm")
    assert told is not None
    assert told.name == found


def test_a_name_of_nothing_is_none() -> None:
    assert how_to("macaroni", "mm") is None
    assert how_to("knot and clasp and more and more", "mm") is None


@pytest.mark.parametrize("name", names())
def test_what_has_a_drawing_is_told_for_the_ear(name) -> None:
    """Where no lines are drawn the same words stand in their place, for the hand of the settings."""
    for left_handed in (False, True):
        told = how_to(name, "mm", left_handed=left_handed)
        assert told is not None
        seen = in_words(told.shown)
        spoken = [line.text for line in how_to_page(told, for_the_ear=True)]
        assert seen or name == "plain tail" or name in TECHNIQUES
        assert not seen or seen in spoken
        assert not any("─" in line for line in spoken)
        shown = [line.text for line in how_to_page(told)]
        assert (seen in shown) == (not told.drawing) or not seen


def test_everything_is_listed_with_what_it_is_for() -> None:
    assert [line.text.split("  ")[0] for line in how_to_list()] == list(names())
    assert all(used_for(name).endswith(".") for name in names())
