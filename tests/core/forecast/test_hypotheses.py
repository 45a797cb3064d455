"""Fault hypotheses: their odds by hand and by brute force, and what they say of pieces that really went wrong."""

from __future__ import annotations

from dataclasses import replace
from math import exp, log, pi, sqrt

import numpy as np
import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.hypothesis_cache import HypothesisCache
from companion.core.forecast.outlook import Fault
from companion.core.forecast.posterior import weigh
from companion.core.forecast.verdicts import verdict
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.maths.gaussian import Cholesky
from companion.core.maths.mixtures import mixture_cdf, mixture_quantile
from companion.core.plan.covariance import STRAND, CovarianceModel, Quantity
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.oracles.dense import Dense

G, S, K = Bead("g"), Bead("s"), Knot("single")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 9, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))
ALONE = {  # every other hypothesis switched off
    "prior_tension_step": 0, "prior_tension_drift": 0, "prior_step_lost": 0, "prior_knot_lost": 0,
    "prior_double_as_single": 0,
    "prior_gross_misread": 0, "prior_wild_misread": 0,
    "prior_misread": 0, "prior_cut_misread": 0,
}  # fmt: skip


def plan_of(layout, assumptions=USUAL, length_mm=240.0):
    design = Design("Light", CORD, KINDS, (Strand(tuple(layout)),), Size("length", length_mm, 0, 3.0))
    return compile_plan(design, assumptions=assumptions)


def outlook(plan, readings, assumptions=USUAL, counted=()):
    taken = tuple(Measured("strand", step, mm, "") for step, mm in readings)
    piece = Piece(plan.total_steps, max(step for step, _ in readings), readings=taken, counted=counted)
    return Forecaster(plan, assumptions, faults=True).outlook(piece)


def planned(plan, step):
    return plan.strands[0].steps[step - 1].strand_mm


def test_a_missed_bead_by_hand() -> None:
    """Prior 3 % for a missed 6 mm bead, reading 5 mm short, sd 3: 0.105009; after a second, independent one like it
    0.308012 (own computation: odds 3/97 times exp((5² - 1²)/(2·9)) a reading)."""
    own = replace(USUAL, **dict.fromkeys(ALONE, 1e-300), prior_bead_lost=1.0)
    odds = 0.03 / 0.97 * exp((5**2 - 1**2) / (2 * 9))
    # One reading of sd 3 on a strand whose own length is certain: the factor is 3, the whitened innovation -5/3.
    model = CovarianceModel.of(compile_plan(Design("x", CORD, KINDS, (Strand((G,)),))).cord, KINDS, [[G] * 1], own)
    for times, expected in ((1, 0.105009), (2, 0.308012)):
        factor, white = Cholesky(), []
        for number in range(times):
            factor = factor.extended([0.0] * number, 9.0)
            white.append(-5 / 3)
        quantities = [Quantity(0, 1, STRAND)] * times
        # Half of the prior is for a bead too many: 0.03 of missed beside 0.97 of nothing asks for 0.03 / 1.03.
        prior = 0.03 / 1.03
        settings = replace(own, prior_bead_lost=prior, prior_misread=1e-300)
        found = weigh(HypothesisCache(model, settings).prepared(quantities, factor, ()), white, settings)
        missed = sum(one.p for one in found.weighed if one.kind == "bead missed")
        hand = odds if times == 1 else odds * odds / (0.03 / 0.97)
        p = missed / (missed + found.p_nothing)
        assert p == pytest.approx(hand / (1 + hand) * scale(prior, hand), abs=1e-9)
        assert hand / (1 + hand) == pytest.approx(expected, abs=5e-7)


def scale(prior: float, hand: float) -> float:
    """From odds against 0.97 of nothing to odds against what is left beside both kinds of lost bead."""
    left = hand / (0.03 / 0.97) * prior / (1 - 2 * prior)
    return left / (1 + left) / (hand / (1 + hand))


def log_normal(x: np.ndarray, mean: np.ndarray, cov: np.ndarray) -> float:
    off = x - mean
    return float(-0.5 * (off @ np.linalg.solve(cov, off) + np.linalg.slogdet(cov)[1] + len(x) * log(2 * pi)))


