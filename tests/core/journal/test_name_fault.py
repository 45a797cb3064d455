"""What a maker can name a piece."""

from __future__ import annotations

import pytest

from companion.core.journal.name_fault import name_fault
from companion.core.journal.names import can_be_kept


@pytest.mark.parametrize("name", ["", " ", "...", "12", "3 1/2 in", "40 mm", "-learn", "a/b", "x" * 41, "two\nlines"])
def test_what_can_be_no_name_is_refused_in_a_sentence(name) -> None:
    assert name_fault(name).endswith(".")


@pytest.mark.parametrize("name", ["For Anna", "bärnstein", "2nd try", "Mum's, blue", "真珠"])
def test_any_other_line_is_a_name(name) -> None:
    assert name_fault(name) == ""
    assert can_be_kept(name)
