"""readings: all readings of a piece, and any of them taken out or put back."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.arguments import Wrong, whole_number
from companion.cli.printing import say, say_json
from companion.cli.verdict_report import say_verdicts
from companion.cli.which_piece import Meant, add_piece, meant_piece
from companion.core.journal.events import PutBack, TakenOut
from companion.core.journal.names import alike
from companion.core.plan.plan import Plan
from companion.core.words.measured.reading_list_words import NONE_YET, reading_line
from companion.core.words.step_words import step_code
from companion.core.words.undo_words import reading_turned
from companion.workshop import DatedReading, OpenPiece, Workshop


def declare_readings(command: argparse.ArgumentParser) -> None:
    """What `readings` takes."""
    add_piece(command)
    command.add_argument("--out", metavar="N", help="take out reading number N: it no longer counts")
    command.add_argument("--in", dest="back", metavar="N", help="put reading number N back: it counts again")
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def run_readings(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List the readings of a piece, or take one out, or put it back."""
    if arguments.out is not None and arguments.back is not None:
        raise Wrong("Found --out and --in; expected one of them.")
    meant = meant_piece(arguments, workshop)
    opened = _turned(arguments, workshop, meant.opened)
    if arguments.json:
        listed = [_reading_json(opened.plan, one) for one in workshop.readings(opened)]
        say_json({"format": 1, "piece": opened.name, "readings": listed})
        return 0
    meant.say()
    if opened is meant.opened:
        _say_list(workshop, meant)
        return 0
    assert isinstance(opened.piece.act, TakenOut | PutBack)
    say(reading_turned(opened.plan, opened.piece.act))
    say_verdicts(opened, workshop)
    return 0


def _turned(arguments: argparse.Namespace, workshop: Workshop, opened: OpenPiece) -> OpenPiece:
    """The piece with a reading taken out or put back, where that is asked for. Raises Wrong or NotPossible."""
    if arguments.out is not None:
        return workshop.take_out(opened, whole_number(arguments.out, "the number of a reading"))
    if arguments.back is not None:
        return workshop.put_back(opened, whole_number(arguments.back, "the number of a reading"))
    return opened


def _say_list(workshop: Workshop, meant: Meant) -> None:
    opened = meant.opened
    readings = workshop.readings(opened)
    for one in readings:
        say(reading_line(opened.plan, one.listed, f"{one.at.astimezone():%Y-%m-%d %H:%M}"))
    if not readings:
        say(NONE_YET)
    if opened.piece.all_readings and opened.piece.state == "under way":
        say(f"`tallycord readings {alike(opened.name)} --out N` takes number N out; `--in N` puts it back.")


def _reading_json(plan: Plan, one: DatedReading) -> dict[str, Any]:
    """A reading as plain values; keys may be added, never renamed."""
    listed, measured = one.listed, one.listed.measured
    known = 1 <= measured.step <= plan.total_steps
    expected_mm = listed.expected_mm
    return {
        "number": listed.number,
        "at": one.at.isoformat(),
        "kind": measured.kind,
        "step": measured.step,
        "step_name": step_code(plan, measured.step) if known else str(measured.step),
        "length_mm": measured.length_mm,
        "typed": measured.typed,
        "planned_mm": listed.planned_mm,
        "believed_mm": listed.believed_mm,
        "off_mm": None if expected_mm is None else measured.length_mm - expected_mm,
        "state": listed.state,
    }
