"""The posterior of fault hypotheses: by hand, by brute force, and as a mixture."""

from __future__ import annotations

from math import exp, log, pi

import numpy as np
import pytest
from msgspec.structs import replace

from companion.core.forecast.faults.hypothesis_cache import HypothesisCache
from companion.core.forecast.faults.posterior import weigh
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.maths.gaussian import Cholesky
from companion.core.maths.mixtures import mixture_cdf, mixture_quantile
from companion.core.plan.planner import compile_plan
from companion.core.plan.uncertainty.covariance import STRAND, CovarianceModel, Quantity
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, Design, Repeat, Strand
from tests.core.forecast.light import CORD, KINDS, G, K, S, outlook, plan_of, planned
from tests.core.oracles.dense import Dense

ALONE = {  # every other hypothesis switched off
    "prior_tension_step": 0, "prior_tension_drift": 0, "prior_step_lost": 0, "prior_knot_lost": 0,
    "prior_double_as_single": 0,
    "prior_gross_misread": 0, "prior_wild_misread": 0,
    "prior_misread": 0, "prior_cut_misread": 0,
}  # fmt: skip


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
        missed = sum(one.p for one in found.weighed if one.candidate.kind == "bead missed")
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
    settings = replace(USUAL, **dict.fromkeys(ALONE, 1e-300), prior_bead_lost=0.05, second_fault_above=2)
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


def test_two_slips_are_both_found_as_brute_force_finds_them(monkeypatch) -> None:
    """A bead missed early and a later reading an inch too long: every pair of the two written out and weighed with
    numpy's dense likelihood, as are both alone. Looked for one at a time, neither explains what was read. No reading is
    set aside here: what is weighed is all that was read."""
    monkeypatch.setattr("companion.core.forecast.set_aside.SET_ASIDE_ABOVE", 2.0)
    only = {key: value for key, value in dict.fromkeys(ALONE, 1e-300).items() if key != "prior_misread"}
    settings = replace(USUAL, **only, prior_bead_lost=0.02, prior_misread=0.01)
    plan = plan_of([Repeat(20, (G, K))], settings, 160)
    steps = [5, 9, 13, 17]
    off_mm = (0.2, -6.3, -5.8 + 25.4, -6.1)
    values = [planned(plan, step) + mm for step, mm in zip(steps, off_mm, strict=True)]
    found = outlook(plan, list(zip(steps, values, strict=True)), settings)
    p = {fault.kind: fault.p for fault in found.faults}
    dense, noise = Dense(plan, settings), 1 / 12 + settings.strand_handling_mm**2
    elements = [plan.strands[0].steps[step - 1].elements for step in steps]
    means = np.array([dense.rows[0, e][0] for e in elements])
    cov = covariance(dense, elements, settings, noise)
    beads = [n for n, e in enumerate(plan.strands[0].elements) if isinstance(e, Bead)]
    lost = [(0.02 / len(beads), np.array([sign * 6.0 * (e > n) for e in elements])) for n in beads for sign in (-1, 1)]
    sizes = [sign * mm for mm in (5.0, 10.0, 12.7, 25.4) for sign in (-1, 1)]
    read = [(0.01 / len(sizes), mm * np.eye(len(steps))[n]) for n in range(len(steps)) for mm in sizes]
    none = 1 - 2 * 0.02 - 0.01 * len(steps)
    weigh_all = {
        "nothing": [(none, np.zeros(len(steps)))],
        "bead": [(w, shift) for w, shift in lost],
        "read": [(w, shift) for w, shift in read],
        "both": [(w * v, one + other) for w, one in lost for v, other in read],
    }
    sums = {
        name: sum(w * exp(log_normal(np.array(values), means + shift, cov) + 60) for w, shift in some)
        for name, some in weigh_all.items()
    }
    total = sum(sums.values())
    assert sums["both"] / total > 0.85
    assert p["bead missed"] == pytest.approx((sums["bead"] + sums["both"]) / total, abs=0.02)
    assert p["misread"] == pytest.approx((sums["read"] + sums["both"]) / total, abs=0.02)
    one_only = outlook(plan, list(zip(steps, values, strict=True)), replace(settings, second_fault_above=2))
    alone = {fault.kind: fault.p for fault in one_only.faults}
    assert min(alone.get("bead missed", 0), alone.get("misread", 0)) < 0.5
