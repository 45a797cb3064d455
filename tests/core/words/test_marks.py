"""The mark of a warning on the bench is the one that the piece itself shows."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.outlook import Fault
from companion.core.journal.piece import Piece
from companion.core.words.marks import warned
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.verdict_words import verdict_line
from companion.workshop import warning_of
from tests.core.forecast.longstone import longstone
from tests.core.outlooks import forecast

LEVELS = {"quiet": "", "watch": "△", "off": "▲"}


@pytest.mark.parametrize("verdict", ["on plan", "watch", "off"])
@pytest.mark.parametrize("cord", ["enough", "short to hold", "scant", "runs out"])
def test_the_bench_warns_as_the_piece_does(verdict, cord) -> None:
    plan = longstone()
    piece = Piece(plan.total_steps, 16)
    outlook = forecast(plan, piece)
    entry = outlook.entries[0]
    entry = replace(entry, cord=replace(entry.cord, verdict=cord, step=20, bead=60, short_mm=20.0, p_run_out=0.5))
    outlook = replace(outlook, verdict=verdict, entries=(entry,))
    said = [notice.level for notice in (verdict_line(plan, piece, outlook), cord_line(plan, outlook))]
    worst = max(said, key=list(LEVELS).index)
    assert warned(warning_of(outlook))[:1] == LEVELS[worst]


@pytest.mark.parametrize("chance", [0.2, 0.6])
def test_a_count_is_marked_as_the_piece_marks_it(chance) -> None:
    plan = longstone()
    piece = Piece(plan.total_steps, 16)
    outlook = replace(
        forecast(plan, piece), verdict="recount", faults=(Fault("bead missed", chance, 0, 6, 12, plan.beads[0].key),)
    )
    level = verdict_line(plan, piece, outlook).level
    assert level == ("off" if chance > 0.5 else "watch")
    assert warned(warning_of(outlook))[:1] == LEVELS[level]