def test_odds_against_brute_force() -> None:
    """Every hypothesis written out as a mean of its own, weighed with numpy's dense likelihood."""
    settings = replace(USUAL, **dict.fromkeys(ALONE, 1e-300), prior_bead_lost=0.05)
    plan = plan_of([Repeat(6, (G, K)), S, K, Repeat(5, (G, K))], settings, 100)
    steps = [4, 8, 12]
    values = [planned(plan, 4) + 0.4, planned(plan, 8) - 6.5, planned(plan, 12) - 5.2]
    found = outlook(plan, list(zip(steps, values, strict=True)), settings)
    dense = Dense(plan, settings)
    noise = 1 / 12 + settings.strand_handling_mm**2
    elements = [plan.strands[0].steps[step - 1].elements for step in steps]
    means = np.array([dense.rows[0, e][0] for e in elements])
    cov = covariance(dense, elements, settings, noise)
    beads = [
        (n, plan.bead(e.key).length_mm, e.key) for n, e in enumerate(plan.strands[0].elements) if isinstance(e, Bead)
    ]
    faults = {"nothing": [(1 - 2 * 0.05 - 0.0, means)]}
    for sign, kind in ((-1, "bead missed"), (1, "bead too many")):
        each = 0.05 / len(beads)
        faults[kind] = [(each, means + [sign * mm * (e > n) for e in elements]) for n, mm, _ in beads]
    weights = {k: [w * exp(log_normal(np.array(values), m, cov) + 60) for w, m in v] for k, v in faults.items()}
    total = sum(sum(v) for v in weights.values())
    begun = [n for n, (place, _, _) in enumerate(beads) if place < elements[-1]]
    for kind in ("bead missed", "bead too many"):
        mine = next(fault.p for fault in found.faults if fault.kind == kind)
        assert mine == pytest.approx(sum(weights[kind][n] for n in begun) / total, rel=1e-6, abs=2e-6)


def covariance(dense, elements, settings, noise) -> np.ndarray:
    rows = []
    for e in elements:
        row = np.zeros(len(dense.unknowns) + 1)
        for unknown, weight in dense.rows[0, e][2].items():
            row[unknown] = weight
        row[-1] = settings.strand_scale_cv * dense.rows[0, e][0]
        rows.append(row)
    table = np.array(rows)
    return table @ table.T + noise * np.eye(len(elements))


def test_without_readings_and_without_faults_nothing_is_suspected() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    quiet = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 5))
    assert (quiet.p_fault, quiet.faults, quiet.verdict) == (0.0, (), "on plan")
    found = outlook(plan, [(n, planned(plan, n)) for n in (5, 10, 15, 20, 25)])
    assert found.p_fault < 0.25
    assert found.verdict == "on plan"


def test_a_bead_skipped_is_a_recount_that_names_the_steps_and_right_beads_end_it() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    readings = [(6, planned(plan, 6)), (12, planned(plan, 12) - 6.2), (18, planned(plan, 18) - 6.0)]
    found = outlook(plan, readings)
    assert found.verdict == "recount"
    fault = found.faults[0]
    assert fault.kind == "bead missed"
    assert (fault.from_step, fault.to_step) == (7, 12)
    counted = outlook(plan, readings, counted=(Recounted(18),))
    assert counted.verdict != "recount"
    assert sum(s.p for s in counted.faults if s.kind.startswith("bead")) < 0.02
    put_right = outlook(plan, [(6, planned(plan, 6)), (18, planned(plan, 18))])
    assert put_right.verdict == "on plan"


@pytest.mark.parametrize("beads", [-1, 1])
def test_beads_counted_and_wrong_are_known_and_foretold(beads) -> None:
    """The maker has counted: a bead fewer (more). No hypothesis is left of it, and the forecast is off by that bead."""
    plan = plan_of([Repeat(30, (G, K))])
    off = [(6, 0.0), (12, 6.1 * beads), (18, 5.9 * beads)]
    readings = [(step, planned(plan, step) + mm) for step, mm in off]
    found = outlook(plan, readings, counted=(Recounted(18, 0, beads),))
    plain = outlook(plan, [(step, planned(plan, step) + mm - (6 * beads if step > 6 else 0)) for step, mm in off])
    assert found.verdict in ("watch", "off")
    assert sum(s.p for s in found.faults if s.kind.startswith("bead")) < 0.02
    assert found.finished.mean_mm == pytest.approx(plain.finished.mean_mm + 6 * beads, abs=0.3)
    assert found.entries[0].free_end.mean_mm == pytest.approx(plain.entries[0].free_end.mean_mm - 6 * beads, abs=0.3)
    unread = outlook(plan, [(6, planned(plan, 6))], counted=(Recounted(12, 6, beads),))
    assert unread.finished.mean_mm == pytest.approx(plan.finished_length_mm + 6 * beads, abs=1.5)


