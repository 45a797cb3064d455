"""The rest of a strand by each way out: one scale for all, true to the plan, from before where they differ."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from companion.core.drawing.pixels import Palette, Pixels
from companion.core.drawing.rests import BEFORE, rest_pictures
from companion.core.values.design import Bead, Knot, Space
from tests.core.hand_plans import hand_plan, skerry_elements

PALETTE = Palette((0, 0, 0), (0, 0, 255), (90, 90, 90), {"glass": (0, 120, 120), "silver": (200, 200, 200)})
REST = skerry_elements()[20:]


def letters(picture: Pixels) -> str:
    return "".join(letter.text for letter in sorted(picture.letters, key=lambda letter: letter.column))


def test_one_bead_more_makes_it_longer_by_that_bead() -> None:
    plan, more = hand_plan(closures=("", "endless")), (*REST, Bead("glass"), Knot("single"))
    now, then, bare = rest_pictures(plan, 0, [REST, more, (*REST, Space(20.0))], 200, PALETTE)
    assert letters(then) == letters(now) + "G"
    assert then.width > now.width
    assert bare.width > now.width
    assert letters(bare) == letters(now)
    assert all(pixel is None for pixel in bare.rows[0][now.width :])


@given(st.integers(20, 160), st.integers(0, 40), st.integers(1, 200))
def test_none_is_wider_than_its_place(room, differ, more) -> None:
    plan = hand_plan(closures=("", "French wire and clasp"))
    rest = REST * 3
    other = (*rest[:differ], *(Bead("silver"), Knot("double")) * more, *rest[differ:])
    pictures = rest_pictures(plan, 0, [rest, other], room, PALETTE)
    assert all(0 < picture.width <= room for picture in pictures)
    assert len({len(picture.rows) for picture in pictures}) == 1


def test_where_all_has_no_room_it_begins_before_what_differs() -> None:
    plan, rest = hand_plan(closures=("", "endless")), (Bead("glass"), Knot("single")) * 100
    other = (*rest[:100], Bead("silver"), *rest[100:])
    now, then = rest_pictures(plan, 0, [rest, other], 40, PALETTE)
    silver = [n for n, column in enumerate(zip(*then.rows, strict=True)) if any(p and min(p) > 150 for p in column)]
    assert silver
    assert silver[0] < (BEFORE + 1) * 10
    assert now != then


def test_with_nothing_left_there_is_nothing_to_draw() -> None:
    now, then = rest_pictures(hand_plan(closures=("", "endless")), 0, [(), (Bead("glass"),)], 40, PALETTE)
    assert not now.letters
    assert letters(then) == "G"
