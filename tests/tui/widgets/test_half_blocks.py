"""Two pixels in each character, letters on top."""

from __future__ import annotations

import pytest
from rich.style import Style

from companion.core.drawing.pixels import Letter, Pixels
from companion.core.values.colour_sets import COLOUR_SETS
from companion.tui.contrast import Terminal
from companion.tui.themes import ground_in
from companion.tui.widgets.half_blocks import line_of
from tests.tui.painted import contrast

RED, BLUE, NONE = (200, 0, 0), (0, 0, 200), None
GROUND = ground_in("lamp", Terminal())


def drawn(pixels: Pixels, line: int = 0):
    segments = line_of(pixels, line, GROUND, Style())
    return [(s.text, *(c and tuple(c.get_truecolor()) for c in (s.style.color, s.style.bgcolor))) for s in segments]


def test_each_pair_of_pixels() -> None:
    pixels = Pixels(((RED, RED, NONE, NONE), (RED, NONE, BLUE, NONE)))
    assert drawn(pixels) == [("▀", RED, RED), ("▀", RED, None), ("▄", BLUE, None), (" ", None, None)]


def test_equal_neighbours_are_one_stretch() -> None:
    assert drawn(Pixels(((RED,) * 5, (BLUE,) * 5))) == [("▀" * 5, RED, BLUE)]


@pytest.mark.parametrize("name", COLOUR_SETS)
@pytest.mark.parametrize("body", [RED, BLUE, (120, 120, 120), (250, 250, 250)])
def test_a_letter_can_be_read_on_its_bead(name, body) -> None:
    pixels = Pixels(((body,) * 3, (body,) * 3), (Letter(1, 0, "G"),))
    ground = ground_in(name, Terminal())
    segments = line_of(pixels, 0, ground, Style())
    (letter,) = [segment for segment in segments if segment.text == "G"]
    ink, plate = (tuple(c.get_truecolor()) for c in (letter.style.color, letter.style.bgcolor))
    assert contrast(ink, plate) >= ground.letters
