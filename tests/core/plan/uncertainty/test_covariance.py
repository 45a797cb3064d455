"""The model's spreads and covariances: by hand, by identities, and against every knot and bead written out."""

from __future__ import annotations

import random
from math import sqrt

import numpy as np
import pytest
from msgspec.structs import replace

from companion.core.cord.cord import FIRM, Cord, KnotFigures
from companion.core.plan.planner import compile_plan
from companion.core.plan.uncertainty.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, Knot, Space
from tests.core.oracles.dense import Dense
from tests.core.random_designs import random_design

G, S, K, D = Bead("g"), Bead("s"), Knot("single"), Knot("double")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 9, 5, 1.0))
NOTHING = replace(
    USUAL, piece_cv=0, bead_lot_cv=0, bead_scatter_cv=0, tension_walk_by_end_cv=0, strand_scale_cv=0
)  # fmt: skip


def figures(take_up=6.0, length=2.0, take_up_sd=0.0, length_sd=0.0, take_up_scatter=0.0, length_scatter=0.0):
    return KnotFigures(take_up, length, take_up_sd, length_sd, take_up_scatter, length_scatter, 14.0, "design")


def cord(single: KnotFigures, double: KnotFigures | None = None) -> Cord:
    return Cord("silk", 0.45, 1, "silk", False, single, double or single, single)


def test_a_place_alone_knows_its_planned_length() -> None:
    model = CovarianceModel.of(cord(figures()), KINDS, [[G, K, Space(5.0), S, K]], USUAL)
    assert [model.mean_mm(Quantity(0, n, STRAND)) for n in range(6)] == [0, 6, 8, 13, 22, 24]
    assert [model.mean_mm(Quantity(0, n, CORD)) for n in range(6)] == [0, 6, 14, 19, 28, 36]


def test_scatter_of_knots_adds_in_squares_with_its_correlation() -> None:
    """25 knots, each 0.7 of take-up and 0.2 of length at correlation 0.5: sd 5 √(0.49 + 0.04 + 0.14)."""
    model = CovarianceModel.of(cord(figures(take_up_scatter=0.7, length_scatter=0.2)), KINDS, [[G, K] * 25], NOTHING)
    spread = model.need_spread(0)
    assert spread.sd_mm == pytest.approx(5 * sqrt(0.67), abs=1e-12)
    assert spread.degrees > FIRM
    assert model.strand_sd_mm([0]) == pytest.approx(1.0, abs=1e-12)


def test_a_card_is_wrong_for_all_its_knots_at_once() -> None:
    """25 knots of a card known to 0.4 and 0.1: sd 25 √(0.16 + 0.01 + 0.04), and the card's own degrees."""
    model = CovarianceModel.of(cord(figures(take_up_sd=0.4, length_sd=0.1)), KINDS, [[G, K] * 25], NOTHING)
    spread = model.need_spread(0)
    assert spread.sd_mm == pytest.approx(25 * sqrt(0.21), abs=1e-12)
    assert spread.degrees == pytest.approx(14.0, rel=1e-9)


def test_degrees_by_welch_satterthwaite() -> None:
    """JCGM 100:2008, G.4.1: the whole variance squared over Σ variance² / degrees; scatter has no end of them."""
    one, two = figures(take_up_sd=0.4, take_up_scatter=0.7), figures(11.0, 3.4, take_up_sd=0.9)
    model = CovarianceModel.of(cord(one, two), KINDS, [[G, K] * 25 + [S, D] * 6], NOTHING)
    card_one, card_two, scatter = (25 * 0.4) ** 2, (6 * 0.9) ** 2, 25 * 0.7**2
    whole = card_one + card_two + scatter
    spread = model.need_spread(0)
    assert spread.sd_mm == pytest.approx(sqrt(whole), rel=1e-12)
    assert spread.degrees == pytest.approx(whole**2 / (card_one**2 / 14 + card_two**2 / 14), rel=1e-9)


def test_a_tighter_piece_is_tighter_in_every_knot() -> None:
    """Piece effect alone, 6 % each of 25 × 2 and 25 × 6 mm at correlation 0.5: 3, 9 and √(9 + 81 + 27)."""
    model = CovarianceModel.of(cord(figures()), KINDS, [[G, K] * 25], replace(NOTHING, piece_cv=0.06))
    assert model.strand_sd_mm([0]) == pytest.approx(3.0, abs=1e-12)
    assert model.need_spread(0).sd_mm == pytest.approx(sqrt(117), abs=1e-12)


