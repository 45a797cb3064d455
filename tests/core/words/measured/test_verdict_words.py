"""The reason that is given for a length that is off: what is suspected, and never a bead that nothing speaks for."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault, ReadingCheck
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import remedies
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Strand,
)
from companion.core.words.measured.reason_words import finishes_at, settling_words
from companion.core.words.measured.verdict_words import verdict_line

GLASS = BeadKind("g", "Glass", 6, 6, 1.0)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


USUAL_LAYOUT = (Repeat(30, (Bead("g"), Knot("single"))),)


def plan_of(length_mm=240.0, layout=USUAL_LAYOUT, start="plain tail"):
    return compile_plan(
        Design("Light", CORD, (GLASS,), (Strand(layout, End(start)),), Size("length", length_mm, 0, 2.0))
    )


def said(plan, *off, counted=()):
    steps = plan.strands[0].steps
    taken = tuple(Measured("strand", number, steps[number - 1].strand_mm + mm, "") for number, mm in off)
    piece = Piece(plan.total_steps, off[-1][0], readings=taken, counted=counted)
    return verdict_line(plan, piece, Forecaster(plan, faults=True).outlook(piece)).text


def test_a_bead_only_where_one_is_suspected() -> None:
    loose = said(plan_of(), (8, 1.6), (14, 2.9), (20, 4.2), (24, 5.0))
    assert loose.startswith("Too long.")
    assert "looser than the plan reckons with" in loose
    assert "bead" not in loose


def test_beads_that_were_counted_are_the_reason() -> None:
    counted = (Recounted(12, 6, -1),)
    short = said(plan_of(), (6, 0.0), (12, -6.1), (24, -6.0), counted=counted)
    assert "As you counted, a bead is missing." in short
    right = said(plan_of(), (6, 0.0), (12, -4.0), (18, -6.5), counted=(Recounted(18),))
    assert "count" not in right


def test_a_plan_that_misses_its_target_is_no_alarm_and_its_number_is_told() -> None:
    """240 mm for a target of 232: said before the work began, and quietly from then on."""
    plan = plan_of(length_mm=232.0)
    steps = plan.strands[0].steps
    began = Piece(plan.total_steps, 3)
    fresh = verdict_line(plan, began, Forecaster(plan, faults=True).outlook(began), KEYS)
    assert (fresh.level, fresh.text) == ("quiet", "As planned. Measure the strand after step 11.")
    readings = tuple(Measured("strand", n, steps[n - 1].strand_mm, "") for n in (8, 16))
    piece = Piece(plan.total_steps, 17, readings=readings)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    line = verdict_line(plan, piece, outlook)
    assert (line.level, line.headline) == ("quiet", "As planned.")
    assert line.detail.endswith("7 mm over your 232 mm.")  # knots settle: 239 mm
    assert finishes_at(plan, began, Forecaster(plan, faults=True).outlook(began)).startswith("240 ± ")


def test_what_readings_add_to_such_a_plan_is_an_alarm_with_the_plan_as_a_reason() -> None:
    text = said(plan_of(length_mm=232.0), (8, 2.0), (16, 4.0), (24, 6.0))
    assert text.startswith("Too long.")
    assert "your 232 mm." in text


USUALLY = ReadingCheck(Measured("strand", 18, 144.0, ""), 0.3, 0.2)
KEYS = {
    "measure": "m",
    "measure cord": "c",
    "recount": "r",
    "question tells": "",
    "measure again": "m again",
    "measure cord again": "c again",
    "remedies": "w",
}


def notice_of(verdict, *faults, due=False, keys=KEYS, free_read=True):
    """What is said of a piece at step 18 with that verdict."""
    plan = plan_of()
    readings = (Measured("free", 10, 900.0, ""),) if free_read else ()
    piece = Piece(plan.total_steps, 18, readings=readings)
    outlook = Forecaster(plan, faults=True).outlook(replace(piece, readings=()))
    outlook = replace(outlook, verdict=verdict, faults=faults, next_reading_step=18 if due else 24)
    return verdict_line(plan, piece, outlook, keys)


@pytest.mark.parametrize(
    ("verdict", "faults", "headline"),
    [
        ("off", (), "Too short (w)."),
        ("recount", (Fault("bead missed", 0.8, 0, 13, 18),), "You may be a bead short (about 4 to 1)."),
        ("on plan", (), "On length."),
    ],
)
def test_a_verdict_names_the_key_that_answers_it(verdict, faults, headline) -> None:
    assert notice_of(verdict, *faults).headline == headline
    bare = notice_of(verdict, *faults, keys={})
    assert not any(f"({key})" in bare.text for key in KEYS.values())


def test_a_length_that_may_turn_out_either_way_asks_for_nothing_but_the_next_reading() -> None:
    line = notice_of("watch")
    assert (line.level, line.headline) == ("quiet", "On course for 239 ± 14 mm, 1 mm under your 240 mm.")
    assert (line.detail, line.action) == ("", "Measure the strand after step 24.")
    assert notice_of("watch", due=True).action == "Measure the strand now (m)."


def test_beads_that_were_counted_are_told_at_once_and_that_something_can_be_done() -> None:
    """A bead is missing: that is no forecast. The length may still turn out either way."""
    plan = plan_of()
    piece = Piece(plan.total_steps, 18, counted=(Recounted(12, 6, -1),))
    outlook = replace(Forecaster(plan, faults=True).outlook(piece), verdict="watch")
    line = verdict_line(plan, piece, outlook, KEYS)
    assert line.level == "quiet"
    assert line.detail == "As you counted, a bead is missing."
    assert line.action.endswith("It can still be brought nearer (w).")


@pytest.mark.parametrize(("which", "key"), [("strand", "m again"), ("free", "c again")])
def test_to_measure_again_has_its_reason_before_it_and_its_key(which, key) -> None:
    misread = Fault("misread", 0.8, 0, 18, 18, which, 7.0)
    told = notice_of("measure again", misread)
    assert told.headline.endswith("after step 18 looks 7 mm too long (about 4 to 1).")
    assert told.action == f"Measure again ({key})."
    assert notice_of("measure again", misread, keys={}).action == "Measure again."


@pytest.mark.parametrize("verdict", ["on plan", "no target", "watch", "off", "recount"])
def test_every_sentence_that_asks_for_a_count_names_its_steps_and_its_key(verdict) -> None:
    """Whatever the verdict: a bead that may be missing is to be counted, and where, and with which key."""
    bead = Fault("bead missed", 0.1, 0, 13, 18)
    plan = plan_of()
    piece = Piece(plan.total_steps, 18)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    short = ReadingCheck(Measured("strand", 18, 138.0, ""), -5.5, -2.6)
    off = replace(outlook.finished, mean_mm=233.0)
    outlook = replace(outlook, verdict=verdict, faults=(bead,), checks=(short,), finished=off, next_reading_step=24)
    line = verdict_line(plan, piece, outlook, KEYS)
    assert "Count the beads in steps 13 to 18 (r): there should be 6." in line.action
    assert line.level != "quiet"


def test_a_reading_too_much_to_be_the_ruler_is_told_though_the_length_is_right() -> None:
    plan = plan_of()
    piece = Piece(plan.total_steps, 18)
    calm = replace(Forecaster(plan, faults=True).outlook(piece), next_reading_step=24)
    short = replace(calm, checks=(ReadingCheck(Measured("strand", 18, 138.0, ""), -5.5, -3.2),))
    line = verdict_line(plan, piece, short, KEYS)
    assert (line.level, line.headline) == ("watch", "On length so far.")
    assert line.detail == (
        "Your 138 mm after step 18 is 5.5 mm less than expected: too much to be the ruler. "
        "Perhaps your knots have become tighter, or the ruler slipped."
    )
    assert line.action == "Measure again to be sure (m again)."
    later = verdict_line(plan, replace(piece, done=19), short, KEYS)
    assert later.action == "Measure the strand after step 24."
    assert verdict_line(plan, piece, replace(short, checks=(*short.checks, USUALLY)), KEYS).level == "quiet"
    less = replace(calm, checks=(ReadingCheck(Measured("strand", 18, 139.0, ""), -4.5, -2.6),))
    assert verdict_line(plan, piece, less, KEYS).level == "quiet"  # one in twenty is as far off, with nothing wrong


def test_the_ruler_is_asked_for_beside_an_alarm_and_before_the_closing() -> None:
    plan = plan_of()
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    piece = Piece(plan.total_steps, last, readings=(Measured("free", 10, 900.0, ""),))
    outlook = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, last))
    due = replace(outlook, next_reading_step=last)
    assert verdict_line(plan, piece, due, KEYS).action == "Measure the strand now (m), before you close it."
    bead = Fault("bead missed", 0.1, 0, 13, 18)
    short = ReadingCheck(Measured("strand", 18, 138.0, ""), -5.5, -2.6)
    both = verdict_line(plan, piece, replace(due, faults=(bead,), checks=(short,)), KEYS)
    assert both.action == (
        "Count the beads in steps 13 to 18 (r): there should be 6. Measure the strand now (m), before you close it."
    )
    typed = {answer: key for answer, key in KEYS.items() if answer != "question tells"} | {"recount": "type r"}
    spoken = verdict_line(plan, piece, replace(due, faults=(bead,), checks=(short,)), typed)
    assert spoken.action == (
        "Count the beads in steps 13 to 18 (type r): there should be 6. Leave out the last 15 beads, then count back: "
        "6 Glass, then 9 more to the start. Measure the strand now (m), before you close it."
    )


def test_once_the_closing_is_begun_nothing_is_to_be_done_for_the_length() -> None:
    plan = plan_of()
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    piece = Piece(plan.total_steps, last + 1)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    short = replace(outlook, finished=replace(outlook.finished, mean_mm=233.0), checks=(replace(USUALLY, sds=-3.0),))
    bead = (Fault("bead missed", 0.2, 0, 13, 18),)
    for verdict, headline in (("on plan", "On length."), ("watch", "A little too short."), ("off", "Too short.")):
        line = verdict_line(plan, piece, replace(short, verdict=verdict, faults=bead), KEYS)
        assert (line.headline, line.action) == (headline, "")


@pytest.mark.parametrize("verdict", ["watch", "off", "recount", "measure again"])
def test_a_length_that_is_right_when_the_closing_is_begun_is_well(verdict) -> None:
    plan = plan_of()
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    piece = Piece(plan.total_steps, last + 1)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    doubts = (Fault("misread", 0.4, 0, 13, 18, "strand", 7.0), Fault("bead missed", 0.4, 0, 13, 18))
    line = verdict_line(plan, piece, replace(outlook, verdict=verdict, faults=doubts), KEYS)
    assert (line.level, line.headline, line.action) == ("quiet", "On length.", "")


def test_once_all_is_strung_and_on_length_only_a_likely_bead_is_still_to_be_counted() -> None:
    """A last reading within tolerance, though less than expected."""
    plan = plan_of()
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    piece = Piece(plan.total_steps, last)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    short = ReadingCheck(Measured("strand", last, 238.5, ""), -5.5, -3.2)

    def line(p: float, check: ReadingCheck = short):
        faults = (Fault("bead missed", p, 0, 13, 18),)
        return verdict_line(plan, piece, replace(outlook, checks=(check,), faults=faults), KEYS)

    assert (line(0.0).level, line(0.0).headline) == ("quiet", "On length.")
    assert (line(0.2).level, line(0.2).headline) == ("quiet", "On length.")
    assert line(0.4).action.startswith("Count the beads in steps 13 to 18 (r): there should be 6.")
    before = replace(short, reading=Measured("strand", last - 4, 200.0, ""))
    assert line(0.0, before).level == "watch"  # the whole was not measured yet


def test_after_a_count_the_word_the_figures_and_the_way_out_agree() -> None:
    """Within a wide tolerance a piece with a bead missing is on length: and said to be short of its target, and why."""
    plan = replace(plan_of(), tolerance_mm=12.0)
    steps = plan.strands[0].steps
    readings = tuple(Measured("strand", n, steps[n - 1].strand_mm - off, "") for n, off in ((8, 0.0), (16, 6.0)))
    piece = Piece(plan.total_steps, 17, readings=readings, counted=(Recounted(16, 8, -1),))
    outlook = Forecaster(plan, faults=True).outlook(piece)
    line = verdict_line(plan, piece, outlook, KEYS)
    assert outlook.verdict == "on plan"
    assert (line.level, line.headline) == ("quiet", "On length.")
    assert line.detail.startswith("As you counted, a bead is missing. On course for 23")
    assert line.detail.endswith(" under your 240 mm, within the 12 mm you allow.")
    assert line.action.endswith("It can still be brought nearer (w).")
    assert remedies(plan, piece, outlook)
    assert not remedies(plan, replace(piece, counted=()), outlook)
    assert remedies(plan, replace(piece, counted=()), outlook, nearer=True)


def test_why_it_is_to_be_shorter_than_it_is_now_is_said() -> None:
    """All is strung, no clasp makes it longer, and its knots settle: 240 mm now, 239 in the end."""
    plan = plan_of()
    steps = plan.strands[0].steps
    last = max(step.number for step in steps if step.kind == "string")
    readings = tuple(Measured("strand", n, steps[n - 1].strand_mm, "") for n in (8, 16, 24, last))
    for done, why in ((24, ""), (last, "It will be a little shorter than now: knots settle.")):
        piece = Piece(plan.total_steps, done, readings=tuple(one for one in readings if one.step <= done))
        outlook = Forecaster(plan, faults=True).outlook(piece)
        assert settling_words(plan, piece, outlook) == why
    unread = Piece(plan.total_steps, last)
    outlook = Forecaster(plan, faults=True).outlook(unread)
    assert settling_words(plan, unread, outlook) == ""
    assert finishes_at(plan, unread, outlook).startswith("240 ± ")  # as the plan says, and the strand now


def test_a_ruler_that_is_due_comes_with_its_keys() -> None:
    assert notice_of("on plan", due=True).action == "Measure the strand now (m)."
    assert notice_of("on plan", due=True, free_read=False).action == (
        "Measure the strand now (m), and just this once the leftover cord (c)."
    )
    assert notice_of("on plan", due=True, free_read=False, keys={}).action == (
        "Measure the strand now, and just this once the leftover cord."
    )
    assert notice_of("on plan").action == "Measure the strand after step 24."
    off = notice_of("off", due=True)
    assert (off.headline, off.action) == ("Too short.", "Measure the strand now (m).")


@pytest.mark.parametrize("verdict", ["on plan", "no target", "watch", "off", "recount"])
def test_a_bead_is_named_as_the_cause_only_where_that_is_likely(verdict) -> None:
    plan = plan_of()
    piece = Piece(plan.total_steps, 18)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    short = ReadingCheck(Measured("strand", 18, 138.0, ""), -5.5, -2.6)
    off = replace(outlook.finished, mean_mm=233.0)
    outlook = replace(outlook, verdict=verdict, checks=(short,), finished=off, next_reading_step=24)

    def text(p: float) -> str:
        return verdict_line(plan, piece, replace(outlook, faults=(Fault("bead missed", p, 0, 13, 18),)), KEYS).text

    assert "a bead" in text(0.4).lower()
    assert "a bead" not in text(0.2).lower()
    assert "Count the beads in steps 13 to 18" in text(0.2)


def test_the_leftover_cord_stays_asked_for_until_it_is_measured_or_the_beads_are_on() -> None:
    plan, asked = plan_of(), "the leftover cord"

    def said_at(done, *readings):
        piece = Piece(plan.total_steps, done, readings=readings)
        return verdict_line(plan, piece, Forecaster(plan, faults=True).outlook(piece)).text

    steps = plan.strands[0].steps
    strand = Measured("strand", 12, steps[11].strand_mm, "")
    assert asked in said_at(12)
    assert "Measure the leftover cord too, just this once." in said_at(12, strand)
    assert asked in said_at(20, strand)
    assert asked not in said_at(12, strand, Measured("free", 12, steps[11].free_cord_mm, ""))
    assert asked not in said_at(plan.total_steps - 1, strand)


def test_right_after_a_reading_was_judged_the_verdict_says_that_it_is_of_the_piece() -> None:
    """ "As expected. Too short." sounded like two judgements of one reading."""
    plan = plan_of()
    piece = Piece(plan.total_steps, 12)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    outlook = replace(outlook, verdict="off", next_reading_step=None, finished=replace(outlook.finished, mean_mm=233.0))
    assert verdict_line(plan, piece, outlook, KEYS).headline == "Too short (w)."
    after_a_reading = verdict_line(plan, piece, outlook, KEYS, of_the_piece=True)
    assert after_a_reading.headline == "The piece will be too short (w)."
