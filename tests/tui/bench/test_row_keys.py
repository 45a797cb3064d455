"""The keys at the foot are those of the row under the cursor."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.tui.bench.contents import Contents
from companion.tui.bench.row_keys import row_keys, way_now
from companion.tui.routes import ToCard, ToDesign, ToPiece
from tests.tui.bench.pieces import piece

PIECES = (
    piece("Under way", 9, 28),
    piece("Finished", 28, 28, state="finished", number=2),
    piece("Put away", 3, 28, state="abandoned", number=3),
)
CONTENTS = Contents(pieces=PIECES, sizes=("", "", ""))
REST = "/ find   ? more   Esc quit"
MAKING = "d new design   k cords"


def told(chosen: object, filtered: bool = False) -> str:
    """The foot, were there room for all of it."""
    return "   ".join(f"{key.shown} {key.short}" for key in row_keys(CONTENTS, chosen, filtered))


@pytest.mark.parametrize(
    ("chosen", "own"),
    [
        (ToPiece("Under way"), "Enter go on   N rename   a put away   + another"),
        (ToPiece("Finished"), "Enter open   N rename   + another"),
        (ToPiece("Put away"), "Enter look at it   a take up again   N rename   + another"),
        (ToPiece("Gone meanwhile"), "Enter go on"),
        (ToDesign(Path("/designs/Under way.yaml")), f"Enter go on   + another   p plan   e copy   {MAKING}"),
        (ToDesign(Path("/designs/Finished.yaml")), f"Enter begin   p plan   e copy   {MAKING}"),
        (ToCard("silk"), "Enter open   + new card   k cords"),
        (None, MAKING),
    ],
)
def test_each_kind_of_row_has_its_own(chosen, own) -> None:
    assert told(chosen) == f"{own}   {REST}"
    assert told(chosen, filtered=True) == f"{own}   / find   ? more   Esc show all"


def test_a_piece_renamed_elsewhere_is_the_same_row() -> None:
    renamed = Contents(pieces=(PIECES[1], piece("For Anna", 9, 28), PIECES[2]), sizes=("", "", ""))
    assert way_now(CONTENTS, renamed, ToPiece("Under way")) == ToPiece("For Anna")
    assert way_now(CONTENTS, renamed, ToPiece("Put away")) == ToPiece("Put away")
    assert way_now(CONTENTS, Contents(), ToPiece("Under way")) == ToPiece("Under way")
    assert way_now(CONTENTS, renamed, ToCard("silk")) == ToCard("silk")
