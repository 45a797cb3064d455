"""The parts of a design as forms."""

from __future__ import annotations

import pytest

from companion.core.draft.draft import Draft
from companion.tui.design.parts import part_form

ROOM_AT_60_COLUMNS = 35


@pytest.mark.parametrize("part", ["what", "size", "cord", "knots", "pattern", "ends", "beads"])
def test_every_hint_can_be_read_on_the_narrowest_screen(part: str) -> None:
    for field in part_form(Draft(), part, (), 0).fields:
        assert len(field.hint) <= ROOM_AT_60_COLUMNS, field.hint
