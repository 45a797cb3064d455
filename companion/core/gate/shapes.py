"""Whether a value from outside has the shape that a frozen dataclass says: types to the depth, numbers within limits,
text without control characters. Dataclasses take anything; what was read from a document is checked here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import cache
from math import isfinite
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from companion.core.values.text import FORBIDDEN

MOST_COUNT = 1_000_000_000
MOST_NUMBER = 1e12
MOST_TEXT = 1_048_576

Check = Callable[[Any], str]  # what is wrong, "" for nothing


def misshapen(value: Any, kind: Any) -> str:
    """What is wrong with a value that should be of that type, in words with its place; "" where it is of it."""
    return _check_of(kind)(value)


@cache
def _check_of(kind: Any) -> Check:
    simple = _SIMPLE.get(kind)
    if simple is not None:
        return simple
    if isinstance(kind, type) and is_dataclass(kind):
        return _fields_check(kind)
    origin, arguments = get_origin(kind), get_args(kind)
    if origin is Literal:
        return lambda value: "" if type(value) is str and value in arguments else "one of a few words is expected"
    if origin is tuple:
        return _tuple_check(arguments)
    assert origin in (Union, type(int | str)), kind
    return _union_check(arguments)


def _fields_check(kind: type[Any]) -> Check:
    hints = get_type_hints(kind)
    checks = [(field.name, _check_of(hints[field.name])) for field in fields(kind)]

    def check(value: Any) -> str:
        if type(value) is not kind:
            return "a value of another kind is expected"
        for name, one in checks:
            wrong = one(getattr(value, name))
            if wrong:
                return f"{name}: {wrong}"
        return ""

    return check


def _tuple_check(arguments: tuple[Any, ...]) -> Check:
    endless = len(arguments) == 2 and arguments[1] is Ellipsis
    each = [_check_of(argument) for argument in (arguments[:1] if endless else arguments)]

    def check(value: Any) -> str:
        if type(value) is not tuple or not (endless or len(value) == len(each)):
            return "a list is expected" if endless else f"a list of {len(each)} is expected"
        checks = each * len(value) if endless else each
        for number, (one, item) in enumerate(zip(checks, value, strict=True), start=1):
            wrong = one(item)
            if wrong:
                return f"{number}: {wrong}"
        return ""

    return check


def _union_check(arguments: tuple[Any, ...]) -> Check:
    checks = {_check_of(argument) for argument in arguments}
    by_class = {argument: _check_of(argument) for argument in arguments if isinstance(argument, type)}

    def check(value: Any) -> str:
        own = by_class.get(type(value))
        if own is not None:
            return own(value)
        wrongs = [one(value) for one in checks]
        return "" if "" in wrongs else min(wrongs)

    return check


def _text(value: Any) -> str:
    if type(value) is not str:
        return "text is expected"
    if len(value) > MOST_TEXT:
        return "the text is too long"
    if not value.isprintable() and FORBIDDEN.search(value):
        return "the text holds a control character"
    return ""


def _count(value: Any) -> str:
    if type(value) is not int:
        return "a whole number is expected"
    return "" if -MOST_COUNT <= value <= MOST_COUNT else "the number is too large"


def _number(value: Any) -> str:
    if type(value) not in (int, float):
        return "a number is expected"
    return "" if isfinite(value) and -MOST_NUMBER <= value <= MOST_NUMBER else "the number is too large"


def _truth(value: Any) -> str:
    return "" if type(value) is bool else "true or false is expected"


def _nothing(value: Any) -> str:
    return "" if value is None else "null is expected"


_SIMPLE: dict[Any, Check] = {
    str: _text,
    int: _count,
    float: _number,
    bool: _truth,
    type(None): _nothing,
}