def test_a_word_stands_a_little_longer_than_it_comes_up() -> None:
    """A piece whose chance of tolerance wavers about the level does not change its word with every reading."""
    plan = plan_of([Repeat(60, (G, K))], length_mm=480)
    words = [verdict(plan, 2.0, 0.866386 * share, (), USUAL) for share in (0.74, 0.77, 0.73, 0.79)]
    assert words == ["watch", "on plan", "watch", "on plan"]
    kept, word = [], None
    for share in (0.74, 0.77, 0.73, 0.79, 0.81, 0.76, 0.24, 0.28, 0.31):
        word = verdict(plan, 2.0, 0.866386 * share, (), USUAL, word)
        kept.append(word)
    assert kept == ["watch"] * 4 + ["on plan", "on plan", "off", "off", "watch"]
    lost, slip = Fault("bead missed", 0.44, 0, 7, 12), Fault("misread", 0.46, 0, 12, 12)
    assert verdict(plan, 2.0, 0.86, (slip, lost), USUAL) == "measure again"
    assert verdict(plan, 2.0, 0.86, (slip, lost), USUAL, "recount") == "recount"
    assert verdict(plan, 2.0, 0.86, (replace(lost, p=0.32),), USUAL, "recount") == "recount"
    assert verdict(plan, 2.0, 0.86, (replace(lost, p=0.32),), USUAL) == "on plan"


def test_an_inch_too_much_is_measured_again_first() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    found = outlook(plan, [(6, planned(plan, 6)), (12, planned(plan, 12) + 25.4)])
    assert found.verdict == "measure again"
    assert found.faults[0].kind == "misread"
    assert found.faults[0].off_mm == pytest.approx(25.4)
    assert found.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=4)


def test_a_tight_evening_goes_off_with_its_reason() -> None:
    plan = plan_of([Repeat(30, (G, K))], length_mm=240)
    tight = [(n, planned(plan, n) - 0.6 * max(0, n - 12)) for n in (4, 8, 12, 16, 20, 24)]
    found = outlook(plan, tight)
    assert found.verdict in ("off", "watch")
    assert found.faults[0].kind == "tension changed"
    assert found.finished.mean_mm < 240 - 6


def test_a_cord_cut_short_shows_in_the_cord_and_not_in_the_strand() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    free = plan.strands[0].steps[14].free_cord_mm
    piece = Piece(plan.total_steps, 15, readings=(Measured("free", 15, free - 100, ""),))
    found = Forecaster(plan, faults=True).outlook(piece)
    assert found.faults[0].kind == "cut shorter"
    assert found.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=2)
    assert found.entries[0].cord.verdict == "runs out"


def test_a_cord_shortened_on_the_way_is_believed_at_the_second_reading() -> None:
    """Free cord was right at step 8; 100 mm less at 18 may be a slip of the ruler, but hardly a second time."""
    plan = plan_of([Repeat(30, (G, K))])
    steps = plan.strands[0].steps
    right = Measured("free", 8, steps[7].free_cord_mm, "")
    short = Measured("free", 18, steps[17].free_cord_mm - 100, "")
    first = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 18, readings=(right, short)))
    assert {fault.kind for fault in first.faults[:2]} == {"misread", "cord shortened"}
    again = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 18, readings=(right, short, short)))
    assert again.faults[0].kind == "cord shortened"
    assert again.faults[0].p > 0.9
    assert again.verdict == "on plan"
    assert again.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=2)
    assert again.entries[0].cord.verdict == "runs out"


