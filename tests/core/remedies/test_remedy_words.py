"""What a remedy would mean, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.journal.events import CutEntered
from companion.core.remedies.remedy import Remedy, Rest
from companion.core.remedies.remedy_words import best_is_poor, chosen_notice, cost_words, joins_alone, outcome_words
from companion.core.values.text import sentences
from tests.core.hand_plans import hand_plan

PLAN = hand_plan(unit="mm")
REMEDY = Remedy("", "", 203.0, 5.0, 0.84, 14.0, 0.004)


@pytest.mark.parametrize(
    ("remedy", "chance", "cost"),
    [
        (REMEDY, "84 % within tolerance.", "Takes 14 mm more of each cord."),
        (replace(REMEDY, cord_mm=-14.0), "84 % within tolerance.", "Saves 14 mm of each cord."),
        (replace(REMEDY, cord_mm=0.9, p_in_tolerance=0.001), "Under 1 % within tolerance.", ""),
        (replace(REMEDY, p_in_tolerance=None, cord_mm=0.0, p_run_out=0.3), "", "30 % chance of running out of cord."),
        (replace(REMEDY, join=True), "84 % within tolerance.", "Then there is enough cord."),
        (replace(REMEDY, p_in_tolerance=None, cord_mm=0.0), "", ""),
    ],
)
def test_its_chance_first_then_the_length_then_what_it_costs(remedy, chance, cost) -> None:
    assert cost_words(PLAN, remedy) == cost
    assert outcome_words(PLAN, remedy) == sentences(chance, "It would finish at 203 ± 5 mm.", cost)


def test_a_risk_over_the_makers_is_always_told() -> None:
    for remedy in (REMEDY, replace(REMEDY, join=True), replace(REMEDY, advice=True)):
        assert "chance of running out of cord" not in cost_words(PLAN, remedy)
        assert "2 % chance of running out of cord." in cost_words(PLAN, replace(remedy, p_run_out=0.02))


def test_what_was_chosen_is_named() -> None:
    one = replace(REMEDY, what="A closure 5 mm longer", rests=(Rest(0, 0, ()),))
    suit = "The remaining steps change to suit."
    assert chosen_notice(one, "u").text == f"Chosen; u undoes it. A closure 5 mm longer. {suit}"
    advice = replace(REMEDY, what="Tie a little looser", advice=True)
    assert chosen_notice(advice, "u").text == "Noted; u undoes it. Tie a little looser."
    cut = replace(REMEDY, what="Cut a longer cord", cut=CutEntered(0, 900.0, "90 cm"))
    assert chosen_notice(cut, "`tallycord undo`").text == "A cord of 90 cm is entered; `tallycord undo` undoes it."


def test_it_says_where_nothing_is_likely_to_help() -> None:
    poor = replace(REMEDY, p_in_tolerance=0.12)
    assert best_is_poor([poor]).startswith("Nothing here has more than 1 chance in 5")
    assert best_is_poor([poor, REMEDY]) == ""
    assert best_is_poor([]) == ""


def test_a_join_stands_alone_where_nothing_else_changes_the_length() -> None:
    join = Remedy("", "", 203.0, 5.0, 0.2, 0.0, 0.0, join=True, family=("join",))
    afresh = Remedy("", "", 203.0, 5.0, 0.2, 0.0, 0.0, advice=True, family=("join",))
    hold = Remedy("", "", 203.0, 5.0, 0.2, 0.0, 0.0, advice=True, family=("hold",))
    closure = Remedy("", "", 203.0, 5.0, 0.2, 0.0, 0.0, closure_mm=6.0, family=("closure",))
    assert joins_alone([join])
    assert joins_alone([hold, join])
    for found in ([], [hold], [afresh], [join, closure]):
        assert not joins_alone(found)
