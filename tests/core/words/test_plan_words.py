"""Sentences about a plan that the paper and the screen share."""

from __future__ import annotations

from dataclasses import replace

from companion.core.plan.plan import OtherCount
from companion.core.words.plan_words import fit_line, tools_line
from tests.core.hand_plans import hand_plan


def test_what_fits_and_what_the_counts_beside_it_would_give() -> None:
    plan = hand_plan(unit="mm")
    assert fit_line(plan) == ""
    others = (OtherCount(11, 182.0), OtherCount(13, 198.0))
    assert (
        fit_line(replace(plan, fit=12, fit_others=others))
        == "Fit: 12 repeats; 11 would give 182 mm and 13 would give 198 mm."
    )


def test_what_to_lay_ready() -> None:
    assert tools_line(hand_plan(needle=True)).startswith("Lay ready: ")
    assert "needle" in tools_line(hand_plan(needle=True))
    assert "awl" in tools_line(hand_plan(needle=False))
