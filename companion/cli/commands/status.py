"""status: where a piece stands, for screen readers, scripts and slow connections."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import Any

from companion.cli.piece_report import say_leftover_due
from companion.cli.printing import say, say_json
from companion.cli.verdict_report import cord_json, say_verdicts
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.values.measures.show_lengths import display_unit, show_both
from companion.core.values.text import sentences
from companion.core.words.measured.cord_words import cord_is_done
from companion.core.words.measured.expected_words import expected_words
from companion.core.words.measured.reading_words import expected_reading
from companion.core.words.measured.reason_words import finishes_at, settling_words
from companion.core.words.notices import heading
from companion.core.words.recap import recap
from companion.core.words.result_words import result_lines
from companion.core.words.step_words import step_code
from companion.workshop import OpenPiece, Workshop


def declare_status(command: argparse.ArgumentParser) -> None:
    """What `status` takes."""
    add_piece(command)
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")
    command.add_argument(
        "--chart", action="store_true", help="draw how far each reading is from the plan, and list the numbers"
    )


def run_status(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Where a piece stands."""
    meant = meant_piece(arguments, workshop)
    opened = meant.opened
    if arguments.json:
        say_json(_status_json(opened, workshop) | (_chart_json(opened, workshop) if arguments.chart else {}))
        return 0
    meant.say()
    if arguments.chart:
        from companion.cli.chart_report import say_chart

        say_chart(opened, workshop)
    else:
        _say(opened, workshop)
    return 0


def _say(opened: OpenPiece, workshop: Workshop) -> None:
    plan, piece, unit = opened.plan, opened.piece, display_unit(opened.plan.unit)
    say(heading(plan))
    if piece.state != "under way":
        for line in _ended(opened, workshop):
            say(line)
        return
    outlook = workshop.outlook(opened)
    strand_mm = expected_reading(plan, piece, outlook, "strand").mean_mm
    for line in recap(plan, piece, strand_mm, "give it to `tallycord recount`").lines:
        say(line)
    say_leftover_due(opened)
    say(sentences(f"Finishes at {finishes_at(plan, piece, outlook)}.", settling_words(plan, piece, outlook)))
    if not cord_is_done(plan, outlook) and not workshop.is_trimmed(opened):
        own, other = show_both(expected_reading(plan, piece, outlook, "free").mean_mm, unit)
        say(expected_words(plan, "free", f"about {own} ({other})"))
    say_verdicts(opened, workshop)
    if workshop.design_differs(opened):
        say("The design file has changed since this piece began; the piece keeps its own copy.")


def _ended(opened: OpenPiece, workshop: Workshop) -> Iterator[str]:
    """How a piece ended: there is nothing to forecast any more."""
    plan, piece = opened.plan, opened.piece
    if piece.state == "abandoned":
        yield f"Put away: {piece.done} of {plan.total_steps} steps were done."
        return
    took, left_mm, scrap_mm = workshop.worked(opened), workshop.left_at_the_end(opened), workshop.settings.scrap_mm
    aside = workshop.set_aside(opened)
    for line in result_lines(plan, opened.began_with, piece, took, left_mm, scrap_mm, aside):
        if line.text:
            yield "  " * line.depth + line.text


def _chart_json(opened: OpenPiece, workshop: Workshop) -> dict[str, Any]:
    from companion.cli.chart_report import drift_json

    return drift_json(opened, workshop)


def _status_json(opened: OpenPiece, workshop: Workshop) -> dict[str, Any]:
    outlook, piece, plan = workshop.outlook(opened), opened.piece, opened.plan
    coming = piece.done + 1 if piece.done < plan.total_steps else None
    entry, number = plan.place(coming) if coming else (0, 0)
    return {
        "piece": opened.name,
        "name": plan.design,
        "state": piece.state,
        "steps_done": piece.done,
        "steps_total": plan.total_steps,
        "next": plan.strands[entry].steps[number - 1].text if coming else None,
        "next_step": step_code(plan, coming) if coming else None,
        "strand_mm": expected_reading(plan, piece, outlook, "strand").mean_mm,
        "free_cord_mm": expected_reading(plan, piece, outlook, "free").mean_mm,
        "finished_mean_mm": outlook.finished.mean_mm,
        "finished_low95_mm": outlook.finished.low95_mm,
        "finished_high95_mm": outlook.finished.high95_mm,
        "p_in_tolerance": outlook.p_in_tolerance,
        "verdict": outlook.verdict,
        "cord": cord_json(outlook),
        "next_reading_step": outlook.next_reading_step,
    }
