"""pieces, and finding one of them by its name."""

from __future__ import annotations


def test_a_name_that_fits_several_pieces_is_refused(companion, skerry) -> None:
    assert companion("start", skerry).out.strip() == "skerry-bracelet"
    assert companion("start", skerry).out.strip() == "skerry-bracelet-2"
    ran = companion("next", "skerry")
    assert ran.code == 1
    assert "skerry-bracelet-2 and skerry-bracelet" in ran.err
    assert companion("next", "skerry-bracelet").code == 0
    assert companion("next", "nothing").code == 1
