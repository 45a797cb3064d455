"""pieces: every piece, the latest first."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.printing import say, say_json
from companion.core.words.marks import warned
from companion.workshop import PieceRow, Workshop


def declare_pieces(command: argparse.ArgumentParser) -> None:
    """What `pieces` takes."""
    command.add_argument("--json", action="store_true", help="as JSON")


def run_pieces(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List all pieces."""
    rows = workshop.pieces()
    if arguments.json:
        say_json({"format": 1, "pieces": [piece_json(row) for row in rows]})
        return 0
    if not rows:
        say("No pieces yet. `tallycord start DESIGN` begins one.")
    for row in rows:
        warning = f"  {warned(row.warning)}" if row.warning and row.state == "under way" else ""
        say(f"{row.name}: {row.design_name}, step {row.steps_done} of {row.steps_total}, {row.state}{warning}")
    return 0


def piece_json(row: PieceRow) -> dict[str, Any]:
    """A piece as plain values; keys may be added, never renamed."""
    return {
        "piece": row.name,
        "name": row.design_name,
        "steps_done": row.steps_done,
        "steps_total": row.steps_total,
        "state": row.state,
    }
