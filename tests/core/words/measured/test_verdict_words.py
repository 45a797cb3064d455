"""The reason that is given for a length that is off: what is suspected, and never a bead that nothing speaks for."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
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
    loose = said(plan_of(), (8, 1.6), (14, 2.9), (20, 4.2))
    assert loose.startswith("Too long.")
    assert "looser than the plan reckons with" in loose
    assert "bead" not in loose


def test_beads_that_were_counted_are_the_reason() -> None:
    counted = (Recounted(12, 6, -1),)
    short = said(plan_of(), (6, 0.0), (12, -6.1), (18, -6.0), counted=counted)
    assert "As you counted, a bead is missing." in short
    right = said(plan_of(), (6, 0.0), (12, -4.0), (18, -6.5), counted=(Recounted(18),))
    assert "count" not in right


def test_a_plan_that_is_off_itself_is_the_reason() -> None:
    plan = plan_of(length_mm=232.0)
    text = said(plan, (8, 0.0), (16, 0.0))
    assert "The plan itself comes to 240 mm." in text
    assert "bead" not in text


KEYS = {
    "measure": "m",
    "measure cord": "c",
    "recount": "r",
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
        ("watch", (), "Keep an eye on it (w)."),
        ("off", (), "Too short (w)."),
        ("recount", (Fault("bead missed", 0.8, 0, 13, 18),), "You may be a bead short (about 4 to 1) (r)."),
        ("measure again", (Fault("misread", 0.8, 0, 18, 18, "strand", 7.0),), "Measure again (m again)."),
        ("measure again", (Fault("misread", 0.8, 0, 18, 18, "free", 7.0),), "Measure again (c again)."),
        ("on plan", (), "On length."),
    ],
)
def test_a_verdict_names_the_key_that_answers_it(verdict, faults, headline) -> None:
    assert notice_of(verdict, *faults).headline == headline
    bare = notice_of(verdict, *faults, keys={})
    assert not any(f"({key})" in bare.text for key in KEYS.values())


def test_a_ruler_that_is_due_comes_with_its_keys() -> None:
    assert notice_of("on plan", due=True).action == "Measure the strand now (m)."
    assert notice_of("on plan", due=True, free_read=False).action == (
        "Measure the strand now (m). Measure the leftover cord too (c). Once is enough."
    )
    assert notice_of("on plan", due=True, free_read=False, keys={}).action == (
        "Measure the strand now. Measure the leftover cord too. Once is enough."
    )
    assert notice_of("on plan").action == "Measure the strand after step 24."
    off = notice_of("off", due=True)
    assert (off.headline, off.action) == ("Too short.", "Measure the strand now (m).")
