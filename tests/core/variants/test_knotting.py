"""Knots in other places: the same beads in the same order, the ends as they were, a mirror still a mirror."""

from __future__ import annotations

from itertools import groupby

import pytest

from companion.core.plan.layout import expand
from companion.core.values.design import Bead, BeadRun, Knot, Mirror, Repeat, Space
from companion.core.variants.knotting import Knotting, can_be_reknotted, reknotted, rerun, usual_knot
from tests.core.random_designs import random_design

A, B, K, D = Bead("a"), Bead("b"), Knot("single"), Knot("double")


def letters(elements) -> str:
    """ "a", "b" for beads, "." for a knot."""
    return "".join(one.key if isinstance(one, Bead) else "." for one in elements)


@pytest.mark.parametrize(
    ("layout", "count", "knotting", "wanted"),
    [
        ((K, Repeat(None, (A, K))), 7, Knotting(1), ".a.a.a.a.a.a.a."),
        ((K, Repeat(None, (A, K))), 7, Knotting(2), ".aa.aa.aa.a."),
        ((K, Repeat(None, (A, K))), 7, Knotting(3), ".aaa.aaa.a."),
        ((Repeat(None, (A, A, B, K)), A, A), 2, Knotting(2), "aa.ba.ab.aa"),
        ((Repeat(None, (A, A, B, K)), A, A), 2, Knotting(around="b"), "aa.b.aa.b.aa"),
        ((K, Mirror((Repeat(None, (A, K)),), (B,)), K), 3, Knotting(2), ".aa.a.b.a.aa."),
        ((K, Mirror((Repeat(None, (A, K)),), (B,)), K), 4, Knotting(2), ".aa.aa.b.aa.aa."),
        ((Mirror((K, Repeat(None, (A, K))), ()),), 3, Knotting(2), ".aa.a.a.aa."),
        ((Mirror((K, A, K, A), (B, K, B)),), 1, Knotting(3), ".aa.bb.aa."),
        ((K, Mirror((Repeat(None, (A, K)),), (B,)), K), 3, Knotting(around="b"), ".aaa.b.aaa."),
        ((A,), 1, Knotting(2), "a"),
    ],
)
def test_where_the_knots_go(layout, count, knotting, wanted) -> None:
    assert letters(reknotted(layout, count, knotting, "single")) == wanted


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("every", [1, 2, 3])
def test_the_beads_stay_and_no_group_is_longer(seed, every) -> None:
    for strand in random_design(seed).strands:
        before = expand(strand.layout, 3)
        if not can_be_reknotted(before):
            continue
        after = reknotted(strand.layout, 3, Knotting(every), "double")
        beads = [one for one in before if isinstance(one, Bead)]
        assert [one for one in after if isinstance(one, Bead)] == beads
        first, last = before.index(beads[0]), len(before) - before[::-1].index(beads[-1])
        lead, tail = tuple(before[:first]), tuple(before[last:])
        assert after[: len(lead)] == lead
        assert after[len(after) - len(tail) :] == tail
        inside = after[len(lead) : len(after) - len(tail)]
        assert {one.kind for one in inside if isinstance(one, Knot)} <= {"double"}
        runs = [len(list(run)) for knot, run in groupby(inside, key=lambda one: isinstance(one, Knot))]
        assert max(runs) <= every  # beads together; knots always alone


@pytest.mark.parametrize("every", [1, 2, 3, 4])
@pytest.mark.parametrize("count", range(1, 12))
def test_a_mirror_stays_a_mirror(every, count) -> None:
    layout = (K, Mirror((Repeat(None, (A, B, K)), D), (B,)), K)
    made = reknotted(layout, count, Knotting(every), "single")
    assert made == made[::-1]


def test_not_where_bare_cord_lies_between_the_beads_nor_with_one_bead() -> None:
    assert can_be_reknotted([Space(60), K, A, A, K, Space(60)])
    assert not can_be_reknotted([K, A, K, Space(10), K, A, K])
    assert not can_be_reknotted([K, A, K])
    assert not can_be_reknotted([K, K])


def test_the_usual_knot_is_the_one_between_the_beads() -> None:
    assert usual_knot([D, D, D, A, K, A, D]) == "single"
    assert usual_knot([D, A, A, D]) == "double"
    assert usual_knot([A, A]) == "single"


def test_a_run_says_itself_where_its_knots_go() -> None:
    assert rerun((K, BeadRun("a", None, 4), A, A, K), 2) == (K, BeadRun("a", None, 2), A, A, K)
    assert rerun((BeadRun("a", None, 4), K, B), 2) is None  # a knot of its own between them
    assert rerun((BeadRun("a", None, 4), Repeat(2, (B, K))), 2) is None
    assert rerun((Mirror((BeadRun("a", None, 1),), (B,)),), 3) is None
    assert rerun((A, B), 2) is rerun((K, K), 2) is None
    assert rerun((Repeat(None, (A, K)),), 2) is None
