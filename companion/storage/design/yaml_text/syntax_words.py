"""What the YAML parser stumbles over, in words for the maker. The parser's own words are never shown.

yaml has two parsers that word the same fault differently but agree on its place. So the place decides what is said.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec import Struct

from companion.core.values.text import plain


class CannotParse(Exception):
    """The text is not YAML of the strict kind: one finding with its place (from 1; 0 for the file as a whole)."""

    def __init__(self, line: int, column: int, code: str, found: str, expected: str = "", hint: str = "") -> None:
        super().__init__(found)
        self.line, self.column, self.code = line, column, code
        self.found, self.expected, self.hint = found, expected, hint


QUOTE_IT = "Put the whole text in quotes."
TAG = ("tag", "Found an exclamation mark at the start of a text.", QUOTE_IT)
ANCHOR = ("anchor", "Found & or * at the start of a text.", "Put it in quotes, or write out what it stands for.")
TAB = ("not YAML", "Found a tab before the first word of a line.", "Use spaces there.")
_INDENT = ("Found a line that begins further left or right than those above.", "Line it up with its neighbours.")
_LIST_INDENT = ("Found a line without a dash among lines that have one.", "Begin it with `- `, and line it up.")
_COLON = (
    "Found a colon where none can be.",
    "Put a text with a colon in quotes; else check that the line is lined up with its neighbours, and that a space "
    "follows the colon.",
)
_NO_COLON = ("Found a line without a colon.", "Write it like `layers: 2`; a line of a layout begins with `- `.")
_CLOSERS = {"{": "}", "[": "]"}


class _Fault(Struct, frozen=True):
    """A fault as the parser reports it: where it shows, where the construct around it begins, and what stands there."""

    text: str
    said: str
    at: Any
    began: Any

    def here(self, mark: Any = None) -> str:
        """The character at a mark; "" at the end of the file."""
        index = (mark or self.at).index
        return self.text[index : index + 1]

    def before(self) -> str:
        """The text before the fault on its line, without the spaces next to it."""
        return self.text[: self.at.index].rpartition("\n")[2].rstrip(" ")


def syntax_fault(error: Any, text: str) -> CannotParse:
    """The one finding for a text that yaml's parsers cannot read. `error`: the MarkedYAMLError of either of them."""
    at = error.problem_mark or error.context_mark
    fault = _Fault(text, f"{error.problem} {error.context or ''}", at, error.context_mark or at)
    for pieces, tell in _BY_WORDS:
        if any(piece in fault.said for piece in pieces):
            return tell(fault)
    return _told(fault.at, "This can't be read.", "Check quotes and brackets, and that lines are lined up.")


def _told(mark: Any, found: str, expected: str, code: str = "not YAML") -> CannotParse:
    return CannotParse(mark.line + 1, mark.column + 1, code, found, expected)


def _start(fault: _Fault) -> CannotParse:
    if fault.here() == "\t":
        return _told(fault.at, *TAB[1:])
    return _told(fault.at, f"Found {fault.here()} at the start of a text.", QUOTE_IT)


def _bar(fault: _Fault) -> CannotParse:
    return _told(fault.began, f"Found {fault.here(fault.began)} at the start of a text.", QUOTE_IT)


def _no_colon(fault: _Fault) -> CannotParse:
    return _told(fault.began, *_NO_COLON)  # the parser notices a line later


def _open_quote(fault: _Fault) -> CannotParse:
    quote = fault.here(fault.began)
    inner = (
        'in double quotes write \\" for an inch mark' if quote == '"' else "in single quotes write '' for one of them"
    )
    return _told(fault.began, "The quote that opens here is not closed.", f"Close it; {inner}.")


