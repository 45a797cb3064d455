"""Printing: results on stdout, complaints on stderr, in whatever letters the terminal can show."""

from __future__ import annotations

import json
import sys
from typing import Any, TextIO

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


def say(text: str = "") -> None:
    """A result."""
    _write(sys.stdout, text)


def complain(text: str) -> None:
    """Something for the maker to see to."""
    _write(sys.stderr, text)


def say_json(value: Any) -> None:
    """A result as JSON."""
    _write(sys.stdout, json.dumps(value, ensure_ascii=True, indent=2, allow_nan=False))


def _write(stream: TextIO, text: str) -> None:
    encoding = stream.encoding or "ascii"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        for fancy, simple in PLAIN.items():
            text = text.replace(fancy, simple)
        text = text.encode(encoding, "replace").decode(encoding)
    stream.write(text + "\n")
