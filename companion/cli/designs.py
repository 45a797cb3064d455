"""plan, check and schema: they read design files and write nothing."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from companion.cli.declare import Commands, declare
from companion.cli.printing import complain, say, say_json
from companion.workshop import Planned, Workshop

if TYPE_CHECKING:
    from companion.core.plan.card_choice import CordChoice


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    plan = declare(
        commands,
        "plan",
        run_plan,
        "what to cut, the finished length, checks and all steps of a design",
        ("plan skerry.yaml", "plan skerry.yaml --json", 'plan skerry.yaml --card "skerry silk"'),
        "Print the plan of a design: cut list, finished length, checks, cautions and every step. Nothing is written.",
    )
    plan.add_argument("design", metavar="DESIGN", help="a design file")
    plan.add_argument("--card", metavar="NAME", help="by that cord card, whatever the design says of its cord")
    plan.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")
    check = declare(
        commands,
        "check",
        run_check,
        "read design files and tell every error and warning",
        ("check skerry.yaml", "check patterns/*.yaml"),
        "Read design files and tell every error and warning in them, on stderr; nothing else. "
        "A design without any has nothing said of it.",
    )
    check.add_argument("designs", metavar="DESIGN", nargs="+", help="design files")
    schema = declare(
        commands,
        "schema",
        run_schema,
        "the JSON Schema of design files, for editors",
        ("schema > design.schema.json", "schema --export > export.schema.json"),
        "Print the JSON Schema of design files, so that an editor can complete and check them.",
    )
    schema.add_argument("--export", action="store_true", help="that of what `companion export` writes")


def run_plan(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print a plan."""
    planned = workshop.plan(Path(arguments.design), card_chosen(arguments.card))
    tell_problems(planned)
    if planned.plan is None:
        return 1
    if arguments.json:
        from companion.core.plan.plan_json import plan_json

        say_json(plan_json(planned.plan))
    else:
        from companion.cli.plan_text import plan_lines

        say("\n".join(plan_lines(planned.plan)))
    return 0


def run_check(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell every finding of every file."""
    failed = False
    for design in arguments.designs:
        planned = workshop.plan(Path(design))
        tell_problems(planned)
        if planned.plan is None:
            failed = True
            continue
        from companion.core.values.text import plain

        for warning in planned.plan.warnings:
            complain(f"{plain(design)}: warning: {warning.text} ({warning.where})")
    return 1 if failed else 0


def run_schema(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print the schema."""
    say_json(workshop.export_schema() if arguments.export else workshop.design_schema())
    return 0


def card_chosen(name: str | None) -> CordChoice | None:
    """The cord card that was asked for, if one was."""
    if name is None:
        return None
    from companion.core.plan.card_choice import CordChoice

    return CordChoice("card", name)


def tell_problems(planned: Planned) -> None:
    """All findings of one file, on stderr."""
    for problem in planned.problems:
        complain(str(problem))
