"""completion: what the shell needs to complete a line, and what a line that is begun could go on with."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path

from companion.cli.arguments import Wrong
from companion.cli.command_table import COMMANDS
from companion.cli.commands.keeping.shell_scripts import BETWEEN_WORDS, SCRIPTS, TYPED
from companion.cli.printing import say_exactly
from companion.core.values.errors import WorkshopError
from companion.workshop import Workshop

TOP_OPTIONS = ("--help", "--spoken", "--version")
DESIGN_ENDING = ".yaml"
MOST = 500  # candidates: nobody reads more


def declare_completion(command: argparse.ArgumentParser) -> None:
    """What `completion` takes."""
    command.add_argument("shell", metavar="SHELL", nargs="?", choices=tuple(SCRIPTS), help=", ".join(SCRIPTS))
    command.add_argument("--candidates", action="store_true", help=argparse.SUPPRESS)


def run_completion(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Print the lines for a shell; or, for those lines, what the words that are typed could go on with."""
    if arguments.candidates:
        text = os.environ.get(TYPED, "")
        *before, word = map(unquoted, text.split(BETWEEN_WORDS)[:-1] or [""])
        with suppress(WorkshopError):
            for one in candidates(before, word, workshop)[:MOST]:
                say_exactly(one)
        return 0
    if arguments.shell is None:
        raise Wrong(f"Found no SHELL; expected one of {', '.join(SCRIPTS)}.")
    say_exactly(SCRIPTS[arguments.shell])
    return 0


def candidates(before: Sequence[str], word: str, workshop: Workshop) -> list[str]:
    """What could stand in place of `word`, the last of the line, after the words `before` it. Raises WorkshopError."""
    if not before:
        return _beginning([*(command.name for command in COMMANDS), *TOP_OPTIONS], word)
    named = next((command for command in COMMANDS if command.name == before[0]), None)
    if named is None:
        return []
    from companion.cli.parser import line_of

    line = line_of(named)
    options = {name: action for action in line._get_optional_actions() for name in action.option_strings}
    asked = options.get(before[-1])
    if asked is not None and asked.nargs != 0:
        return _values(named.name, asked, word, workshop)
    if word.startswith("-"):
        return _beginning(sorted(name for name in options if name.startswith("--")), word)
    place = _words_before(before[1:], options)
    words = line._get_positional_actions()
    if not words or (place >= len(words) and words[-1].nargs not in ("*", "+")):
        return []
    return _values(named.name, words[min(place, len(words) - 1)], word, workshop)


def unquoted(word: str) -> str:
    """A word as the shell will take it: what is typed of it may be in quotes, or have a mark before each space."""
    return word.lstrip("\"'").replace("\\", "")


def _words_before(typed: Sequence[str], options: dict[str, argparse.Action]) -> int:
    """How many of the words that are typed are neither options nor what an option takes."""
    count, taken = 0, False
    for text in typed:
        is_option = text.startswith("-")
        count += not (taken or is_option)
        taken = is_option and text in options and options[text].nargs != 0
    return count


def _values(command: str, action: argparse.Action, word: str, workshop: Workshop) -> list[str]:
    """What can stand for that word or option of a command, by the name that it has in the help."""
    if action.choices:
        return _beginning(map(str, action.choices), word)
    match command, action.metavar:
        case _, "PIECE":
            return _beginning((row.name for row in workshop.pieces()), word)
        case "knots", "NAME":
            from companion.core.words.trade.how_to import names

            return _beginning(names(), word)
        case "settings", "NAME":
            from companion.core.values.setting_list import SETTINGS

            return _beginning((setting.name for setting in SETTINGS), word)
        case _, "NAME":
            return _beginning((card.name for card in workshop.cards()), word)
        case ("design", "FILE") | (_, "DESIGN"):
            own = sorted(workshop.designs_folder.glob(f"*{DESIGN_ENDING}"))
            return [*_files(word, DESIGN_ENDING), *_beginning(map(str, own), word)]
        case _, "FILE":
            return _files(word)
    return []


def _files(word: str, ending: str = "") -> list[str]:
    """The files of that ending, and the folders, whose path begins so, as it is typed."""
    folder, slash, letters = word.rpartition("/")
    found: list[str] = []
    with suppress(OSError, RuntimeError):
        for path in sorted(Path(f"{folder}/" if slash else ".").expanduser().iterdir()):
            name = path.name
            if name.startswith(letters) and (letters or not name.startswith(".")) and name.isprintable():
                shown = f"{folder}{slash}{name}"
                found += [f"{shown}/"] if path.is_dir() else [shown] if name.endswith(ending) else []
    return found


def _beginning(names: Iterable[str], letters: str) -> list[str]:
    """Those that begin with these letters, in capitals or not."""
    return [name for name in names if name.lower().startswith(letters.lower()) and name.isprintable()]
