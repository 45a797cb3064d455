"""forecast: what ruler readings of a design mean, without a piece. It writes nothing."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.arguments import Wrong, add_design, step_of
from companion.cli.design_report import planned_design
from companion.cli.printing import say, say_json, tell
from companion.cli.typed_lengths import cuts_of, length_mm, ruler_step_mm
from companion.cli.verdict_report import cord_json
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.forecast.verdicts import NAMED_FROM
from companion.core.journal.events import CutEntered, Measured, ReadingKind
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import best_is_poor, remedy_line
from companion.core.remedies.search import remedies
from companion.core.values.text import plain
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.fault_words import fault_words
from companion.core.words.measured.reason_words import finishes_at
from companion.core.words.measured.verdict_words import verdict_line
from companion.workshop import Workshop


def declare_forecast(command: argparse.ArgumentParser) -> None:
    """What `forecast` takes."""
    add_design(command)
    command.add_argument(
        "--strand", metavar="STEP=LENGTH", action="append", default=[], help="the length of the strand after STEP"
    )
    command.add_argument(
        "--free",
        metavar="STEP=LENGTH",
        action="append",
        default=[],
        help="the leftover cord after STEP, each cord, tail included",
    )
    command.add_argument(
        "--cut", metavar="LENGTH", action="append", default=[], help="the length you really cut, as for start"
    )
    command.add_argument(
        "--ruler", metavar="LENGTH", help="the smallest mark on the ruler (as in the settings, else 1 mm)"
    )
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def run_forecast(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Forecast from readings."""
    plan = planned_design(workshop, arguments.design, arguments.card).plan
    if plan is None:
        return 1
    ruler_mm = ruler_step_mm(arguments.ruler) if arguments.ruler is not None else workshop.settings.ruler_mm or 1.0
    typed: list[tuple[ReadingKind, str]] = [("strand", text) for text in arguments.strand]
    typed += [("free", text) for text in arguments.free]
    readings = sorted((_reading(plan, kind, text, ruler_mm) for kind, text in typed), key=lambda one: one.step)
    piece = _piece(plan, readings, cuts_of(plan, arguments.cut))
    outlook = Forecaster(plan, faults=True).outlook(piece)
    found = remedies(plan, piece, outlook)
    if arguments.json:
        say_json(forecast_json(plan, outlook, found))
    else:
        _say(plan, piece, outlook, found)
    return 0


def _reading(plan: Plan, kind: ReadingKind, text: str, ruler_mm: float) -> Measured:
    step, equals, length = text.rpartition("=")
    if not equals:
        raise Wrong(f"Found {plain(text, 40)}; expected STEP=LENGTH, such as 24=182mm.")
    return Measured(kind, step_of(plan, step.strip()), length_mm(length.strip()), plain(length, 40), ruler_mm)


def _piece(plan: Plan, readings: list[Measured], cuts: tuple[CutEntered, ...]) -> Piece:
    done = max((reading.step for reading in readings), default=0)
    return Piece(total_steps=plan.total_steps, done=done, cuts=cuts, readings=tuple(readings))


def _say(plan: Plan, piece: Piece, outlook: Outlook, found: tuple[Remedy, ...]) -> None:
    say(f"It would finish at {finishes_at(plan, piece, outlook)}.")
    tell(verdict_line(plan, piece, outlook))
    for fault in outlook.faults[:3]:
        if fault.p >= NAMED_FROM:
            say(f"  {fault_words(plan, fault)}")
    tell(cord_line(plan, outlook))
    for number, remedy in enumerate(found, start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy_line(plan, remedy)}")
    if best_is_poor(found):
        say(best_is_poor(found))


def forecast_json(plan: Plan, outlook: Outlook, found: tuple[Remedy, ...]) -> dict[str, Any]:
    """The forecast as plain values; keys may be added, never renamed."""
    return {
        "format": 1,
        "finished_mean_mm": outlook.finished.mean_mm,
        "finished_low95_mm": outlook.finished.low95_mm,
        "finished_high95_mm": outlook.finished.high95_mm,
        "finished_sd_mm": outlook.finished.sd_mm,
        "p_in_tolerance": outlook.p_in_tolerance,
        "verdict": outlook.verdict,
        "p_fault": outlook.p_fault,
        "stories": [
            {"kind": fault.kind, "p": fault.p, "from_step": fault.from_step, "text": fault_words(plan, fault)}
            for fault in outlook.faults
        ],
        "cord": cord_json(outlook),
        "next_reading_step": outlook.next_reading_step,
        "remedies": [_remedy_json(plan, remedy) for remedy in found],
        "strands": [
            {
                "entry": strand.label,
                "strand_mean_mm": entry.strand_end.mean_mm,
                "strand_low95_mm": entry.strand_end.low95_mm,
                "strand_high95_mm": entry.strand_end.high95_mm,
            }
            for strand, entry in zip(plan.strands, outlook.entries, strict=True)
        ],
    }


def _remedy_json(plan: Plan, remedy: Remedy) -> dict[str, Any]:
    return {
        "text": remedy_line(plan, remedy),
        "what": remedy.what,
        "finished_mean_mm": remedy.finished_mm,
        "p_in_tolerance": remedy.p_in_tolerance,
        "cord_mm": remedy.cord_mm,
        "p_run_out": remedy.p_run_out,
    }
