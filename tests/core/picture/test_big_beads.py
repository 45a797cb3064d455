"""The present step drawn large."""

from __future__ import annotations

from companion.core.picture.big_beads import big_beads, line_text
from companion.core.picture.marks import marks_of
from tests.core.hand_plans import GLASS, SILVER

ROUND_GLASS, DAISY = marks_of([GLASS, SILVER])


def drawn(*args) -> str:
    return "\n".join(line_text(line) for line in big_beads(*args))


def test_one_bead_and_its_knot():
    assert drawn([ROUND_GLASS], "single") == "╭─────╮   \n│  G  │─•─\n╰─────╯   "


def test_a_bead_is_drawn_by_the_word_for_its_shape():
    assert drawn([DAISY], None) == "╭┬┬┬┬┬╮\n├  S  ┤\n╰┴┴┴┴┴╯"


def test_ten_alike_are_three_and_their_number():
    assert drawn([ROUND_GLASS] * 10, "double").split("\n")[1] == "│  G  ││  G  ││  G  │ … ×10─•─"


def test_several_kinds_are_counted_as_beads():
    assert drawn([ROUND_GLASS, DAISY] * 2, None).split("\n")[1] == "│  G  │├  S  ┤│  G  │ … 4 beads"


def test_as_many_as_there_is_room_for_need_no_number():
    assert "…" not in drawn([ROUND_GLASS] * 4, None, 4)


def test_a_knot_alone_and_nothing_at_all():
    assert drawn([], "triple") == "   \n─•─\n   "
    assert drawn([], None) == "\n\n"


def test_each_stroke_knows_its_bead_so_that_colour_can_be_put_on_it():
    middle = big_beads([ROUND_GLASS, DAISY], "single")[1]
    assert [(stroke.text, stroke.bead) for stroke in middle] == [
        ("│  G  │", "glass"),
        ("├  S  ┤", "silver"),
        ("─•─", None),
    ]
