"""Printing: results on stdout, complaints on stderr, in whatever letters the terminal can show."""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import Any, TextIO

from companion.cli.json_text import json_text

# For terminals that can't show more than ASCII: readable in place of the marks we use.
PLAIN = {
    "±": "+/-",
    "·": "-",
    "×": "x",
    "▲": "!",
    "△": "!",
    "«": '"',
    "»": '"',
    "›": ">",
    "…": "...",
    "–": "-",
    "—": "-",
    "−": "-",
    "’": "'",
    "‘": "'",
    "“": '"',
    "”": '"',
    "²": "2",
    "½": "1/2",
}


class CannotPrint(Exception):
    """The results could not be written; the text is a sentence. What the command did before stays done."""


def say(text: str = "") -> None:
    """A result. Raises CannotPrint where it can't be written."""
    try:
        _write(sys.stdout, text)
    except BrokenPipeError:
        raise
    except OSError as error:
        raise _cannot_print(error) from error


def complain(text: str) -> None:
    """Something for the maker to see to. Where even that can't be written, the exit code has to tell it."""
    with suppress(OSError):
        _write(sys.stderr, text)


def say_json(value: Any) -> None:
    """A result as JSON."""
    say(json_text(value))


def counted(count: int, word: str) -> str:
    """A count of things: "1 piece", "3 pieces"."""
    return f"{count} {word}{'s' if count != 1 else ''}"


def finish_output() -> None:
    """Hand the results over, to the last. Raises CannotPrint where they can't be written, as on a full disk."""
    if sys.stdout is not None:
        try:
            sys.stdout.flush()
        except BrokenPipeError:
            raise
        except OSError as error:
            raise _cannot_print(error) from error


def _cannot_print(error: OSError) -> CannotPrint:
    return CannotPrint(f"What there is to say could not be written: {(error.strerror or 'no reason given').lower()}.")


def _write(stream: TextIO | None, text: str) -> None:
    if stream is None:  # closed before Tallycord began (>&-): nobody is listening
        return
    encoding = stream.encoding or "ascii"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        for fancy, simple in PLAIN.items():
            text = text.replace(fancy, simple)
        text = text.encode(encoding, "replace").decode(encoding)
    stream.write(text + "\n")
