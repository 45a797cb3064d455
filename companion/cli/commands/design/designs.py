"""plan, check and schema: they read design files and write nothing."""

from __future__ import annotations

import argparse
from pathlib import Path

from companion.cli.arguments import add_design
from companion.cli.design_report import planned_design
from companion.cli.plan_text import plan_lines
from companion.cli.printing import complain, is_told_in_sentences, say, say_exactly, say_json
from companion.core.plan.plan_json import plan_json
from companion.core.values.text import plain
from companion.core.words.bead_hints import look_hints
from companion.workshop import Workshop


def declare_plan(command: argparse.ArgumentParser) -> None:
    """What `plan` takes."""
    add_design(command)
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")
    command.add_argument("--picture", metavar="FILE", help="draw the piece as an SVG, to a new file or - (the output)")
    command.add_argument("--force", action="store_true", help="write over a picture that is there")


def run_plan(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print a plan."""
    plan = planned_design(workshop, arguments.design, arguments.card).plan
    if plan is None:
        return 1
    if arguments.picture == "-":
        from companion.core.drawing.svg import picture_svg

        say_exactly(picture_svg(plan))
    elif arguments.picture:
        workshop.designs.save_picture(plan, Path(arguments.picture), over=arguments.force)
    elif arguments.json:
        say_json(plan_json(plan), is_long=True)
    else:
        say("\n".join(plan_lines(plan, own_arm_mm=workshop.settings.arm_mm, for_the_ear=is_told_in_sentences())))
    return 0


def declare_check(command: argparse.ArgumentParser) -> None:
    """What `check` takes."""
    command.add_argument("designs", metavar="DESIGN", nargs="+", help="design files")


def run_check(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell every finding of every file."""
    failed = False
    for design in arguments.designs:
        planned = planned_design(workshop, design)
        plan = planned.plan
        failed = failed or plan is None
        for warning in plan.warnings if plan else ():
            complain(f"{plain(design)}: warning: {warning.text} ({warning.where})")
        for hint, kind in look_hints(planned.reading.design.beads if planned.reading.design else ()):
            complain(f"{plain(design)}: hint: {hint} (bead {kind.key})")
    return 1 if failed else 0


def declare_schema(command: argparse.ArgumentParser) -> None:
    """What `schema` takes."""
    command.add_argument("--export", action="store_true", help="the schema of what `tallycord export` writes")


def run_schema(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print the schema."""
    say_json(workshop.exports.schema() if arguments.export else workshop.designs.schema())
    return 0
