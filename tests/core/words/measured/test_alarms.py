"""An alarm is said once: after that only what is new of it."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.outlook import CordCheck, Fault, Outlook, ReadingCheck
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.words.measured.alarms import PieceThen, news
from tests.core.outlooks import forecast

CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))
LAYOUT = (Repeat(30, (Bead("g"), Knot("single"))),)
PLAN = compile_plan(
    Design("Light", CORD, (BeadKind("g", "Glass", 6, 6, 1.0),), (Strand(LAYOUT),), Size("length", 240.0))
)
PIECE = Piece(PLAN.total_steps, 12)
WELL = replace(forecast(PLAN, PIECE), next_reading_step=None)
DUE = replace(WELL, next_reading_step=12)


def off(outlook: Outlook, mean_mm: float = 230.0) -> Outlook:
    return replace(outlook, verdict="off", finished=replace(outlook.finished, mean_mm=mean_mm))


def cord(outlook: Outlook, verdict: str, p: float, step: int | None = None, short_mm: float = 40.0) -> Outlook:
    (entry,) = outlook.entries
    return replace(outlook, entries=(replace(entry, cord=CordCheck(verdict, p, step, short_mm)),))


def count(outlook: Outlook, kind: str) -> Outlook:
    return replace(outlook, verdict="recount", faults=(Fault(kind, 0.9, 0, 3, 8),))


def surprised(outlook: Outlook) -> Outlook:
    check = ReadingCheck(Measured("strand", 10, 70.0, ""), -4.0, -3.2)
    return replace(outlook, checks=(*outlook.checks, check))


def levels(before: Outlook | None, now: Outlook) -> list[str]:
    earlier = PieceThen(PLAN, replace(PIECE, done=11), before) if before else None
    return [notice.level for notice in news(earlier, PieceThen(PLAN, PIECE, now))]


@pytest.mark.parametrize(
    ("before", "now", "said"),
    [
        (WELL, WELL, []),
        (None, WELL, []),
        (WELL, off(WELL), ["off"]),  # new
        (None, off(WELL), ["off"]),
        (off(WELL), off(WELL), []),  # said already
        (off(WELL, 230), off(WELL, 229), []),  # other figures are no other alarm
        (off(WELL, 230), off(WELL, 250), ["off"]),  # now too long
        (off(WELL), count(WELL, "bead missed"), ["off"]),  # another cause
        (count(WELL, "bead missed"), count(WELL, "bead too many"), ["off"]),
        (count(WELL, "bead missed"), count(WELL, "bead missed"), []),
        (WELL, surprised(WELL), ["watch"]),  # a reading too much to be the ruler
        (surprised(WELL), surprised(WELL), []),
        (surprised(WELL), surprised(surprised(WELL)), ["watch"]),  # another one
        (surprised(WELL), count(surprised(WELL), "bead missed"), ["off"]),
        (off(WELL), WELL, ["quiet"]),  # over
        (WELL, DUE, ["quiet"]),  # the ruler
        (off(WELL), off(DUE), ["quiet"]),  # the ruler only, not the alarm again
        (WELL, cord(WELL, "scant", 0.1), ["watch"]),
        (cord(WELL, "scant", 0.1), cord(WELL, "scant", 0.12), []),
        (cord(WELL, "scant", 0.1), cord(WELL, "runs out", 0.7, 25), ["off"]),  # worse
        (cord(WELL, "runs out", 0.7, 25), cord(WELL, "runs out", 0.7, 25), []),
        (cord(WELL, "runs out", 0.7, 25), cord(WELL, "runs out", 0.8, 22), ["off"]),  # it ends earlier
        (cord(WELL, "runs out", 0.7, 25), WELL, ["quiet"]),  # over
        (WELL, cord(off(WELL), "runs out", 0.7, 25), ["off", "off"]),
    ],
)
def test_what_is_said(before, now, said) -> None:
    assert levels(before, now) == said


def test_the_ruler_is_asked_for_once() -> None:
    told = list(news(PieceThen(PLAN, replace(PIECE, done=11), off(DUE)), PieceThen(PLAN, PIECE, off(DUE))))
    assert [notice.headline for notice in told] == [""]
    assert list(news(PieceThen(PLAN, PIECE, off(DUE)), PieceThen(PLAN, replace(PIECE, done=13), off(DUE)))) == []