def test_a_card_with_a_finished_piece_behind_it_is_trusted_more() -> None:
    """8 % of 25 × (2, 6) mm until then, 5 % after: √(4² + 12² + 48) = √208 of cord, and √(2.5² + 7.5² + 18.75)."""
    assert (USUAL.piece_cv, USUAL.practised_piece_cv) == (0.08, 0.05)
    only_the_piece = replace(NOTHING, piece_cv=USUAL.piece_cv)
    for practised, variance_mm2 in ((False, 208.0), (True, 81.25)):
        made = replace(cord(figures()), practised=practised)
        model = CovarianceModel.of(made, KINDS, [[G, K] * 25], only_the_piece)
        assert model.need_spread(0).sd_mm == pytest.approx(sqrt(variance_mm2), abs=1e-12)


def test_a_lot_runs_long_in_every_bead_of_its_kind_and_in_no_other() -> None:
    """2 % of 25 × 6 and of 6 × 9 mm: √(3² + 1.08²); beads' own scatter at 1.5 %: √(25 × 0.09² + 6 × 0.135²)."""
    beads = [G] * 25 + [S] * 6
    lots = CovarianceModel.of(cord(figures()), KINDS, [beads], replace(NOTHING, bead_lot_cv=0.02))
    assert lots.strand_sd_mm([0]) == pytest.approx(sqrt(9 + 1.08**2), abs=1e-12)
    scatter = CovarianceModel.of(cord(figures()), KINDS, [beads], replace(NOTHING, bead_scatter_cv=0.015))
    assert scatter.need_spread(0).sd_mm == pytest.approx(sqrt(25 * 0.09**2 + 6 * 0.135**2), abs=1e-12)


def test_the_walk_of_tension_by_its_closed_form() -> None:
    """Equal knots: Σ min(m, n) over n × n is n (n + 1)(2 n + 1) / 6; the last knot's own factor has sd 1 %."""
    model = CovarianceModel.of(cord(figures()), KINDS, [[K] * 40], replace(NOTHING, tension_walk_by_end_cv=0.01))
    assert model.strand_sd_mm([0]) == pytest.approx(2 * 0.01 * sqrt(41 * 81 / 6), rel=1e-12)
    last_two = [Quantity(0, n, STRAND) for n in (39, 40)]
    last_knot = sum(sign * model.covariance(a, b) for a in last_two for b in last_two for sign in [1 if a == b else -1])
    assert sqrt(last_knot) == pytest.approx(2 * 0.01, rel=1e-9)


def test_two_sides_are_as_uncertain_as_the_strand_they_make() -> None:
    """But for the walk, which starts anew at each side: all else is one piece, one card, one lot."""
    still = replace(USUAL, tension_walk_by_end_cv=0)
    own = cord(figures(take_up_sd=0.4, length_sd=0.1, take_up_scatter=0.7, length_scatter=0.2))
    strand = [G, K, G, D, Space(4.0), S, K] * 6
    sides = CovarianceModel.of(own, KINDS, [strand[20:], strand[:20]], still)
    assert sides.strand_sd_mm([0, 1]) == pytest.approx(
        CovarianceModel.of(own, KINDS, [strand], still).strand_sd_mm([0])
    )
    assert sides.strand_sd_mm([0, 1]) > sqrt(sides.strand_sd_mm([0]) ** 2 + sides.strand_sd_mm([1]) ** 2)


@pytest.mark.parametrize("seed", range(2000, 2012))
def test_any_two_places_against_every_knot_and_bead(seed: int) -> None:
    draw = random.Random(seed)
    plan = compile_plan(random_design(seed))
    while sum(len(strand.elements) for strand in plan.strands) > 200:
        plan = compile_plan(random_design(draw.randrange(10**6)))
    model = CovarianceModel.of(plan.cord, plan.beads, [strand.elements for strand in plan.strands], USUAL)
    dense = Dense(plan, USUAL)
    quantities = []
    for _ in range(14):
        entry = draw.randrange(len(plan.strands))
        quantities.append(
            Quantity(entry, draw.randint(0, len(plan.strands[entry].elements)), draw.choice([STRAND, CORD]))
        )
    rows = np.zeros((len(quantities), len(dense.unknowns)))
    for number, quantity in enumerate(quantities):
        strand_mean, cord_mean, strand_row, cord_row = dense.rows[quantity.entry, quantity.elements]
        for unknown, weight in (strand_row if quantity.weights == STRAND else cord_row).items():
            rows[number, unknown] = weight
        assert model.mean_mm(quantity) == pytest.approx(
            strand_mean if quantity.weights == STRAND else cord_mean, abs=1e-9
        )
    found = np.array([[model.covariance(one, other) for other in quantities] for one in quantities])
    assert np.allclose(found, rows @ rows.T, rtol=1e-10, atol=1e-9)
