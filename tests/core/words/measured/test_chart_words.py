"""The chart in words: the marks that are in it, and its numbers as a table and for the ear."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.chart.drift import Drift, Foretold, Gate, ReadStrand, Suspected
from companion.core.forecast.faults.hypothesis import FaultKind
from companion.core.values.expected import Expected
from companion.core.words.measured.chart_words import (
    SUSPICIONS,
    legend_lines,
    suspicion,
    table_lines,
    table_sentences,
    title,
)
from tests.core.hand_plans import hand_plan, skerry_elements

HALF_MM = 3.175
READ = (ReadStrand(4, 50.8, 54.0, set_aside=True), ReadStrand(6, 76.2, 73.0), ReadStrand(7, 82.55, 82.6))
COMING = tuple(
    Foretold(6 + n, 76.2 + 25.4 * n, Expected(-3.175 * n, 1.0, -3.175 * n - HALF_MM, -3.175 * n + HALF_MM))
    for n in range(5)
)
DRIFT = Drift(0, 177.8, 76.2, READ, COMING, Gate(-3.175, 6.35), Suspected("bead missed", 0.6, 63.5))


def test_the_table_has_the_numbers_of_the_chart() -> None:
    assert list(table_lines(hand_plan(), DRIFT)) == [
        "after step    planned   measured  than planned",
        "4, set aside  2 in      2 1/8 in  1/8 in longer",
        "6             3 in      2 7/8 in  1/8 in shorter",
        "7             3 1/4 in  3 1/4 in  as planned",
        "",
        "after step  planned  expected        than planned",
        "6, now      3 in     3 ± 1/8 in      as planned",
        "7           4 in     3 7/8 ± 1/8 in  1/8 in shorter",
        "8           5 in     4 3/4 ± 1/8 in  1/4 in shorter",
        "9           6 in     5 5/8 ± 1/8 in  3/8 in shorter",
        "10, end     7 in     6 1/2 ± 1/8 in  1/2 in shorter",
        "",
        "If the strand ends between 6 7/8 in and 7 1/4 in, the piece comes out as near as you asked.",
        "About 2 1/2 in along the strand a bead may be missing.",
    ]


def test_where_it_began_with_the_first_knot_no_length_is_named() -> None:
    begun = replace(DRIFT, suspected=Suspected("tension changed", 0.6, 0.0))
    assert list(table_lines(hand_plan(), begun))[-1] == (
        "At the very beginning of the strand your tension may have changed."
    )


def test_for_the_ear_each_row_is_a_sentence() -> None:
    said = list(table_sentences(hand_plan(), DRIFT))
    assert said[0] == "After step 4: planned 2 in, measured 2 1/8 in, 1/8 in longer. It is set aside."
    assert said[2] == "After step 7: planned 3 1/4 in, measured 3 1/4 in, as planned."
    assert said[7] == "After step 10, the end: planned 7 in, expected 6 1/2 ± 1/8 in, 1/2 in shorter."
    assert all(sentence.endswith(".") for sentence in said)
    rows = [line for line in table_lines(hand_plan(), DRIFT) if line]
    assert len(said) == len(rows) - 2  # all but the heads of the columns


def test_nothing_read_is_said() -> None:
    assert next(table_sentences(hand_plan(), replace(DRIFT, readings=()))) == (
        "Nothing is measured yet: the chart shows what to expect."
    )


@pytest.mark.parametrize(
    ("finished_mm", "words"), [(200.4, "200 mm: as it should be."), (203.2, "203 mm: 3 mm over 200 mm.")]
)
def test_how_it_came_out_is_held_against_the_target_as_in_the_result(finished_mm, words) -> None:
    plan = replace(hand_plan(unit="mm"), target_mm=200.0)
    ended = replace(DRIFT, coming=(), suspected=None, finished_off_mm=12.0, finished_mm=finished_mm)
    assert list(table_lines(plan, ended))[-1] == f"It came out at {words}"


def test_the_legend_names_the_marks_that_are_there_and_no_others() -> None:
    assert legend_lines(DRIFT, 58) == [
        "● measured   ○ set aside   ░ still to come, 19 times in 20",
        "┻ ┳ as near as you asked   ▼ where it may have begun",
    ]
    quiet = replace(DRIFT, readings=READ[1:], gate=None, suspected=None)
    assert legend_lines(quiet, 58) == ["● measured   ░ still to come, 19 times in 20"]


def test_several_strands_are_named() -> None:
    one, two = hand_plan(), hand_plan(skerry_elements(), skerry_elements())
    named = replace(two, strands=tuple(replace(s, label=label) for s, label in zip(two.strands, "ab", strict=True)))
    assert "(" not in title(one, DRIFT)
    assert title(named, replace(DRIFT, entry=1)).endswith("(b)")


def test_every_fault_of_a_strand_has_its_words() -> None:
    kinds = {kind for kind in FaultKind.__args__ if not kind.startswith(("cut", "cord"))}
    assert set(SUSPICIONS) == kinds
    assert suspicion(DRIFT) == "a bead missed?"
    assert suspicion(replace(DRIFT, suspected=None)) == ""
