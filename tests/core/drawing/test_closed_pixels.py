"""A closed piece in pixels: a bead of a kind as large as every other, each in its own colour, letters on them."""

from __future__ import annotations

import os
from math import pi, sqrt
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.drawing.closed import Closed, closed_piece
from companion.core.drawing.closed_pixels import LETTERED, paint_closed
from companion.core.drawing.links import chains_of
from companion.core.drawing.pixels import Palette, Pixels
from companion.core.picture.colours import contrast_ratio
from companion.core.picture.marks import letters_of
from companion.core.plan.plan import Plan
from companion.workshop import open_at
from tests.conftest import REPO
from tests.core.hand_plans import GOLDEN, hand_plan

GROUND = (0, 0, 0)
CHANNELS = ((255, 0, 0), (0, 255, 0), (0, 0, 255))  # a kind of bead each; cord and metal are grey


def palette_of(plan: Plan) -> Palette:
    kinds = [kind.key for kind in plan.beads]
    return Palette(GROUND, (255, 255, 255), (120, 120, 120), {key: CHANNELS[n % 3] for n, key in enumerate(kinds)})


def closed_of(plan: Plan, width: int, height: int) -> Closed:
    return closed_piece(chains_of(plan), width, height)


def as_text(plan: Plan, picture: Pixels) -> str:
    """A character a pixel: the letter of the bead that it is most of, "-" for cord and metal."""
    letters = letters_of(plan.beads)
    signs = {CHANNELS[n % 3].index(255): letters[kind.key] for n, kind in enumerate(plan.beads)}

    def sign(colour) -> str:
        if colour is None or max(colour) < 40:
            return " "
        strongest = max(range(3), key=lambda channel: colour[channel])
        return signs[strongest] if sum(colour) - max(colour) < 1.3 * max(colour) else "-"

    return "\n".join("".join(map(sign, row)).rstrip() for row in picture.rows) + "\n"


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        ("skerry-bracelet", 94, 30), ("skerry-bracelet", 60, 60), ("fastnet-cuff", 94, 30),
        ("inner-farne-strands", 110, 60),
    ],
)  # fmt: skip
def test_the_picture_is_as_it_was_looked_at(data_folder: Path, name: str, width: int, height: int) -> None:
    plan = open_at(data_folder).plan(REPO / "patterns" / f"{name}.yaml").plan
    assert plan is not None
    drawn = as_text(plan, paint_closed(closed_of(plan, width, height), palette_of(plan)))
    place = GOLDEN / f"closed-{name}-{width}x{height}.txt"
    if os.environ.get("UPDATE_GOLDEN"):
        place.write_text(drawn, encoding="utf-8")
    assert drawn == place.read_text(encoding="utf-8")


def test_beads_of_a_kind_are_equally_large_all_round() -> None:
    """Each painted alone: a circle of as many pixels is as wide as that of any other of its kind, to half a pixel."""
    plan = hand_plan(closures=("endless", "endless"))
    closed, palette = closed_of(plan, 100, 44), palette_of(plan)
    for key in palette.beads:
        sizes = []
        for laid in closed.strands[0]:
            if laid.link.key == key:
                alone = paint_closed(replace(closed, strands=((laid,),)), palette)
                area = sum(max(colour or (0,)) > 60 for row in alone.rows for colour in row)
                sizes.append(2 * sqrt(area / pi))
        assert len(sizes) == dict(plan.strands[0].beads)[key]
        assert min(sizes) > 0
        assert max(sizes) - min(sizes) <= 0.5


def test_each_bead_shows_in_its_own_colour_in_the_middle() -> None:
    plan = hand_plan(closures=("endless", "endless"))
    closed, palette = closed_of(plan, 120, 50), palette_of(plan)
    picture = paint_closed(closed, palette)
    for laid in closed.strands[0]:
        if laid.link.kind == "bead":
            colour = picture.rows[int(laid.y)][int(laid.x)]
            own = palette.beads[laid.link.key].index(255)
            assert colour[own] == max(colour) > 100


def test_letters_are_on_beads_that_have_room_and_can_be_left_out() -> None:
    plan = hand_plan(closures=("endless", "endless"))
    large = closed_of(plan, 160, 70)
    assert 6 * large.pixels_per_mm >= LETTERED > 2 * large.pixels_per_mm
    written = paint_closed(large, palette_of(plan)).letters
    assert [letter.text for letter in written] == ["G"] * 21
    assert paint_closed(large, palette_of(plan), letters=False).letters == ()
    assert paint_closed(closed_of(plan, 60, 26), palette_of(plan)).letters == ()


def test_the_rows_are_equal_and_even_in_number() -> None:
    picture = paint_closed(closed_of(hand_plan(closures=("endless", "endless")), 71, 31), palette_of(hand_plan()))
    assert len(picture.rows) % 2 == 0
    assert {len(row) for row in picture.rows} == {picture.width}


def test_findings_are_seen_on_any_page() -> None:
    plan = hand_plan(closures=("knotted to the clasp", "knotted to the clasp"))
    plan = replace(plan, strands=(replace(plan.strands[0], closure_length_mm=24.0),))
    for ground in ((0, 0, 0), (251, 250, 246)):
        palette = replace(palette_of(plan), ground=ground)
        top = paint_closed(closed_of(plan, 100, 60), palette).rows[: 60 // 4]
        middle = [colour for row in top for colour in row[44:56] if colour]
        assert max(contrast_ratio(ground, colour) for colour in middle) >= 3


def test_what_is_to_come_is_only_outlined() -> None:
    plan = hand_plan(closures=("endless", "endless"))
    closed, palette = closed_of(plan, 160, 70), palette_of(plan)
    picture = paint_closed(closed, palette, beads_on=10)
    beads = [laid for laid in closed.strands[0] if laid.link.kind == "bead"]
    brightness = [
        max(picture.rows[int(laid.y) - 3][int(laid.x) + 2] or (0,)) for laid in beads if laid.link.key == "glass"
    ]
    assert min(brightness[:10]) > 3 * max(brightness[10:])
    assert [letter.text for letter in picture.letters] == ["G"] * 10 + ["g"] * 11
    whole = paint_closed(closed, palette)
    assert paint_closed(closed, palette, beads_on=23) == whole
    nothing = paint_closed(closed, palette, beads_on=0)
    assert all(letter.coming for letter in nothing.letters)
