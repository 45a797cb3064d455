"""The readings' chart of a piece as a command prints it: drawn, with its numbers below; in sentences for the ear."""

from __future__ import annotations

from typing import Any

from companion.cli.printing import can_be_shown, is_for_the_ear, say, say_exactly
from companion.core.chart.drift import Drift
from companion.core.chart.picture import chart
from companion.core.values.measures.show_lengths import display_unit
from companion.core.words.measured.chart_words import (
    NOTHING_READ,
    legend_lines,
    suspicion,
    table_lines,
    table_sentences,
    title,
)
from companion.core.words.notices import heading
from companion.workshop import OpenPiece, Workshop

COLUMNS, ROWS = 60, 12


def say_chart(opened: OpenPiece, workshop: Workshop) -> None:
    """A chart for each entry that is begun, the one in hand first."""
    plan = opened.plan
    say(heading(plan))
    for drift in workshop.charted(opened).drifts:
        drawn = chart(drift, display_unit(plan.unit), COLUMNS, ROWS, suspicion(drift))
        say(f"{title(plan, drift)}:")
        if is_for_the_ear() or not can_be_shown(str(drawn)):
            for line in table_sentences(plan, drift):
                say(line)
            continue
        say_exactly(str(drawn))  # a picture, no sentence: its marks stay
        for line in legend_lines(drift, COLUMNS):
            say_exactly(line)
        if not drift.readings:
            say(NOTHING_READ)
        say()
        for line in table_lines(plan, drift):
            say(line)


def drift_json(opened: OpenPiece, workshop: Workshop) -> dict[str, Any]:
    """The same numbers as plain values; keys may be added, never renamed."""
    return {"chart": [_entry_json(opened, drift) for drift in workshop.charted(opened).drifts]}


def _entry_json(opened: OpenPiece, drift: Drift) -> dict[str, Any]:
    gate, suspected = drift.gate, drift.suspected
    return {
        "entry": opened.plan.strands[drift.entry].label,
        "planned_end_mm": drift.length_mm,
        "readings": [
            {"step": one.step, "planned_mm": one.planned_mm, "strand_mm": one.length_mm, "set_aside": one.set_aside}
            for one in drift.readings
        ],
        "coming": [
            {
                "step": one.step,
                "planned_mm": one.planned_mm,
                "mean_mm": one.planned_mm + one.off.mean_mm,
                "low95_mm": one.planned_mm + one.off.low95_mm,
                "high95_mm": one.planned_mm + one.off.high95_mm,
            }
            for one in drift.coming
        ],
        "tolerance_low_mm": drift.length_mm + gate.low_mm if gate else None,
        "tolerance_high_mm": drift.length_mm + gate.high_mm if gate else None,
        "suspected": {"kind": suspected.kind, "p": suspected.p, "planned_mm": suspected.planned_mm}
        if suspected
        else None,
    }
