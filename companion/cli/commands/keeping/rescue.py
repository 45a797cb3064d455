"""rescue: what is left of a broken file of pieces."""

from __future__ import annotations

import argparse

from companion.cli.printing import counted, say
from companion.core.values.rescue_result import Rescue, Source
from companion.core.values.text import join_words, plain
from companion.workshop import Workshop

NOTHING_THERE = "There is no file of pieces yet, and no copy of one: there is nothing to rescue."


def declare_rescue(command: argparse.ArgumentParser) -> None:
    """What `rescue` takes."""
    command.add_argument("--yes", action="store_true", help="do it")


def run_rescue(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell what can be saved, or save it."""
    found = workshop.rescue() if arguments.yes else workshop.look_for_rescue()
    if found.state == "sound" or (found.state == "missing" and found.copy is None):
        say("The file of pieces is sound: there is nothing to rescue." if found.state == "sound" else NOTHING_THERE)
        return 0
    say("\n".join(rescue_lines(found, done=arguments.yes)))
    return 0 if arguments.yes and (found.aside or found.state == "missing") else 1


def rescue_lines(found: Rescue, done: bool) -> list[str]:
    """What reads of the file and of its newest good copy, and what was or can be done."""
    lines = ["The file of pieces is damaged." if found.state == "damaged" else "There is no file of pieces."]
    if found.state == "damaged":
        lines += [f"From it, {_reads(found.file)}.", *(f"  ▲ {plain(words)}." for words in found.file.lost)]
    copy = found.copy
    lines.append(
        f"From its newest good copy, {plain(copy.name)}, {_reads(copy)}." if copy else "There is no good copy."
    )
    if copy and found.state == "damaged":
        more = (copy.pieces, copy.events) > (found.file.pieces, found.file.events)
        lines.append(f"The {'copy' if more else 'damaged file'} holds more. For each piece the longer journal is kept.")
    if done and (found.aside or found.state == "missing"):
        kept = f" The damaged file is kept as {plain(found.aside)}." if found.aside else ""
        lines.append(f"A new file of pieces is in its place.{kept}")
        lines += [f"▲ {plain(name)} differs in the two; the damaged file's was kept." for name in found.apart]
    elif copy is None and not found.file.pieces and not found.file.cards:
        lines.append("There is nothing to save. Move the file away to start afresh.")
    else:
        lines.append(
            "`tallycord rescue --yes` makes a new file of all that can be read, and keeps the damaged one beside it."
        )
    return lines


def _reads(source: Source) -> str:
    parts = [counted(source.pieces, "piece"), counted(source.events, "event"), counted(source.cards, "cord card")]
    return f"{join_words(parts)} can be read"
