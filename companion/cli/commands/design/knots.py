"""knots: how every knot and closure is worked, without a piece."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from textwrap import fill

from companion.cli.arguments import Wrong
from companion.cli.printing import is_told_in_sentences, say
from companion.core.values.text import capitalised, join_words, plain
from companion.core.words.trade.how_to import PageLine, how_to, how_to_list, how_to_page, names
from companion.workshop import Workshop

COLUMNS = 78


def declare_knots(command: argparse.ArgumentParser) -> None:
    """What `knots` takes."""
    command.add_argument("name", metavar="NAME", nargs="*", help="a knot or closure, or the beginning of its name")
    command.add_argument(
        "--unit", choices=("in", "cm", "mm"), help="the unit for lengths (as in the settings, else mm)"
    )


def run_knots(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List them, or say how one is worked."""
    name = " ".join(arguments.name)
    if not name:
        if is_told_in_sentences():
            for line in how_to_list(for_the_ear=True):
                say(line.text)
        else:
            _say(how_to_list())
        return 0
    settings = workshop.settings
    told = how_to(name, arguments.unit or settings.unit or "mm", left_handed=settings.hand == "left")
    if told is None:
        raise Wrong(f"There is no knot or closure named {plain(name, 40)}. Type one of these: {join_words(names())}.")
    say(capitalised(told.name))
    _say(how_to_page(told, is_told_in_sentences()))
    return 0


def _say(lines: Iterable[PageLine]) -> None:
    for line in lines:
        drawn = len(line.text) <= COLUMNS  # a drawing keeps its spaces
        say(line.text if drawn else fill(line.text, COLUMNS, subsequent_indent=" " * line.hang))
