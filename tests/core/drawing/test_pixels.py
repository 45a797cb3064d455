"""A row in pixels: made, present and coming differ in form, and not in shade alone."""

from __future__ import annotations

from companion.core.drawing.pixels import OUTLINE_SHARE, Palette, lit, mixed, paint_row
from companion.core.drawing.strand import drawn_strand
from tests.core.hand_plans import hand_plan

GROUND, ACCENT, CORD = (0, 0, 0), (1, 2, 255), (200, 190, 170)
PALETTE = Palette(GROUND, ACCENT, CORD, {"glass": (20, 130, 130), "silver": (190, 194, 200)})


def painted(made: int, until: int):
    strand = drawn_strand(hand_plan(), 0, 2.0)
    return strand, paint_row(strand, (0, 20), made, until, PALETTE)


def of_bead(strand, picture, element: int):
    begin, end = strand.begin(element) + 1, strand.begin(element + 1) + 1
    lead = strand.before.width
    return [row[lead + begin : lead + end] for row in picture.rows]


def test_equal_beads_in_one_state_are_painted_alike() -> None:
    strand, picture = painted(20, 20)
    beads = [of_bead(strand, picture, element) for element in (1, 3, 5)]
    assert beads[0] == beads[1] == beads[2]


def test_made_present_and_coming_differ_in_form() -> None:
    strand, picture = painted(3, 5)
    made, present, coming = (of_bead(strand, picture, element) for element in (1, 3, 5))
    assert any(pixel == ACCENT for row in present for pixel in row)  # a ring
    assert not any(pixel == ACCENT for row in made + coming for pixel in row)
    assert len({pixel for row in made for pixel in row if pixel}) > 8  # light and shade
    assert len({pixel for row in coming for pixel in row if pixel}) == 2  # an outline and its inside
    outline = mixed(GROUND, PALETTE.beads["glass"], OUTLINE_SHARE)
    assert sum(pixel == outline for row in coming for pixel in row) > 10


def test_letters_lie_on_their_beads() -> None:
    _strand, picture = painted(3, 5)
    glass = [letter for letter in picture.letters if letter.text.upper() == "G"]
    assert [letter.text for letter in glass[:3]] == ["G", "G", "g"]
    for letter in glass:
        assert picture.rows[letter.row][letter.column] is not None
    assert not any(letter.text.upper() == "S" for letter in picture.letters)  # too narrow for one


def test_the_rows_are_even_and_equal() -> None:
    _, picture = painted(3, 5)
    assert len(picture.rows) % 2 == 0
    assert {len(row) for row in picture.rows} == {picture.width}


def test_light_and_mixing() -> None:
    assert lit((100, 50, 0), 0.5) == (50, 25, 0)
    assert lit((100, 50, 0), 1) == (100, 50, 0)
    assert lit((100, 50, 0), 2) == (255, 255, 255)
    assert mixed((0, 0, 0), (100, 200, 50), 0.5) == (50, 100, 25)
