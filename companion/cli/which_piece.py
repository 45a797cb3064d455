"""Which piece a command is meant for: the one that it names, or the latest, and then that is said first.

A piece is named by `--piece`, or by the first word. A first word is a name wherever it is the whole name of a piece.
Else it depends on what the command takes besides: a length, number or step begins with a digit (a step also has an
entry before it), and anything else is a name; a text is in quotes, and a first word alone is a name. A name that is
none is refused, so that a slip of the finger never counts for another piece.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from companion.cli.arguments import Wrong
from companion.cli.printing import say
from companion.core.journal.names import alike
from companion.core.values.errors import NoSuchPiece
from companion.core.values.measures.units import VULGARS
from companion.core.values.text import plain
from companion.workshop import NotPossible, OpenPiece, Workshop

Takes = Literal["nothing", "length", "step", "number", "text"]
EXPECTED = {"length": "a length", "step": "a step", "number": "a number", "text": "a text"}
NAME_HELP = "a piece's name, or how it begins (else the latest piece)"
TEXT_NAME_HELP = "a piece's name, or how it begins; the latest piece where only a text in quotes is given"


class Meant(Struct, frozen=True):
    """The piece that is meant; `text`: what else was typed, "" for nothing; `named`: whether the maker named it."""

    opened: OpenPiece
    text: str
    named: bool

    def say(self) -> None:
        """Say which piece is meant, where the maker did not."""
        if not self.named:
            say(f"On {self.opened.name}:")


def add_piece(
    command: argparse.ArgumentParser, metavar: str = "", words: str = "", takes: Takes = "nothing", needed: bool = False
) -> None:
    """A piece, as the command's first word or by --piece; then what the command takes, with its words in the help."""
    _add_name(command, "PIECE", TEXT_NAME_HELP if takes == "text" else NAME_HELP)
    if metavar:
        command.add_argument("words", metavar=metavar, nargs="*", help=words)
    command.set_defaults(takes=takes, needed=needed)


def add_design_or_piece(command: argparse.ArgumentParser) -> None:
    """A design file or a piece, as the command's first word; or a piece by --piece."""
    _add_name(command, "DESIGN|PIECE", "a design file, or a piece's name or how that begins (else the latest piece)")
    command.set_defaults(takes="nothing", needed=False)


def _add_name(command: argparse.ArgumentParser, metavar: str, words: str) -> None:
    command.add_argument("piece", metavar=metavar, nargs="?", help=words)
    command.add_argument("-p", "--piece", dest="named", metavar="PIECE", help="a piece, whatever else is typed")


def meant_piece(arguments: argparse.Namespace, workshop: Workshop, ended: bool = False) -> Meant:
    """The piece that a command is meant for, opened. `ended`: the latest may be one that is finished or put away.

    Raises Wrong, NoSuchPiece or NotPossible.
    """
    takes: Takes = arguments.takes
    words = [word for word in (arguments.piece, *getattr(arguments, "words", ())) if word is not None]
    name = arguments.named
    if name is None and words and _is_name(words, takes, workshop):
        name, words = words[0], words[1:]
    text = " ".join(words)
    if takes == "nothing" and text:
        raise Wrong(f"Found {plain(text, 40)}; expected nothing after the piece.")
    if arguments.needed and not text.strip():
        raise Wrong(_missing(takes, name, workshop))
    if name is not None:
        return Meant(_opened(workshop, name, words if takes == "text" and arguments.named is None else ()), text, True)
    arguments.latest = _latest(workshop, ended)
    return Meant(workshop.open(arguments.latest), text, False)


def _opened(workshop: Workshop, name: str, text: Sequence[str]) -> OpenPiece:
    """The piece of that name; where there is none, and a text went with it, how the text is meant for the latest."""
    try:
        return workshop.open(name)
    except NoSuchPiece as error:
        if not text:
            raise
        typed = plain(" ".join((name, *text)), 60)
        raise NoSuchPiece(
            f'{error} Or did you mean the latest piece? Then put the text in quotes: "{typed}".'
        ) from error


def _is_name(words: Sequence[str], takes: Takes, workshop: Workshop) -> bool:
    """Whether the first word names a piece. Raises Wrong where it could be either."""
    text = words[0]
    first = text.strip().lower()
    if takes == "text":
        return not (len(words) == 1 and " " in first) or alike(first) in _names(workshop)
    if takes == "nothing" or not _begins_a_value(first):
        return True
    if not first.isdigit():
        return any(name.startswith(alike(first)) for name in _names(workshop))
    if alike(first) in _names(workshop):
        shown = plain(first, 40)
        raise Wrong(
            f"{shown} is the name of a piece, and could be {EXPECTED[takes]}: write --piece {shown} for the piece."
        )
    return False


def _names(workshop: Workshop) -> list[str]:
    return [alike(row.name) for row in workshop.pieces()]


def _begins_a_value(text: str) -> bool:
    """Whether it can only be a length, a number or a step."""
    _, colon, number = text.rpartition(":")
    if colon and number.isascii() and number.isdigit():
        return True
    first = text[:1]
    return (first.isascii() and first.isdigit()) or (first != "" and first in f"{VULGARS}.,-+−±")


def _missing(takes: Takes, name: str | None, workshop: Workshop) -> str:
    """What is missing, and what to type instead where a text of one word was taken for a name."""
    if takes != "text":
        return f"Found no {takes}; expected {EXPECTED[takes]}."
    if name is None or alike(name) in _names(workshop):
        return "Found no text; expected at least a word."
    from shlex import quote  # for a slip

    word = quote(plain(name, 40))
    return f"There is no piece named {plain(name, 40)}. If it is the text, name the piece: --piece PIECE {word}."


def _latest(workshop: Workshop, ended: bool) -> str:
    """The name of the piece that was touched last, of those under way unless `ended`. Raises NotPossible."""
    for row in workshop.pieces():
        if ended or row.state == "under way":
            return row.name
    raise NotPossible("No piece is under way. `tallycord start DESIGN` begins one.")
