"""What a cord makes of a design: against every count planned one by one, and a plan of the piece that is found."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.cord.cord import CardFigures, written
from companion.core.plan.layout import LayoutCount
from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    MOST_ELEMENTS,
    Bead,
    BeadRun,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Space,
)
from companion.core.variants.reach import needs_mm, reach, with_count
from companion.storage.design.files import read_design
from tests.core.hand_designs import bead, design, knots
from tests.core.random_designs import random_design

A, B, K = Bead("b"), Bead("c"), Knot("single")
CORD = CordDesign("linen", 0.7, knots=knots(6, 2))
FITS = [seed for seed in range(60) if any(LayoutCount.of(s.layout).holds_fit for s in random_design(seed).strands)]


def written_out(items, count: int) -> tuple:
    """The count for every `fit`, a second way: by hand, item by item."""
    made: list[object] = []
    for item in items:
        if isinstance(item, Repeat):
            made.append(Repeat(item.count or count, written_out(item.of, count)))
        elif isinstance(item, Mirror):
            made.append(Mirror(written_out(item.side, count), written_out(item.middle, count)))
        elif isinstance(item, BeadRun):
            made.append(BeadRun(item.key, item.count or count, item.knot_every))
        else:
            made.append(item)
    return tuple(made)


def at_count(made: Design, count: int) -> Design:
    return replace(made, strands=tuple(replace(s, layout=written_out(s.layout, count)) for s in made.strands))


def cord_of_plan(made: Design, count: int) -> float:
    plan = compile_plan(at_count(made, count))
    return sum(cut.cut_mm for cut in plan.cuts) + sum(extra.cut_mm for extra in plan.extra_cords)


@pytest.mark.parametrize("seed", FITS[:25])
def test_the_most_of_every_count_that_is_tried_one_by_one(seed) -> None:
    made = random_design(seed)
    needs = [cord_of_plan(made, count) for count in range(1, 16)]
    for cord_mm in (needs[0] - 1.0, needs[0], needs[0] + 1.0, needs[6], needs[9] - 0.01, needs[12] + 5.0):
        enough = [count for count, need in enumerate(needs, start=1) if need <= cord_mm]
        found = reach(made, cord_mm)
        assert (found.made.count if found.made else 0) == max(enough, default=0)
        assert found.beyond is not None
        assert found.beyond.count == max(enough, default=0) + 1
        assert found.beyond.needs_mm > cord_mm


@pytest.mark.parametrize(("name", "cord_mm"), [("skerry-bracelet", 1000), ("bell-rock-rope", 2000),
                                               ("start-point-band", 1500), ("wolf-rock-necklace", 900)])  # fmt: skip
def test_a_plan_made_to_the_length_that_is_found_has_that_cut(patterns, name, cord_mm) -> None:
    """A second way: the design sized to that length, its count for `fit` left to the plan."""
    made = read_design(patterns / f"{name}.yaml").design
    assert made is not None
    found = reach(made, cord_mm)
    for one in (found.made, found.beyond):
        assert one is not None
        sized = compile_plan(replace(made, size=Size("length", one.plan.finished_length_mm)))
        assert sized.fit == one.count
        assert sized.cuts == one.plan.cuts
        assert needs_mm(sized) == one.needs_mm
    assert found.made.needs_mm <= cord_mm < found.beyond.needs_mm
    assert found.designed.plan == compile_plan(made)


def test_the_separate_cord_of_a_sliding_knot_comes_out_of_it_too() -> None:
    made = design([Repeat(None, (A, K))], CORD, [bead(6)], Size("length", 150.0), End("sliding knot"),
                  End("sliding knot"))  # fmt: skip
    found = reach(made, 800.0)
    assert found.made is not None
    (extra,) = found.made.plan.extra_cords
    assert found.made.needs_mm == found.made.plan.cuts[0].cut_mm + extra.cut_mm


def test_at_her_own_risk_and_by_her_card() -> None:
    made = design([Repeat(None, (A, K))], CordDesign("silk", 0.5), [bead(6)], Size("length", 150.0))
    card = CardFigures("silk", (("single", written(KnotNumbers(9, 3))),))
    sure, bold = reach(made, 2000.0, card, 0.001), reach(made, 2000.0, card, 0.2)
    assert sure.made is not None
    assert bold.made is not None
    assert sure.made.count < bold.made.count
    assert bold.made.plan == compile_plan(at_count(made, bold.made.count), card, risk=0.2)


def test_without_fit_it_counts_by_the_repeat_that_makes_the_most() -> None:
    layout = [Repeat(2, (B, K)), Repeat(20, (A, K)), BeadRun("c", 3, None)]
    made = design(layout, CORD, [bead(6), bead(5, key="c")])
    need = cord_of_plan(design([layout[0], Repeat(13, (A, K)), layout[2]], CORD, [bead(6), bead(5, key="c")]), 1)
    found = reach(made, need)
    assert found.made is not None
    assert (found.made.count, found.made.needs_mm) == (13, need)
    assert found.designed.count == 20
    assert found.designed.plan == compile_plan(made)


def test_of_a_mirror_without_fit_both_sides_grow() -> None:
    made = design([K, Mirror((Repeat(6, (A, K)), B), (A,)), K], CORD, [bead(6), bead(5, key="c")])
    found = reach(made, 10_000.0)
    assert found.made is not None
    elements = found.made.plan.strands[0].elements
    assert elements == elements[::-1]
    assert dict(found.made.plan.strands[0].beads) == {"b": 2 * found.made.count + 1, "c": 2}
    assert found.designed.count == 6


@pytest.mark.parametrize("layout", [[A, K, A, K, B], [Repeat(3, (K,)), A, A], [A, Space(20), A]])
def test_where_nothing_repeats_it_is_enough_or_not(layout) -> None:
    made = design(layout, CORD, [bead(6), bead(5, key="c")])
    need = needs_mm(compile_plan(made))
    enough, short = reach(made, need), reach(made, need - 0.5)
    assert enough.made == enough.designed
    assert enough.beyond is None
    assert short.made is None
    assert short.beyond == short.designed
    assert enough.designed.count == 0


def test_several_strands_without_fit_stay_as_they_are(patterns) -> None:
    made = read_design(patterns / "inner-farne-strands.yaml").design
    assert made is not None
    assert reach(made, 8000.0).made == reach(made, 8000.0).designed


def test_what_no_plan_is_made_of_ends_it() -> None:
    made = design([Repeat(None, (A, K))], CORD, [bead(6)], Size("length", 150.0))
    found = reach(made, 1e9)
    assert found.made is not None
    assert found.made.count == MOST_ELEMENTS // 2
    assert found.beyond is None


def test_with_count_writes_out_every_fit() -> None:
    made = design([Repeat(None, (BeadRun("b", None, 2), Mirror((Repeat(None, (A,)),), (B,))))], CORD, [bead(6)])
    assert with_count(made, 4) == at_count(made, 4)
