"""A drawing in pixels: what passes over is whole, what passes under has a gap; cords side by side are told apart."""

from __future__ import annotations

import pytest

from companion.core.drawing.pixels import Palette
from companion.core.tying.painting import paint_scene, size_at
from companion.core.tying.scene import Body, CordPath, Scene

GROUND = (20, 24, 27)
PALETTE = Palette(GROUND, (156, 192, 220), (150, 150, 150), {})
COLOURS = {
    "cord": (200, 40, 40), "other cord": (40, 40, 200), "metal": (180, 180, 180), "coil": (200, 160, 60),
    "bead": (20, 130, 130), "button": (160, 118, 76),
}  # fmt: skip
LEVEL = CordPath(((0, 13, 0), (30, 13, 0), (60, 13, 0)))
UPRIGHT = (30, 0, 4), (30, 13, 4), (30, 27, 4)


def painted(*cords, bodies=(), scale=1.0, layers=1, ground=GROUND):
    palette = Palette(ground, PALETTE.accent, PALETTE.cord, {})
    return paint_scene(Scene(cords, bodies, (), ""), scale, COLOURS, palette, layers)


def is_red(pixel):
    return pixel is not None and pixel[0] > 1.5 * pixel[2]


def is_blue(pixel):
    return pixel is not None and pixel[2] > 1.5 * pixel[0]


@pytest.mark.parametrize("scale", [0.6, 1.0])
def test_what_passes_over_is_whole_and_what_passes_under_has_a_gap(scale) -> None:
    picture = painted(LEVEL, CordPath(UPRIGHT, "other cord"), scale=scale)
    row = picture.rows[int(13 * scale)]
    middle = int(30 * scale)
    assert is_blue(row[middle])
    assert all(is_blue(line[middle]) for line in picture.rows[1 : int(26 * scale)])
    own = row[3][0]
    touching = painted(LEVEL, CordPath(tuple((x, y, 0.5) for x, y, _ in UPRIGHT), "other cord"), scale=scale)
    red, without_gap = (sum(pixel[0] for pixel in one if pixel) for one in (row, touching.rows[int(13 * scale)]))
    assert red < without_gap - own / 2
    for side in (row[: middle - 4], row[middle + 5 :]):
        assert all(is_red(pixel) and pixel[0] > 0.9 * own for pixel in side)


def test_the_order_in_which_cords_are_named_says_nothing() -> None:
    one, other = painted(LEVEL, CordPath(UPRIGHT, "other cord")), painted(CordPath(UPRIGHT, "other cord"), LEVEL)
    assert one == other


def test_a_cord_is_round_lighter_above_than_below() -> None:
    picture = painted(CordPath(LEVEL.points, radius=3))
    column = [row[30] for row in picture.rows]
    lit = [sum(pixel) for pixel in column if pixel]
    assert max(lit) in lit[: len(lit) // 2]
    assert lit[-1] < max(lit) / 2


@pytest.mark.parametrize("layers", [1, 2, 3, 8])
def test_cords_side_by_side_are_told_apart(layers) -> None:
    picture = painted(LEVEL, layers=layers, scale=2.0)
    light = [0, *(sum(pixel) if pixel else 0 for pixel in (row[60] for row in picture.rows)), 0]
    peaks = [
        here for before, here, after in zip(light, light[1:], light[2:], strict=False) if before < here >= after > 0
    ]
    assert len(peaks) == min(layers, 3)


def test_cords_of_metal_are_never_in_layers() -> None:
    metal = CordPath(LEVEL.points, "metal")
    assert painted(metal, layers=2) == painted(metal)


def test_a_bead_hides_the_cord_in_its_hole() -> None:
    bead = Body("bead", "round", (30, 13, 8), 12, 12, "G")
    picture = painted(LEVEL, bodies=(bead,))
    assert not any(is_red(pixel) for pixel in picture.rows[13][25:36])
    assert picture.letters[0].text == "G"
    assert (picture.letters[0].column, picture.letters[0].row // 2) == (30, 6)
    assert picture.rows[12][30] == picture.rows[13][30] == COLOURS["bead"]


@pytest.mark.parametrize("scale", [0.58, 0.67, 0.83, 1.0])
def test_the_picture_is_as_large_as_it_is_said_to_be(scale) -> None:
    picture = painted(LEVEL, scale=scale)
    assert (picture.width, len(picture.rows)) == size_at(scale)
    assert len(picture.rows) % 2 == 0


def test_on_a_light_page_shade_is_softer() -> None:
    dark, light = painted(LEVEL), painted(LEVEL, ground=(251, 250, 246))
    darkest = [min(sum(pixel) for row in picture.rows for pixel in row if pixel) for picture in (dark, light)]
    assert darkest[0] < darkest[1]
