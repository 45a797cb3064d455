"""Frozen values as the plain values of a document (maps, lists, text, numbers), and back: derived from their classes.

What is read is of the type that each field says, to the depth, with numbers within limits and text without control
characters; what is not is refused with its place. So whatever was read once needs no second look at its types.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from itertools import count, repeat
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from companion.core.values.text import FORBIDDEN, plain

MOST_COUNT = 1_000_000_000
MOST_NUMBER = 1e12
MOST_TEXT = 1_048_576

Reader = Callable[[Any], Any]  # from a plain value; raises Misshapen
Writer = Callable[[Any], Any]  # to a plain value


class Misshapen(ValueError):
    """A plain value that is not what its place asks for; `place`: the keys and numbers (from 1) that lead to it."""

    def __init__(self, words: str, place: tuple[str, ...] = ()) -> None:
        super().__init__(": ".join((*place, words)))
        self.words, self.place = words, place


def to_plain(value: Any, special: Mapping[type, Writer], later: Mapping[type, Mapping[str, Any]]) -> Any:
    """The value as maps, lists, text and numbers. `special`: the types that are written otherwise; `later`: fields that
    a class has got since its first values were kept, each left out where it says that, so that those are written alike.
    """
    write = special.get(type(value))
    if write is not None:
        return write(value)
    if type(value) is tuple:
        return [to_plain(one, special, later) for one in value]
    if not _is_made_of_fields(type(value)):
        return value
    nothing = later.get(type(value), {})
    parts = [(name, getattr(value, name)) for name in field_names(type(value))]
    return {name: to_plain(one, special, later) for name, one in parts if name not in nothing or one != nothing[name]}


def field_names(kind: Any) -> tuple[str, ...]:
    """Those of a dataclass. The module `dataclasses` knows more, and takes as long to load as a quick command may."""
    names: tuple[str, ...] = kind.__match_args__
    return names


def _is_made_of_fields(kind: Any) -> bool:
    return hasattr(kind, "__match_args__")


def reader(kind: Any, special: Mapping[Any, Reader]) -> Reader:
    """What reads values of that type. `special`: the types that are written otherwise."""
    own = special.get(kind) or _SIMPLE.get(kind)
    if own is not None:
        return own
    if _is_made_of_fields(kind):
        return _map_reader(kind, special)
    arguments = get_args(kind)
    if get_origin(kind) is Literal:
        return _word_reader(frozenset(arguments))
    if get_origin(kind) is tuple and arguments[1:] == (Ellipsis,):
        return _list_reader(reader(arguments[0], special))
    if get_origin(kind) is tuple:
        readers = [reader(one, special) for one in arguments]
        return _row_reader(lambda *values: values, readers, range(1, len(readers) + 1))
    assert get_origin(kind) in (Union, type(int | str)), kind
    return _either_reader([reader(one, special) for one in arguments if one is not type(None)], type(None) in arguments)


def row_reader(kind: type[Any], special: Mapping[Any, Reader], least: int | None = None) -> Reader:
    """What reads values of that dataclass from a list of its fields, in their order; of `least` at the least, where the
    later ones have a default."""
    readers = _field_readers(kind, special)
    return _row_reader(kind, list(readers.values()), readers, least)


def _field_readers(kind: type[Any], special: Mapping[Any, Reader]) -> dict[str, Reader]:
    hints = get_type_hints(kind)
    return {name: reader(hints[name], special) for name in field_names(kind)}


def _first_fault(readers: Iterable[Reader], values: Iterable[Any], names: Iterable[Any]) -> Misshapen:
    """What is wrong with the first of the values with which anything is, and where."""
    for read, value, name in zip(readers, values, names, strict=False):
        try:
            read(value)
        except Misshapen as error:
            return Misshapen(error.words, (str(name), *error.place))
    raise AssertionError("something was wrong with one of them")


def _map_reader(kind: type[Any], special: Mapping[Any, Reader]) -> Reader:
    readers = _field_readers(kind, special)

    def read(value: Any) -> Any:
        if type(value) is not dict:
            raise Misshapen("a group of named values is expected")
        for name in value.keys() - readers.keys():
            raise Misshapen(f"«{plain(str(name), 40)}» is not known")
        try:
            made = {name: readers[name](one) for name, one in value.items()}
        except Misshapen:
            raise _first_fault((readers[name] for name in value), value.values(), value) from None
        try:
            return kind(**made)
        except TypeError:
            raise Misshapen(f"«{_missing(kind, value)}» is missing") from None

    return read


def _missing(kind: type[Any], given: Collection[str]) -> str:
    """The first field without a default that is not there."""
    from msgspec.structs import fields

    return next(field.name for field in fields(kind) if field.required and field.name not in given)


def _row_reader(
    make: Callable[..., Any], readers: Sequence[Reader], names: Iterable[Any], least: int | None = None
) -> Reader:
    fewest = len(readers) if least is None else least

    def read(value: Any) -> Any:
        if type(value) not in (list, tuple) or not fewest <= len(value) <= len(readers):
            raise Misshapen(f"a list of {len(readers)} is expected")
        try:
            return make(*[read(one) for read, one in zip(readers, value, strict=False)])
        except Misshapen:
            raise _first_fault(readers, value, names) from None

    return read


def _list_reader(one: Reader) -> Reader:
    def read(value: Any) -> Any:
        if type(value) is not list:
            raise Misshapen("a list is expected")
        try:
            return tuple([one(each) for each in value])
        except Misshapen:
            raise _first_fault(repeat(one), value, count(1)) from None

    return read


def _word_reader(words: frozenset[str]) -> Reader:
    def read(value: Any) -> Any:
        if type(value) is not str or value not in words:
            raise Misshapen("one of a few words is expected")
        return value

    return read


def _either_reader(readers: Sequence[Reader], or_none: bool) -> Reader:
    def read(value: Any) -> Any:
        if value is None and or_none:
            return None
        for one in readers[:-1]:
            try:
                return one(value)
            except Misshapen:
                continue
        return readers[-1](value)

    return read


def _text(value: Any) -> Any:
    if type(value) is not str:
        raise Misshapen("text is expected")
    if len(value) > MOST_TEXT:
        raise Misshapen("the text is too long")
    if not value.isprintable() and re.search(FORBIDDEN, value):
        raise Misshapen("the text holds a character that can't be seen")
    return value


def _whole_number(value: Any) -> Any:
    if type(value) is not int:
        raise Misshapen("a whole number is expected")
    if not -MOST_COUNT <= value <= MOST_COUNT:
        raise Misshapen("the number is too large")
    return value


def number(value: Any) -> Any:
    """A number of any kind, within limits; "not a number" is none."""
    if type(value) not in (float, int):
        raise Misshapen("a number is expected")
    if not -MOST_NUMBER <= value <= MOST_NUMBER:
        raise Misshapen("the number is too large")
    return value


def _truth(value: Any) -> Any:
    if type(value) is not bool:
        raise Misshapen("true or false is expected")
    return value


_SIMPLE: dict[Any, Reader] = {str: _text, int: _whole_number, float: number, bool: _truth}
