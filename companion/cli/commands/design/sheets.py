"""sheet: a design or a piece on paper, with a box to tick for each step."""

from __future__ import annotations

import argparse
from pathlib import Path

from companion.cli.arguments import Wrong
from companion.cli.design_report import planned_design
from companion.cli.printing import say, say_exactly
from companion.cli.which_piece import add_design_or_piece, meant_piece
from companion.core.plan.plan import Plan
from companion.core.sheet.sheet import StepSheet, step_sheet
from companion.core.sheet.sheet_text import sheet_lines
from companion.core.values.text import plain
from companion.workshop import Workshop

DESIGN_ENDINGS = (".yaml", ".yml")


def declare_sheet(command: argparse.ArgumentParser) -> None:
    """What `sheet` takes."""
    add_design_or_piece(command)
    command.add_argument("--card", metavar="NAME", help="for a design: plan it by the cord card of that name")
    command.add_argument("--html", metavar="FILE", help="as a page to print, to a new file or - (the output)")
    command.add_argument("--force", action="store_true", help="write over a page that is there")


def run_sheet(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print the sheet, or write it as a page."""
    found = _found(arguments, workshop)
    if found is None:
        return 1
    plan, sheet = found
    if arguments.html is None:
        say("\n".join(sheet_lines(sheet)))
    elif arguments.html == "-":
        from companion.core.sheet.sheet_html import sheet_page

        say_exactly("\n".join(sheet_page(sheet, plan)))
    else:
        place = Path(arguments.html)
        workshop.designs.save_sheet(sheet, plan, place, over=arguments.force)
        say(f"Saved {plain(str(place))}. Open it in a browser, and print it at 100 %.")
    return 0


def _found(arguments: argparse.Namespace, workshop: Workshop) -> tuple[Plan, StepSheet] | None:
    """The plan that is meant, and its sheet: of a design file, else of a piece. None for a design with errors."""
    settings = workshop.settings
    left_handed = settings.hand == "left"
    if arguments.named is None and arguments.piece and _is_design(arguments.piece):
        plan = planned_design(workshop, arguments.piece, arguments.card).plan
        if plan is None:
            return None
        return plan, step_sheet(plan, own_arm_mm=settings.arm_mm, left_handed=left_handed)
    if arguments.card is not None:
        raise Wrong("--card goes with a design file: a piece keeps the cord card that it was begun with.")
    opened = meant_piece(arguments, workshop, ended=True).opened
    plan = opened.plan
    return plan, step_sheet(plan, opened.name, opened.piece, settings.arm_mm, left_handed)


def _is_design(word: str) -> bool:
    """A file that is there, or what is called as design files are."""
    return word.lower().endswith(DESIGN_ENDINGS) or Path(word).is_file()