def _open_bracket(fault: _Fault) -> CannotParse:
    bracket = fault.here(fault.began)
    closer = _CLOSERS.get(bracket, "]")
    inside = fault.text[fault.began.index : fault.at.index]
    if " #" in inside:
        lines = inside.partition(" #")[0].split("\n")
        column = len(lines[-1]) + 2 + (fault.began.column if len(lines) == 1 else 0)
        expected = f'Put it in quotes, as in "#fff"; {closer} has to come before a comment.'
        found = "Found a # that makes the rest of its line a comment."
        return CannotParse(fault.began.line + len(lines), column, "not YAML", found, expected)
    if not fault.here():
        return _told(fault.began, f"The {bracket} that opens here is not closed.", f"Close it with {closer}.")
    if fault.here() == ":" and fault.at.line == fault.began.line:
        return _told(fault.at, *_COLON)
    if fault.here() == "?":  # yaml's own parser takes none within brackets, the C one does
        return _told(fault.at, "Found a ? within brackets.", QUOTE_IT)
    found = f"Found {plain(fault.here())}, but the {bracket} of line {fault.began.line + 1} is still open."
    return _told(fault.at, found, f"Put a comma between its parts, and close it with {closer}.")


def _block(fault: _Fault) -> CannotParse:
    here, before = fault.here(), fault.before()
    if here in ("]", "}"):
        return _told(fault.at, f"Found a {here} that nothing opens.", "Take it out, or put the text in quotes.")
    if before.endswith(('"', "'")):
        return _told(fault.at, "Found text after a closing quote.", QUOTE_IT)
    if before.endswith(("]", "}")):
        return _told(fault.at, f"Found text after a closing {before[-1]}.", "Begin a new line.")
    return _told(fault.at, *(_LIST_INDENT if "collection" in fault.said else _INDENT))


def _nothing_there(fault: _Fault) -> CannotParse:
    here = fault.here()
    if here == ",":
        return _told(fault.at, "Found a comma with nothing before it.", "Take it out.")
    if here in ("]", "}"):
        return _told(fault.at, f"Found a {here} that nothing opens.", "Take it out, or put the text in quotes.")
    return _told(fault.at, "The file ends in the middle of something.", "Close the quote, brace or bracket.")


def _escape(fault: _Fault) -> CannotParse:
    # the parsers differ by a character on where the backslash is; both know where its text begins
    found = "The text that begins here has a backslash in it that means nothing."
    return _told(fault.began, found, "Put the text in single quotes, or write the backslash twice.")


def _after_the_end(fault: _Fault) -> CannotParse:
    if fault.text.startswith("%"):
        return CannotParse(1, 1, "not YAML", "Found a line that begins with %.", "A design needs none: take it out.")
    return _told(fault.at, "Found more where the design has ended already.", "Line it up with the lines above.")


# The first that fits; one piece of each parser's words, where they differ.
_BY_WORDS: tuple[tuple[tuple[str, ...], Callable[[_Fault], CannotParse]], ...] = (
    (("anchor", "alias"), lambda fault: _told(fault.began, *ANCHOR[1:], ANCHOR[0])),
    (("scanning a tag", "parsing a tag"), lambda fault: _told(fault.began, *TAG[1:], TAG[0])),
    (("directive", "document start", "incompatible YAML"), _after_the_end),
    (("escape", "hexdecimal", "hexadecimal"), _escape),
    (("end of stream", "document separator"), _open_quote),
    (("block scalar",), _bar),
    (("tab character", "cannot start any token"), _start),
    (("mapping values are not allowed", "unexpected ':'"), lambda fault: _told(fault.at, *_COLON)),
    (("could not find expected ':'",), _no_colon),
    (("expected ',' or",), _open_bracket),
    (("expected key", "expected '-'", "expected <block end>"), _block),
    (("node content",), _nothing_there),
    (
        ("sequence entries are not allowed",),
        lambda fault: _told(fault.at, "Found a dash after a colon.", "Begin a new line with it, or put it in quotes."),
    ),
    (("mapping keys are not allowed",), lambda fault: _told(fault.at, "Found a ? at the start of a text.", QUOTE_IT)),
)
