"""What is said to the maker, in parts and joined."""

from __future__ import annotations

import pytest

from companion.core.words.notices import Notice


@pytest.mark.parametrize(
    ("notice", "text"),
    [
        (Notice("quiet", "On length."), "On length."),
        (Notice("quiet", "On length.", action="Measure the strand now."), "On length. Measure the strand now."),
        (Notice("watch", "Scant.", "8 mm is missing."), "△ Scant. 8 mm is missing."),
        (Notice("off", "Off.", "It is short.", "Measure again."), "▲ Off. It is short. Measure again."),
    ],
)
def test_the_parts_are_joined_behind_the_mark(notice, text) -> None:
    assert str(notice) == text
    assert notice.text == text.lstrip("△▲ ")
