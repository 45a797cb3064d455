"""What is left, in one line of letters: all of it, or what differs from the plan."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.rest_strip import rest_letters, rest_strip
from companion.core.values.design import Bead, Knot, Space

LETTERS = {"glass": "G", "silver": "S", "third": "3"}


def test_each_element_is_one_character() -> None:
    elements = (
        Bead("glass"),
        Knot("single"),
        Bead("third"),
        Knot("double"),
        Knot("triple"),
        Space(5.0),
        Bead("silver"),
    )
    assert rest_letters(elements, LETTERS) == "g◦₃◎◉┄s"


@pytest.mark.parametrize(
    ("rest", "planned", "shown"),
    [
        ("g◦s◦", "g◦g◦", "g◦s◦"),  # there is room for all of it
        ("g◦" * 20, "g◦" * 20, "g◦g◦g◦g◦g…"),
        ("s◦" + "g◦" * 20, "g◦" * 20, "s◦g◦g◦g◦g…"),
        ("g◦" * 20 + "s", "g◦" * 20, "…g◦g◦g◦g◦s"),  # what differs is at the end
        ("g◦" * 9 + "s◦" * 9, "g◦" * 18, "…g◦g◦g◦g◦…"),
    ],
)
def test_what_differs_is_in_sight_where_there_is_no_room_for_all(rest, planned, shown) -> None:
    assert rest_strip(rest, planned, 10).startswith(shown[:3])
    assert len(rest_strip(rest, planned, 10)) <= 10
    if shown[-1] != "…":
        assert rest_strip(rest, planned, 10).endswith(shown[-3:])


@given(st.text("gs◦", max_size=60), st.text("gs◦", max_size=60), st.integers(12, 40))
def test_it_fits_and_shows_the_first_that_differs(rest, planned, columns) -> None:
    shown = rest_strip(rest, planned, columns)
    assert len(shown) <= columns
    if len(rest) <= columns:
        assert shown == rest
    same = next((n for n, (one, other) in enumerate(zip(rest, planned, strict=False)) if one != other), None)
    if same is not None:
        assert rest[same] in shown
        assert rest[max(0, same - 3) : same + 1] in shown
