"""export and import: all pieces and cards as one document, to keep elsewhere or take to another machine."""

from __future__ import annotations

import argparse
from pathlib import Path

from companion.cli.printing import complain, counted, say, say_exactly, say_json
from companion.core.values.merge_result import Kind, Merged, Outcome
from companion.core.values.text import join_words, plain
from companion.workshop import Workshop

MOST_NAMES = 6
KINDS: dict[Kind, str] = {"pieces": "piece", "cards": "cord card", "beads": "kind of bead"}
OUTCOMES: dict[Outcome, str] = {
    "added": "added",
    "continued": "continued",
    "behind": "newer here, so not changed",
    "same": "the same here",
}


def declare_export(command: argparse.ArgumentParser) -> None:
    """What `export` takes."""
    command.add_argument("file", metavar="FILE", nargs="?", default="-", help="a new file, or - (the output)")
    command.add_argument("--force", action="store_true", help="write over a file that is there")


def run_export(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write an export."""
    if arguments.file == "-":
        for line in workshop.exports.lines():
            say_exactly(line)
    else:
        workshop.exports.write(Path(arguments.file), over=arguments.force)
    return 0


def declare_import(command: argparse.ArgumentParser) -> None:
    """What `import` takes."""
    command.add_argument("file", metavar="FILE", help="what tallycord export has written")
    command.add_argument("--json", action="store_true", help="what came of each, as JSON")


def run_import(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Take an export in."""
    merged = workshop.exports.take_in(Path(arguments.file))
    apart = merged.named("pieces", "apart") + merged.named("cards", "apart")
    if arguments.json:
        found = {"pieces": merged.pieces, "cards": merged.cards, "beads": merged.beads}
        say_json({"format": 1, **{kind: _outcomes(one) for kind, one in found.items()}})
    else:
        say("\n".join(merged_lines(merged)))
    for line in apart_lines(merged):
        complain(f"▲ {line}")
    return 1 if apart else 0


def _outcomes(found: dict[str, Outcome]) -> list[dict[str, str]]:
    return [{"name": name, "outcome": outcome} for name, outcome in found.items()]


def merged_lines(merged: Merged) -> list[str]:
    """What came of an import, a sentence for each outcome."""
    lines = []
    for kind, one in KINDS.items():
        for outcome, said in OUTCOMES.items():
            names = merged.named(kind, outcome)
            if names:
                lines.append(f"{counted(len(names), one)} {said}{_names(names) if outcome != 'same' else ''}.")
    lines += [f"{plain(old)} is named {plain(new)} here: that name was taken." for new, old in merged.renamed.items()]
    return lines or ["There was nothing in it to import."]


def apart_lines(merged: Merged) -> list[str]:
    """What was left out, and why."""
    lines = [f"{plain(name)} differs in the two copies; yours was kept." for name in merged.named("pieces", "apart")]
    return lines + [
        f"The cord card {plain(name)} differs in the two copies, or is of another cord; yours was kept."
        for name in merged.named("cards", "apart")
    ]


def _names(names: tuple[str, ...]) -> str:
    shown = [plain(name) for name in names[:MOST_NAMES]]
    more = len(names) - len(shown)
    return f" ({join_words([*shown, f'{more} more'] if more else shown)})"
