"""A JSON document read item by item, one entry of its long lists at a time. Limits are checked before anything is
built, and besides the document's own bytes only one entry is in memory."""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator
from math import isfinite
from typing import Any, NoReturn

from msgspec import Struct

from companion.core.values.text import plain

MOST_BYTES = 1 << 30
MOST_ITEM_BYTES = 32 << 20
MOST_STRING_BYTES = 8 << 20
MOST_LEVELS = 12
MOST_VALUES = 2_500_000  # in one item; a piece of a hundred thousand steps has fewer
MOST_ITEMS = 100_000
MOST_DIGITS = 25
MOST_KEYS = 50

_SPACE = re.compile(rb"[ \t\r\n]*")
_SCALAR = re.compile(rb"[^ \t\r\n,\[\]{}:\"]+")
_STRING = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"', re.DOTALL)
_MARKS = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"|["\[\]{}]', re.DOTALL)


class CannotRead(Exception):
    """What is wrong with a document, with its place: a sentence without its full stop."""


class Item(Struct, frozen=True):
    """A value of the document: that of a key (`number` 0; None if a list follows), or entry `number` (from 1) of
    the list under that key."""

    key: str
    number: int
    value: Any


def items(data: bytes, lists: Collection[str]) -> Iterator[Item]:
    """The values of the document's keys, in order. A list under one of the keys in `lists` comes entry by entry, after
    an item with number 0 and value None, which says that the list is there. Raises CannotRead."""
    reader = _Reader(data)
    reader.take(b"{", "Found no JSON object")
    seen: set[str] = set()
    while reader.peek() != b"}" or seen:
        key = reader.decoded("a key")
        if not isinstance(key, str):
            reader.refuse("Found a key that is no text")
        if key in seen or len(seen) >= MOST_KEYS:
            reader.refuse(f"Found the key {_shown(key)} a second time" if key in seen else "Found too many keys")
        seen.add(key)
        reader.take(b":", "Found no colon after a key")
        if key in lists and reader.peek() == b"[":
            yield Item(key, 0, None)
            yield from _entries(reader, key)
        else:
            yield Item(key, 0, reader.decoded(_shown(key)))
        if reader.peek() != b",":
            break
        reader.take(b",", "")
    reader.take(b"}", "Found neither a comma nor the end of the object")
    if reader.peek():
        reader.refuse("Found something after the end")


def _entries(reader: _Reader, key: str) -> Iterator[Item]:
    reader.take(b"[", "")
    number = 0
    while reader.peek() != b"]" or number:
        number += 1
        if number > MOST_ITEMS:
            reader.refuse(f"Found more than {MOST_ITEMS:,} {key}")
        yield Item(key, number, reader.decoded(f"{key}, number {number}"))
        if reader.peek() != b",":
            break
        reader.take(b",", "")
    reader.take(b"]", "Found neither a comma nor the end of the list")


class _Reader:
    """A place in the document, which moves on as values are taken."""

    def __init__(self, data: bytes) -> None:
        self.data, self.at = data, 3 if data.startswith(b"\xef\xbb\xbf") else 0

    def peek(self) -> bytes:
        """The next byte that is not a space; b"" at the end."""
        match = _SPACE.match(self.data, self.at)
        assert match is not None  # it matches nothing, too
        self.at = match.end()
        return self.data[self.at : self.at + 1]

    def take(self, expected: bytes, otherwise: str) -> None:
        """Pass over one byte, which must be that one."""
        if self.peek() != expected:
            self.refuse(otherwise)
        self.at += 1

    def refuse(self, words: str, offset: int = 0) -> NoReturn:
        """Say what is wrong, at the place reached so far."""
        at = self.at + offset
        line, column = self.data.count(b"\n", 0, at) + 1, at - self.data.rfind(b"\n", 0, at)
        raise CannotRead(f"line {line}, column {column}: {words}")

    def decoded(self, what: str) -> Any:
        """The next value, built. Raises CannotRead."""
        length = self._length(what)
        try:
            value = _DECODER.decode(self.data[self.at : self.at + length].decode("utf-8"))
        except UnicodeDecodeError as error:
            self.refuse("Found a byte that is not UTF-8 text", error.start)
        except json.JSONDecodeError as error:
            self.refuse(f"Found what is not JSON in {what}", len(error.doc[: error.pos].encode("utf-8", "replace")))
        except _Odd as error:
            self.refuse(f"{error} in {what}")
        self.at += length
        return value

    def _length(self, what: str) -> int:
        """How many bytes the next value takes. Checks the limits."""
        first = self.peek()
        if not first:
            self.refuse("Found the end of the file too early")
        if first in (b"{", b"["):
            return self._nested(what)
        pattern, most = (_STRING, MOST_STRING_BYTES) if first == b'"' else (_SCALAR, 4 * MOST_DIGITS)
        match = pattern.match(self.data, self.at)
        if (match.end() if match else len(self.data)) - self.at > most:
            self.refuse(f"Found a value too long in {what}")
        if not match:
            self.refuse(f"Found what is not JSON in {what}")
        return match.end() - self.at

    def _nested(self, what: str) -> int:
        depth = values = 0
        too_much = f"Found more in {what} than one can hold"
        for match in _MARKS.finditer(self.data, self.at):
            mark = match.group() if match.end() == match.start() + 1 else b""
            length, values = match.end() - self.at, values + 1
            depth += (mark in (b"{", b"[")) - (mark in (b"}", b"]")) if mark else 0
            if depth > MOST_LEVELS:
                self.refuse(f"Found more than {MOST_LEVELS} levels, one in another, in {what}", length)
            if length > MOST_ITEM_BYTES or values > MOST_VALUES:
                self.refuse(too_much)
            if mark == b'"':  # a text without an end
                self.refuse(f"Found the end of the file in {what}", length)
            if mark and depth == 0:
                if values + self.data.count(b",", self.at, match.end()) > MOST_VALUES:
                    self.refuse(too_much)
                return length
        return self.refuse(f"Found the end of the file in {what}", len(self.data) - self.at)


class _Odd(ValueError):
    """JSON that is not accepted. Its text says what was found."""


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) < len(pairs):
        seen: set[str] = set()
        twice = next(key for key, _ in pairs if key in seen or seen.add(key))  # type: ignore[func-returns-value]
        raise _Odd(f"Found the key {_shown(twice)} a second time")
    return made


def _whole_number(text: str) -> int:
    if len(text) > MOST_DIGITS:
        raise _Odd("Found a number with too many digits")
    return int(text)


def _decimal(text: str) -> float:
    if len(text) > 2 * MOST_DIGITS or not isfinite(float(text)):
        raise _Odd("Found a number that is too long or too large")
    return float(text)


def _no_number(text: str) -> NoReturn:
    raise _Odd(f"Found {text}, which is no number")


def _shown(key: str) -> str:
    return f"«{plain(key, 40)}»"


_DECODER = json.JSONDecoder(
    object_pairs_hook=_once, parse_int=_whole_number, parse_float=_decimal, parse_constant=_no_number
)
