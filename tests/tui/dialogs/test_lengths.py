"""A length typed in the maker's own unit."""

from __future__ import annotations

import pytest

from companion.tui.dialogs.lengths import TypedLength, length_judge
from companion.tui.dialogs.question import Judged


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [("2", "in", 50.8), (" 1 1/2 ", "in", 38.1), ("2", "cm", 20.0), ("2", "mm", 2.0), ("2 cm", "in", 20.0)],
)
def test_a_bare_number_is_in_the_makers_unit(text, unit, mm) -> None:
    judged = length_judge(unit, Judged)(text)
    assert judged.value == TypedLength(pytest.approx(mm), text.strip())


def test_what_is_no_length_says_why_and_nothing_may_mean_something() -> None:
    judge = length_judge("mm", Judged, blank=Judged(TypedLength(0.0, "")))
    assert judge("3q").value is None
    assert "unit that isn't known here" in judge("3q").lines[0].text
    assert judge(" ").value == TypedLength(0.0, "")
    assert length_judge("mm", Judged)(" ").value is None
