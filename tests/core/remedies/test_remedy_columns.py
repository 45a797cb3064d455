"""The ways out in columns say what the sentences say, and show what would be left."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.plan.replan import changed_plan
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_columns import columns_of, headings, rest_after, rest_now
from companion.core.remedies.remedy_words import AFRESH, outcome_words
from tests.core.hand_plans import hand_plan
from tests.core.remedies.off_plan import aimed, mirror_plan, what_to_do

PLAN = hand_plan(unit="mm")
RISK = "30 % chance of running out of cord."
REMEDY = Remedy("", "", 203.0, 5.0, 0.84, 14.0, 0.004)


@pytest.mark.parametrize(
    ("remedy", "chance", "cord", "more"),
    [
        (REMEDY, "84 %", "14 mm more cord", ""),
        (replace(REMEDY, cord_mm=-14.0), "84 %", "14 mm less cord", ""),
        (replace(REMEDY, cord_mm=0.9, p_in_tolerance=0.001), "under 1 %", "no more cord", ""),
        (replace(REMEDY, p_in_tolerance=None, p_run_out=0.3), "", "14 mm more cord", RISK),
        (replace(REMEDY, join=True), "84 %", "enough cord", ""),
        (replace(REMEDY, p_short_to_hold=0.4), "84 %", "14 mm more cord", "It leaves little cord to hold."),
    ],
)  # fmt: skip
def test_each_figure_in_its_column(remedy, chance, cord, more) -> None:
    told = columns_of(PLAN, remedy)
    assert (told.finishes, told.chance, told.cord, told.more) == ("203 ± 5 mm", chance, cord, more)
    told_in_words = outcome_words(PLAN, remedy)
    assert all(words in told_in_words for words in (more, "" if chance == "under 1 %" else chance))


def test_to_begin_again_has_no_figures_of_today() -> None:
    told = columns_of(PLAN, replace(REMEDY, advice=True, family=("join",)))
    assert (told.finishes, told.chance, told.cord, told.more) == ("", "", "", AFRESH)


def test_a_chance_has_a_heading_only_where_there_is_a_target() -> None:
    assert headings(replace(PLAN, target_mm=200.0)).chance == "in tolerance"
    assert headings(replace(PLAN, target_mm=None)).chance == ""


@pytest.mark.parametrize("opened", ["along", "from the middle"])
@pytest.mark.parametrize("done", [0, 7, 20])
def test_the_rest_is_what_choosing_it_leaves(opened, done) -> None:
    plan = mirror_plan(opened)
    plan = aimed(plan, plan.finished_length_mm + 17)
    piece, _, found = what_to_do(plan, done)
    entry, now = rest_now(plan, piece)
    made = plan.strands[entry].elements[: len(plan.strands[entry].elements) - len(now)]
    changing = [remedy for remedy in found if remedy.rests]
    assert changing
    for remedy in changing:
        then = changed_plan(plan, (remedy.event(0),)).strands[entry].elements
        assert (*made, *rest_after(plan, piece, remedy)) == tuple(then)


def test_going_back_leaves_more_to_make_and_advice_the_same() -> None:
    plan = mirror_plan()
    piece, _, _ = what_to_do(plan, 12)
    _, now = rest_now(plan, piece)
    back = rest_after(plan, piece, replace(REMEDY, back_to=9))
    assert tuple(back[-len(now) :]) == tuple(now)
    assert len(back) > len(now)
    assert rest_after(plan, piece, replace(REMEDY, advice=True)) == now


def test_once_all_is_made_nothing_is_left() -> None:
    plan = mirror_plan()
    piece, _, _ = what_to_do(plan, plan.total_steps)
    assert tuple(rest_now(plan, piece)[1]) == ()
