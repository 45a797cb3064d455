"""pieces, and finding one of them by its name."""

from __future__ import annotations


def test_a_name_that_fits_several_pieces_is_refused(tallycord, skerry) -> None:
    assert tallycord("start", skerry).out.strip() == "skerry-bracelet"
    assert tallycord("start", skerry).out.strip() == "skerry-bracelet-2"
    ran = tallycord("next", "skerry")
    assert ran.code == 1
    assert "skerry-bracelet-2 and skerry-bracelet" in ran.err
    assert tallycord("next", "skerry-bracelet").code == 0
    assert tallycord("next", "nothing").code == 1
