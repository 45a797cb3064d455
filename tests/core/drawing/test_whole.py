"""The whole piece in one picture: closed where that is good, else in rows, and never more than there is room for."""

from __future__ import annotations

from math import inf

import pytest

from companion.core.drawing.pixels import Palette
from companion.core.drawing.whole import LEAST_BEAD, MOST_LINKS, beads_on, closed_where_good, in_rows
from companion.core.values.design import Bead, Knot
from tests.core.drawing.test_links import DESIGNS, shipped
from tests.core.hand_plans import hand_plan

COLOURS = ((255, 0, 0), (0, 255, 0), (0, 0, 255), (255, 255, 0))


def palette_of(plan) -> Palette:
    keys = [kind.key for kind in plan.beads]
    return Palette((0, 0, 0), (255, 255, 255), (120, 120, 120), {key: COLOURS[n % 4] for n, key in enumerate(keys)})


@pytest.mark.parametrize("name", DESIGNS)
def test_what_closes_is_closed_where_its_beads_are_large_enough(data_folder, name) -> None:
    plan = shipped(data_folder, name)
    closed = closed_where_good(plan, 94, 30)
    rows = name in ("bell-rock-rope", "portland-bill-key-cord")  # a rope of 66 in; two tails that are not joined
    assert (closed is None) == rows
    if closed is not None:
        beads = [laid.link.length_mm for laid in closed.strands[0] if laid.link.kind == "bead"]
        assert sum(beads) / len(beads) * closed.pixels_per_mm >= LEAST_BEAD


def test_a_rope_is_closed_on_a_wall() -> None:
    side = (Bead("glass"), Knot("single")) * 100
    plan = hand_plan(side, closures=("endless", "endless"))
    assert closed_where_good(plan, 94, 30) is None
    assert closed_where_good(plan, 400, 200) is not None


@pytest.mark.parametrize("name", DESIGNS)
@pytest.mark.parametrize("box", [(94, 26), (44, 30), (190, 60)])
def test_rows_hold_each_bead_once_within_the_room(data_folder, name, box) -> None:
    plan = shipped(data_folder, name)
    rows = in_rows(plan, *box, palette_of(plan))
    assert sum(len(picture.rows) for picture in rows.pictures) <= box[1]
    assert all(picture.width <= box[0] for picture in rows.pictures)
    assert all(len(picture.rows) % 2 == 0 for picture in rows.pictures)
    assert rows.all_beads == sum(count for strand in plan.strands for _, count in strand.beads)
    assert 0 < rows.beads <= rows.all_beads
    if name != "inner-farne-strands" and box != (44, 30):
        assert rows.beads == rows.all_beads


def test_ten_thousand_beads_begin_as_small_as_can_be() -> None:
    side = (Bead("glass"), Knot("single")) * 10_000
    assert len(side) > MOST_LINKS
    rows = in_rows(hand_plan(side), 94, 26, palette_of(hand_plan()))
    assert 100 < rows.beads < rows.all_beads == 10_000
    assert closed_where_good(hand_plan(side, closures=("endless", "endless")), 94, 26) is None


def test_so_much_of_it_is_made_as_steps_are_done(data_folder) -> None:
    plan = shipped(data_folder, "wolf-rock-necklace")
    first, total = plan.strands[0], plan.total_steps
    assert (beads_on(plan, 0), beads_on(plan, None), beads_on(plan, total)) == (0, inf, inf)
    assert beads_on(plan, len(first.steps)) == 21
    bright = [painted_brightly(in_rows(plan, 94, 26, palette_of(plan), done)) for done in (0, total // 2, None)]
    assert bright == sorted(set(bright))


def painted_brightly(rows) -> int:
    return sum(max(pixel or (0,)) > 200 for picture in rows.pictures for row in picture.rows for pixel in row)
