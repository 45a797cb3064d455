"""What a piece says of itself."""

from __future__ import annotations

from companion.core.journal.events import CutEntered, Started
from companion.core.journal.fold import fold


def test_the_latest_length_of_a_cord_is_the_one_that_was_cut() -> None:
    piece = fold([Started(3), CutEntered(0, 900.0, "90 cm"), CutEntered(1, 700.0, "70 cm"), CutEntered(0, 910.0, "91")])
    assert (piece.cut_mm(0), piece.cut_mm(1), piece.cut_mm(2)) == (910.0, 700.0, None)
