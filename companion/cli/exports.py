"""export and import: all pieces and cards as one document, to keep elsewhere or take to another machine; and rescue:
what is left of a broken file of pieces."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from companion.cli.declare import Commands, declare
from companion.cli.printing import complain, say, say_json
from companion.core.values.merge_result import Kind, Merged, Outcome
from companion.core.values.rescue_result import Rescue, Source
from companion.core.values.text import join_words, plain
from companion.workshop import Workshop

MOST_NAMES = 6
NOTHING_THERE = "There is no file of pieces yet, and no copy of one: there is nothing to rescue."
KINDS: dict[Kind, str] = {"pieces": "piece", "cards": "cord card"}
OUTCOMES: dict[Outcome, str] = {
    "added": "added",
    "continued": "continued",
    "behind": "newer here, and left so",
    "same": "the same here",
}


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    export = declare(
        commands,
        "export",
        run_export,
        "all pieces and cord cards as one JSON document",
        ("export pieces.json", "export - > pieces.json"),
        "Write all pieces, with their journals, and all cord cards as one JSON document: to a new file that only you "
        "may read, or to the output with -.",
    )
    export.add_argument("file", metavar="FILE", nargs="?", default="-", help="a new file, or - (the output)")
    export.add_argument("--force", action="store_true", help="write over a file that is there")
    taking = declare(
        commands,
        "import",
        run_import,
        "take in the pieces and cards of an export",
        ("import pieces.json", "import pieces.json --json"),
        "Take in an export: all of it, or nothing where anything in it can't be. A piece that is not here is added; "
        "one that has gone on there is continued; newer work here stays. A piece that has gone on differently here "
        "and there is left as it is, and told (exit code 1). Twice is once.",
    )
    taking.add_argument("file", metavar="FILE", help="what companion export has written")
    taking.add_argument("--json", action="store_true", help="what came of each, as JSON")
    rescue = declare(
        commands,
        "rescue",
        run_rescue,
        "what can be saved of a damaged file of pieces",
        ("rescue", "rescue --yes"),
        "Tell what still reads of a damaged file of pieces and of its newest good copy; nothing is changed. With "
        "--yes a new file takes its place, with all that reads of both: of each piece the longer journal. The damaged "
        "file is kept beside it, under a dated name.",
    )
    rescue.add_argument("--yes", action="store_true", help="do it")


def run_export(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write an export."""
    if arguments.file == "-":
        for line in workshop.export_lines():
            say(line)
    else:
        workshop.export_to(Path(arguments.file), over=arguments.force)
    return 0


def run_import(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Take an export in."""
    merged = workshop.import_from(Path(arguments.file))
    apart = merged.named("pieces", "apart") + merged.named("cards", "apart")
    if arguments.json:
        say_json({"format": 1, "pieces": _outcomes(merged.pieces), "cards": _outcomes(merged.cards)})
    else:
        say("\n".join(merged_lines(merged)))
    for line in apart_lines(merged):
        complain(f"▲ {line}")
    return 1 if apart else 0


def run_rescue(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell what can be saved, or save it."""
    found = workshop.rescue() if arguments.yes else workshop.look_for_rescue()
    if found.state == "sound" or (found.state == "missing" and found.copy is None):
        say("The file of pieces reads well: there is nothing to rescue." if found.state == "sound" else NOTHING_THERE)
        return 0
    say("\n".join(rescue_lines(found, done=arguments.yes)))
    return 0 if arguments.yes and (found.aside or found.state == "missing") else 1


def rescue_lines(found: Rescue, done: bool) -> list[str]:
    """What reads of the file and of its newest good copy, and what was or can be done."""
    lines = ["The file of pieces is damaged." if found.state == "damaged" else "There is no file of pieces."]
    if found.state == "damaged":
        lines += [f"Of it {_reads(found.file)}.", *(f"  ▲ {plain(words)}." for words in found.file.lost)]
    copy = found.copy
    lines.append(f"Of its newest good copy, {plain(copy.name)}, {_reads(copy)}." if copy else "There is no good copy.")
    if copy and found.state == "damaged":
        more = (copy.pieces, copy.events) > (found.file.pieces, found.file.events)
        lines.append(f"The {'copy' if more else 'damaged file'} has more; of each piece the longer journal is taken.")
    if done and (found.aside or found.state == "missing"):
        kept = f" The damaged file is kept as {plain(found.aside)}." if found.aside else ""
        lines.append(f"A new file of pieces is in its place.{kept}")
        lines += [f"▲ {plain(name)} differs in the two: it is as in the damaged file." for name in found.apart]
    elif copy is None and not found.file.pieces and not found.file.cards:
        lines.append("There is nothing to save. Move the file away to begin anew.")
    else:
        lines.append(
            "`companion rescue --yes` makes a new file of all that reads, and keeps the damaged one beside it."
        )
    return lines


def _reads(source: Source) -> str:
    parts = [_count(source.pieces, "piece"), _count(source.events, "event"), _count(source.cards, "cord card")]
    return f"{join_words(parts)} can be read"


def _outcomes(found: dict[str, Outcome]) -> list[dict[str, str]]:
    return [{"name": name, "outcome": outcome} for name, outcome in found.items()]


def merged_lines(merged: Merged) -> list[str]:
    """What came of an import, a sentence for each outcome."""
    lines = []
    for kind, one in KINDS.items():
        for outcome, said in OUTCOMES.items():
            names = merged.named(kind, outcome)
            if names:
                lines.append(f"{_count(len(names), one)} {said}{_names(names) if outcome != 'same' else ''}.")
    lines += [f"{plain(old)} is named {plain(new)} here: that name was taken." for new, old in merged.renamed.items()]
    return lines or ["There was nothing in it to take."]


def apart_lines(merged: Merged) -> list[str]:
    """What was left out, and why."""
    lines = [
        f"{plain(name)} has gone on differently here and there: it is left as it is here."
        for name in merged.named("pieces", "apart")
    ]
    return lines + [
        f"The cord card {plain(name)} has other tests here, or is of another cord: it is left as it is here."
        for name in merged.named("cards", "apart")
    ]


def _count(count: int, word: str) -> str:
    return f"{count} {word}{'s' if count != 1 else ''}"


def _names(names: tuple[str, ...]) -> str:
    shown = [plain(name) for name in names[:MOST_NAMES]]
    more = len(names) - len(shown)
    return f" ({join_words([*shown, f'{more} more'] if more else shown)})"