def test_the_interval_is_the_mixtures_own() -> None:
    """Quantiles and tolerance of the forecast against a simulation of its parts."""
    plan = plan_of([Repeat(30, (G, K))])
    forecaster = Forecaster(plan, faults=True)
    taken = (Measured("strand", 12, planned(plan, 12) - 4, ""),)
    piece = Piece(plan.total_steps, 12, readings=taken)
    found = forecaster.outlook(piece)
    parts = forecaster.finished(forecaster.estimator.evidence(piece))
    assert sum(weight for weight, _, _ in parts) == pytest.approx(1, abs=1e-4)
    draw = np.random.default_rng(2)
    weights = np.array([weight for weight, _, _ in parts])
    which = draw.choice(len(parts), 200_000, p=weights / weights.sum())
    values = draw.normal(np.array([m for _, m, _ in parts])[which], np.array([s for _, _, s in parts])[which])
    assert found.finished.mean_mm == pytest.approx(values.mean(), abs=0.03)
    assert mixture_cdf(found.finished.low95_mm, parts) == pytest.approx(0.025, abs=1e-6)
    assert found.finished.high95_mm == pytest.approx(np.quantile(values, 0.975), abs=0.15)
    inside = np.mean(np.abs(values - plan.target_mm) <= plan.tolerance_mm)
    assert found.p_in_tolerance == pytest.approx(inside, abs=0.005)
    assert mixture_quantile(0.5, parts) == pytest.approx(np.median(values), abs=0.05)


def test_a_reading_of_nothing_of_the_sort_leaves_the_forecast_alone() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    before = outlook(plan, [(6, planned(plan, 6))])
    found = outlook(plan, [(6, planned(plan, 6)), (12, planned(plan, 12) + 260)])
    assert found.verdict == "measure again"
    assert found.faults[0].off_mm == pytest.approx(260, abs=5)
    assert found.finished.mean_mm == pytest.approx(before.finished.mean_mm, abs=1.5)
    assert found.finished.sd_mm == pytest.approx(before.finished.sd_mm, rel=0.25)


@pytest.mark.parametrize("reads", [40_000.0, 300_000.0, 0.0])
def test_a_wild_reading_does_not_pull_at_the_forecast(reads) -> None:
    """Another unit, a slipped figure: however far off, what is expected stays what it was without it."""
    plan = plan_of([Repeat(30, (G, K))])
    before = outlook(plan, [(6, planned(plan, 6))])
    for readings in ([(6, planned(plan, 6)), (12, reads)], [(12, reads), (6, planned(plan, 6))]):
        found = outlook(plan, readings)
        assert found.faults[0].kind == "misread"
        assert found.faults[0].p > 0.98
        assert found.finished.mean_mm == pytest.approx(before.finished.mean_mm, abs=1.0)
        assert found.finished.sd_mm == pytest.approx(before.finished.sd_mm, rel=0.2)


NONSENSE = {
    "far apart at one step": [(12, 96.0), (12, 196.0)],
    "forty metres": [(12, 40_000.0)],
    "nothing at all": [(12, 0.0)],
    "all alike": [(4, 50.0), (8, 50.0), (12, 50.0), (12, 50.0)],
}


@pytest.mark.parametrize("name", NONSENSE)
def test_nothing_typed_in_breaks_a_sum(name) -> None:
    found = outlook(plan_of([Repeat(30, (G, K))]), NONSENSE[name])
    assert found.finished.low95_mm <= found.finished.mean_mm <= found.finished.high95_mm
    assert 0 <= found.p_fault <= 1
    assert found.p_in_tolerance is not None
    assert sqrt(found.finished.sd_mm**2) == found.finished.sd_mm


@pytest.mark.parametrize(
    "layout", [(G,), (K,), (G, G, G), tuple([G, K] * 400)], ids=["bead", "knot", "no knots", "long"]
)
def test_odd_designs(layout) -> None:
    plan = compile_plan(Design("Odd", CORD, KINDS, (Strand(layout),)))
    step = len(plan.strands[0].steps) - 1
    taken = (Measured("strand", step, 1.03 * planned(plan, step), ""), Measured("free", step, 55.0, ""))
    found = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, step, readings=taken))
    assert found.finished.sd_mm >= 0
    assert found.verdict in ("no target", "recount", "measure again", "watch")
