"""Printing: results on stdout, complaints on stderr, in whatever letters the terminal can show, and for the ear."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, Any, TextIO

from companion.core.words.marks import for_everybody

if TYPE_CHECKING:
    from companion.core.words.notices import Notice

# For terminals that can't show more than ASCII: readable in place of the marks we use.
PLAIN = {
    "±": "+/-",
    "·": "-",
    "•": "*",
    "×": "x",
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


_to_be_heard = False  # one answer for the whole run


def for_the_ear(arguments: Sequence[str]) -> None:
    """Whether what this run prints is to be heard: --spoken, or TALLYCORD_SPOKEN in the environment."""
    global _to_be_heard
    text = os.environ.get("TALLYCORD_SPOKEN", "")
    _to_be_heard = "--spoken" in arguments or text.strip().lower() not in ("", "0", "no", "off")


def is_for_the_ear() -> bool:
    """Whether what this run prints is to be heard."""
    return _to_be_heard


def is_told_in_sentences() -> bool:
    """Whether tables are told as sentences: for the ear, and on a terminal that only writes line after line."""
    return _to_be_heard or os.environ.get("TERM", "") == "dumb"


def in_words(text: str) -> str:
    """The text as it is printed: warnings in words, and for the ear all other marks as well."""
    if not _to_be_heard:
        return for_everybody(text)
    from companion.core.words.spoken import spoken  # few listen

    return spoken(text)


def tell(notice: Notice) -> None:
    """What a maker is told, if it says anything. Raises CannotPrint where it can't be written."""
    if notice.text:
        say(str(notice))


GIVE_AGAIN = "If it is right, give the same command with --anyway."


def say(text: str = "") -> None:
    """A result. Raises CannotPrint where it can't be written."""
    say_exactly(in_words(text))


def say_exactly(text: str) -> None:
    """A result for a program: to the letter. Raises CannotPrint where it can't be written."""
    try:
        _write(sys.stdout, text)
    except BrokenPipeError:
        raise
    except OSError as error:
        raise _cannot_print(error) from error


def complain(text: str) -> None:
    """Something for the maker to see to. Where even that can't be written, the exit code has to tell it."""
    with suppress(OSError):
        _write(sys.stderr, in_words(text))


def say_json(value: Any, is_long: bool = False) -> None:
    """A result as JSON. `is_long`: a value of many thousand parts, whose numbers are finite."""
    from companion.cli.json_text import json_text, long_json_text  # most results are sentences

    say_exactly(long_json_text(value) if is_long else json_text(value))


def counted(count: int, word: str) -> str:
    """A count of things: "1 piece", "3 pieces"."""
    return f"{count} {word}{'s' if count != 1 else ''}"


def can_be_shown(text: str) -> bool:
    """Whether the terminal has all letters of a text: a picture is told in words where it has not."""
    try:
        text.encode((sys.stdout and sys.stdout.encoding) or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


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
    return CannotPrint(f"Could not print the result: {(error.strerror or 'no reason given').lower()}.")


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
