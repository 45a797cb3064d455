"""Every knot and closure can be looked up without a piece."""

from __future__ import annotations

import pytest

from companion.core.closures.table import CLOSURES
from companion.core.words.trade.how_to import how_to, names


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
