"""The same piece made otherwise: each variant against a plan that was made a second way."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import CardFigures, written
from companion.core.plan.layout import expand
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadRun, CordDesign, Design, End, Knot, KnotNumbers, Repeat, Size, Space
from companion.core.variants.knotting import can_be_reknotted, reknotted, usual_knot
from companion.core.variants.variants import Variant, Way, variants
from companion.storage.design.files import read_design
from tests.core.hand_designs import bead, design, knots

A, K = Bead("b"), Knot("single")
CORD = CordDesign("linen", 0.7, knots=knots(6, 2))


def shipped(path) -> Design:
    made = read_design(path).design
    assert made is not None
    return made


def of(found: tuple[Variant, ...], **way: object) -> Variant:
    return next(one for one in found if all(getattr(one.way, name) == value for name, value in way.items()))


def every(found: tuple[Variant, ...], number: int) -> Variant:
    return next(one for one in found if one.way.knotting and one.way.knotting.every == number)


def test_every_second_bead_at_the_count_that_fits_best() -> None:
    """A second way: every count from 1 to 60 written out by hand and planned, the nearest taken."""
    made = design([K, Repeat(None, (A, K))], CORD, [bead(7)], Size("length", 200.0))
    best = None
    for count in range(1, 61):
        elements: list[object] = [K]
        for number in range(1, count + 1):
            elements.append(A)
            if number % 2 == 0 and number < count:
                elements.append(K)
        plan = compile_plan(design([*elements, K], CORD, [bead(7)], Size("length", 200.0)))
        off_mm = abs(plan.finished_length_mm - 200.0)
        if best is None or off_mm < best[0] - 1e-9:
            best = off_mm, count, plan
    found = every(variants(made), 2)
    assert best is not None
    assert found.fit == best[1]
    assert found.plan is not None
    assert found.plan.strands[0].elements == best[2].strands[0].elements
    assert found.plan.cuts == best[2].cuts
    assert found.plan.finished_length_mm == best[2].finished_length_mm


FITTED = ["skerry-bracelet", "bell-rock-rope", "wolf-rock-necklace", "fastnet-cuff", "muckle-flugga-necklace"]


@pytest.mark.parametrize("name", FITTED)
def test_no_other_count_comes_nearer(patterns, name) -> None:
    """Of mirrors, sides worked from the middle, wraps and wrists: every count written out and planned whole."""
    made = shipped(patterns / f"{name}.yaml")
    (strand,) = made.strands
    kind = usual_knot(expand(strand.layout, 2))
    for one in variants(made):
        if one.way.knotting is None or one.as_designed:
            continue
        best = None
        for count in range(1, 61):
            layout = reknotted(strand.layout, count, one.way.knotting, kind)
            plan = compile_plan(replace(made, strands=(replace(strand, layout=layout),)))
            assert plan.target_mm is not None
            off_mm = abs(plan.finished_length_mm - plan.target_mm)
            if best is None or off_mm < best[0] - 1e-9:
                best = off_mm, count, plan
        assert best is not None
        assert (one.fit, one.plan) == best[1:]


def test_the_design_itself_is_its_own_plan_and_comes_once_on_each_axis(patterns) -> None:
    for path in sorted(patterns.glob("*.yaml")):
        made = shipped(path)
        found = variants(made)
        for axis in ("knots", "cord", "closure"):
            (designed,) = [one for one in found if one.way.axis == axis and one.as_designed]
            assert designed.plan == compile_plan(made)
            assert designed.new_warnings == ()


def test_what_comes_to_the_same_comes_once(patterns) -> None:
    found = variants(shipped(patterns / "rattray-head-wrap.yaml"))  # net, cork, net, cork: around either is around all
    elements = [tuple(s.elements for s in one.plan.strands) for one in found if one.way.axis == "knots" and one.plan]
    assert len(elements) == len(set(elements)) == 3


def test_a_run_keeps_its_own_words(patterns) -> None:
    made = shipped(patterns / "longstone-necklace.yaml")
    found = variants(made)
    for number in (1, 2, 3):
        (strand,) = made.strands
        first, *rest = strand.layout
        assert isinstance(first, BeadRun)
        again = replace(strand, layout=(BeadRun(first.key, None, number), *rest))
        assert every(found, number).plan == compile_plan(replace(made, strands=(again,)))


def test_the_other_number_of_cords_goes_by_the_estimate_where_figures_were_measured() -> None:
    made = design([Repeat(30, (A, K))], replace(CORD, layers=2), [bead(6, hole_mm=2.0)])
    found = variants(made)
    single, doubled = of(found, layers=1), of(found, layers=2)
    guessed = CordDesign("linen", 0.7, layers=1)
    assert single.plan == compile_plan(replace(made, cord=guessed))
    assert single.estimated
    assert doubled.as_designed
    assert not doubled.estimated
    unmeasured = variants(replace(made, cord=CordDesign("linen", 0.7, layers=2)))
    assert not of(unmeasured, layers=1).estimated  # as much of an estimate as the design is
    three = variants(replace(made, cord=replace(CORD, layers=3)))
    assert [one.way.layers for one in three if one.way.axis == "cord"] == [1, 2, 3]


def test_a_cards_figures_stand_for_its_own_number_of_cords_alone() -> None:
    made = design([Repeat(30, (A, K))], CordDesign("silk", 0.5, layers=2), [bead(6)])
    card = CardFigures("silk", (("single", written(KnotNumbers(9, 3))),), diameter_mm=0.5, layers=2)
    found = variants(made, card, risk=0.05)
    assert every(found, 2).plan == compile_plan(
        replace(made, strands=(replace(made.strands[0], layout=every(found, 2).plan.strands[0].elements),)), card,
        risk=0.05,
    )  # fmt: skip
    assert of(found, layers=1).estimated
    assert of(found, layers=1).plan == compile_plan(replace(made, cord=CordDesign("silk", 0.5)), risk=0.05)


def test_every_closure_at_both_ends_with_its_usual_figures(patterns) -> None:
    made = shipped(patterns / "skerry-bracelet.yaml")
    found = {one.way.closure: one for one in variants(made) if one.way.axis == "closure"}
    assert list(found) == list(CLOSURES)
    for closure, one in found.items():
        if closure in ("bead tip and clasp", "French wire and clasp"):
            continue
        strands = tuple(replace(strand, start=End(closure), end=End(closure)) for strand in made.strands)
        assert one.plan == compile_plan(replace(made, strands=strands)), closure
    wired = found["French wire and clasp"].plan
    assert wired is not None
    ends = wired.strands[0].elements[0], wired.strands[0].elements[-1]
    assert all(isinstance(end, Bead) for end in ends)  # a coil lies against a bead
    assert "knot beside the coil" not in {warning.code for warning in wired.warnings}


def test_ends_that_differ_are_as_designed_apart() -> None:
    made = design([Repeat(12, (A, K))], CORD, [bead(6)], None, End("bead tip and clasp"), End("plain tail"))
    closures = [one for one in variants(made) if one.way.axis == "closure"]
    assert closures[0].way == Way("closure")
    assert closures[0].as_designed
    assert len(closures) == 1 + len(CLOSURES)


def test_bare_cord_between_beads_keeps_its_knots() -> None:
    made = design([Repeat(6, (K, A, K, Space(20)))], CORD, [bead(6)])
    (only,) = [one for one in variants(made) if one.way.axis == "knots"]
    assert only.as_designed


def test_a_fit_of_knots_alone_is_left_alone() -> None:
    made = design([Repeat(None, (K,)), A, A], CORD, [bead(6)], Size("length", 120.0))
    (only,) = [one for one in variants(made) if one.way.axis == "knots"]
    assert only.as_designed


def test_a_warning_is_new_only_where_the_design_has_it_not() -> None:
    made = design([Repeat(24, (A, K))], CORD, [bead(6, hole_mm=1.0)], Size("length", 190.0))
    found = variants(made)
    told = {(one.code, one.where) for one in compile_plan(made).warnings}
    for one in found:
        assert one.plan is not None
        assert {(w.code, w.where) for w in one.new_warnings} == {(w.code, w.where) for w in one.plan.warnings} - told
    assert "may not pass" in {w.code for w in of(found, closure="endless").new_warnings}


def test_the_largest_design_is_compared_too() -> None:
    made = design([Repeat(None, (A, K))], CORD, [bead(2)], Size("length", 20_000.0))
    found = variants(made)
    assert can_be_reknotted(expand(made.strands[0].layout, 3))
    assert every(found, 3).plan is not None
    assert every(found, 3).plan.finished_length_mm == pytest.approx(20_000.0, abs=3.0)
