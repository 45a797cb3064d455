"""YAML, read strictly: text, lists and mappings with their places, nothing else; limits before anything is built."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from companion.core.text import plain

MOST_LEVELS = 24
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# Control characters but tab and line ends, line and paragraph separators, and what reorders text on a screen.
FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]")


@dataclass(slots=True)
class Text:
    """A scalar, as text. `given`: False for a value left empty."""

    value: str
    line: int
    column: int
    given: bool = True


@dataclass(slots=True)
class List:
    items: list[Node]
    line: int
    column: int


@dataclass(slots=True)
class Map:
    """A mapping; `keys` hold the places of the keys, `repeated` the keys that stand there already."""

    values: dict[str, Node]
    keys: dict[str, Text]
    line: int
    column: int
    repeated: list[Text] = field(default_factory=list)


Node = Text | List | Map


class CannotParse(Exception):
    """The text is not YAML of the strict kind; one finding, with its place (from 1; 0: the file as a whole)."""

    def __init__(self, line: int, column: int, code: str, found: str, expected: str = "", hint: str = "") -> None:
        super().__init__(found)
        self.line, self.column, self.code = line, column, code
        self.found, self.expected, self.hint = found, expected, hint


def parse(text: str, loader: Any = None) -> Map:
    """The file's mapping. Raises CannotParse at the first thing that is not allowed."""
    forbidden = FORBIDDEN.search(text)
    if forbidden:
        raise _forbidden(forbidden.group(), *_place_in(text, forbidden.start()))
    try:
        return _document(yaml.parse(text, Loader=loader or _LOADER))
    except yaml.MarkedYAMLError as error:
        raise _syntax(error) from error
    except yaml.YAMLError as error:
        raise CannotParse(
            0, 0, "not YAML", "The file can't be read as YAML.", "Look for odd characters in it."
        ) from error


def _document(events: Iterator[Any]) -> Map:
    root: Node | None = None
    documents = 0
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                place = _place(event)
                raise CannotParse(*place, "second document", "Found a second document.", "One design a file.")
        elif isinstance(event, yaml.NodeEvent):
            root = _node(event, events, 1)
    if root is None or (isinstance(root, Text) and not root.given):
        raise CannotParse(0, 0, "empty", "The file is empty.", "A design begins with `format: 1`.")
    if not isinstance(root, Map):
        raise CannotParse(
            root.line, root.column, "not a mapping", "Found no keys.", "A design begins with `format: 1`."
        )
    return root


def _node(event: Any, events: Iterator[Any], level: int) -> Node:
    line, column = event.start_mark.line + 1, event.start_mark.column + 1
    if isinstance(event, yaml.AliasEvent) or event.anchor is not None:
        raise CannotParse(
            line, column, "anchor", f"Found the anchor or alias «{plain(event.anchor, 40)}».", "Write the value out."
        )
    if event.tag is not None:
        raise CannotParse(line, column, "tag", f"Found the tag «{plain(event.tag, 40)}».", "Tags have no use here.")
    if isinstance(event, yaml.ScalarEvent):
        return _text(event, line, column)
    if level > MOST_LEVELS:
        raise CannotParse(
            line, column, "too deep", f"Found more than {MOST_LEVELS} levels.", "Lists and mappings nest less deep."
        )
    if isinstance(event, yaml.SequenceStartEvent):
        return List(_items(events, level), line, column)
    return _map(events, level, line, column)


def _text(event: Any, line: int, column: int) -> Text:
    value = event.value
    if not value.isprintable():
        forbidden = FORBIDDEN.search(value)
        if forbidden:
            raise _forbidden(forbidden.group(), line, column)
    # libyaml gives a plain scalar the style "", yaml's own parser None
    return Text(value, line, column, bool(value) or bool(event.style))


def _items(events: Iterator[Any], level: int) -> list[Node]:
    items = []
    for event in events:
        if isinstance(event, yaml.SequenceEndEvent):
            break
        items.append(_node(event, events, level + 1))
    return items


def _map(events: Iterator[Any], level: int, line: int, column: int) -> Map:
    found = Map({}, {}, line, column)
    for event in events:
        if isinstance(event, yaml.MappingEndEvent):
            break
        key = _node(event, events, level + 1)
        if not isinstance(key, Text) or not key.given:
            raise CannotParse(key.line, key.column, "odd key", "Found a key that is no word.", "A key is plain text.")
        if key.value == "<<":
            raise CannotParse(key.line, key.column, "merge key", "Found a merge key «<<».", "Write the values out.")
        value = _node(next(events), events, level + 1)
        if key.value in found.keys:
            found.repeated.append(key)  # the first one stands, so that the rest of the file can be looked at too
            continue
        found.keys[key.value] = key
        found.values[key.value] = value
    return found


def _forbidden(character: str, line: int, column: int) -> CannotParse:
    found = f"Found a control character (U+{ord(character):04X})."
    return CannotParse(line, column, "control character", found, "Text holds only what can be seen.", "Delete it.")


def _place(event: Any) -> tuple[int, int]:
    return event.start_mark.line + 1, event.start_mark.column + 1


def _place_in(text: str, index: int) -> tuple[int, int]:
    line_start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    lines = len(re.findall("\r\n|\r|\n", text[:index]))
    return lines + 1, index - line_start + 1


# What the parser says, and what a maker can do about it. Its own words never show.
_INDENT = ("Found a line that does not fit the indent of those above.", "Line it up with its neighbours.")
_OPEN = ("A brace or bracket is not closed.", "Close it, with commas between.")
_SYNTAX: dict[str, tuple[str, str]] = {
    "found character '\\t'": ("Found a tab where spaces are needed.", "Indent with spaces."),
    "cannot start any token": ("Found a character that can't begin a value.", "Quote the text; indent with spaces."),
    "mapping values are not allowed": ("Found a colon where none can be.", "Quote the text, or check the indent."),
    "could not find expected ':'": ("Found a key without its colon.", "Write `key: value`."),
    "did not find expected key": _INDENT,
    "expected <block end>": _INDENT,
    "did not find expected '-'": ("Found a line that does not fit the list above.", "Begin it with `- `, lined up."),
    "did not find expected ',' or": _OPEN,
    "expected ',' or": _OPEN,
    "end of stream": ("The file ends in the middle of something.", "Close the quote, brace or bracket."),
    "undefined alias": ("Found an alias.", "Write the value out."),
}


def _syntax(error: yaml.MarkedYAMLError) -> CannotParse:
    mark = error.problem_mark or error.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
    said = f"{error.problem} {error.context}"
    for piece, (found, expected) in _SYNTAX.items():
        if piece in said:
            return CannotParse(line, column, "not YAML", found, expected)
    return CannotParse(
        line, column, "not YAML", "This can't be read as YAML.", "Check the indent, quotes and brackets."
    )
