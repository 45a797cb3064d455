"""YAML, read strictly: only text, lists and mappings, each with its place. Limits are checked before anything is
built."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml
from msgspec import Struct, field

from companion.core.values.text import FORBIDDEN
from companion.storage.design.yaml_text.syntax_words import ANCHOR, TAB, TAG, CannotParse, syntax_fault

MOST_LEVELS = 24
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_TAB_INDENT = re.compile(r"^ *(?=\t)[ \t]*[^ \t\r\n#]", re.MULTILINE)


class Text(Struct):
    """A scalar, as text. `given`: False if nothing was written."""

    value: str
    line: int
    column: int
    given: bool = True


class List(Struct):
    items: list[Node]
    line: int
    column: int


class Map(Struct):
    """A mapping. `keys`: the place of each key; `repeated`: keys that were there already."""

    values: dict[str, Node]
    keys: dict[str, Text]
    line: int
    column: int
    repeated: list[Text] = field(default_factory=list)


Node = Text | List | Map


def parse(text: str, loader: Any = None) -> Map:
    """The mapping that the file holds. Raises CannotParse at the first thing that is not allowed."""
    forbidden = re.search(FORBIDDEN, text)
    if forbidden:
        raise _forbidden(forbidden.group(), *place_at(text, forbidden.start()))
    text = _without_tabs(text)
    try:
        return _document(iter((loader or _LOADER)(text).get_event, None))
    except yaml.MarkedYAMLError as error:
        raise syntax_fault(error, text) from error
    except yaml.YAMLError as error:
        raise CannotParse(
            0, 0, "not YAML", "The file can't be read as a design.", "Look for odd characters in it."
        ) from error


def _without_tabs(text: str) -> str:
    """The text with tabs as single spaces, so that places stay the same: yaml's parsers differ on where a tab may
    stand. Raises CannotParse for a tab at the beginning of a line."""
    if "\t" not in text:
        return text
    indent = _TAB_INDENT.search(text)
    if indent:
        line, column = place_at(text, text.index("\t", indent.start()))
        raise CannotParse(line, column, *TAB)
    return text.replace("\t", " ")


def _document(events: Iterator[Any]) -> Map:
    root: Node | None = None
    documents = 0
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                place = _place(event)
                expected = "A file holds one: give the second a file of its own."
                raise CannotParse(*place, "second document", "Found dashes that begin another design.", expected)
        elif isinstance(event, yaml.NodeEvent):
            root = _node(event, events, 1)
    if root is None or (isinstance(root, Text) and not root.given):
        raise CannotParse(0, 0, "empty", "The file is empty.", "A design begins with `format: 1`.")
    if not isinstance(root, Map):
        found = "This does not begin like a design."
        raise CannotParse(root.line, root.column, "not a mapping", found, "A design begins with `format: 1`.")
    return root


def _node(event: Any, events: Iterator[Any], level: int) -> Node:
    line, column = event.start_mark.line + 1, event.start_mark.column + 1
    if isinstance(event, yaml.AliasEvent) or event.anchor is not None:
        raise CannotParse(line, column, *ANCHOR)
    if event.tag is not None:
        raise CannotParse(line, column, *TAG)
    if isinstance(event, yaml.ScalarEvent):
        return _text(event, line, column)
    if level > MOST_LEVELS:
        found = f"Found more than {MOST_LEVELS} brackets, repeats and the like, one within the other."
        raise CannotParse(line, column, "too deep", found, "Write some of them out.")
    if isinstance(event, yaml.SequenceStartEvent):
        return List(_items(events, level), line, column)
    return _map(events, level, line, column)


def _text(event: Any, line: int, column: int) -> Text:
    value = event.value
    if not value.isprintable():
        forbidden = re.search(FORBIDDEN, value)
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
            words = "Found no word before a colon.", "Write one, like `layers: 2`."
            raise CannotParse(key.line, key.column, "odd key", *words)
        if key.value == "<<":
            words = "Found «<<» before a colon.", "Write out what it stands for."
            raise CannotParse(key.line, key.column, "merge key", *words)
        value = _node(next(events), events, level + 1)
        if isinstance(value, Text) and not value.given:
            # yaml's parsers differ on where nothing is: it is right after the colon
            value.line, value.column = event.end_mark.line + 1, event.end_mark.column + 2
        if key.value in found.keys:
            found.repeated.append(key)  # the first one stands, so that the rest of the file can be looked at too
            continue
        found.keys[key.value] = key
        found.values[key.value] = value
    return found


def _forbidden(character: str, line: int, column: int) -> CannotParse:
    found = f"Found a character that can't be seen (U+{ord(character):04X})."
    return CannotParse(line, column, "control character", found, "Text holds only what can be seen.", "Delete it.")


def _place(event: Any) -> tuple[int, int]:
    return event.start_mark.line + 1, event.start_mark.column + 1


def place_at(text: str, index: int) -> tuple[int, int]:
    """Line and column, both from 1, of the character at that index."""
    line_start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    lines = len(re.findall("\r\n|\r|\n", text[:index]))
    return lines + 1, index - line_start + 1
