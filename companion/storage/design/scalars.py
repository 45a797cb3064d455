"""Single values of a design file, as pydantic reads them and as the JSON Schema describes them: text, length, count,
word."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from companion.core.values.design import MOST_LAYERS
from companion.core.values.measures.lengths import MOST_COUNT, LengthError, read_length_mm, whole_number
from companion.core.values.text import capitalised, closed, nearest, plain
from companion.storage.design import length_patterns
from companion.storage.design.findings import quoted

LONGEST_NOTE = 2000


def fault(code: str, found: str, expected: str, hint: str = "") -> PydanticCustomError:
    """A finding in whole sentences."""
    return PydanticCustomError(
        "tallycord", "{found}", {"code": code, "found": found, "expected": expected, "hint": hint}
    )


def sentence(text: str) -> str:
    """A fragment made into a sentence."""
    text = text.strip()
    return closed(capitalised(text)) if text else ""


class _Length:
    """Reads a length. The file's own unit comes with the context."""

    def __init__(self, above_zero: bool) -> None:
        self.above_zero = above_zero

    def __call__(self, value: Any, info: ValidationInfo) -> float:
        if not isinstance(value, str):
            raise fault("no length", f"Found {quoted(value)} in place of a length.", "Write it like 6 mm or 1/4 in.")
        unit = (info.context or {}).get("unit")
        try:
            return float(read_length_mm(value, unit, above_zero=self.above_zero))
        except LengthError as error:
            raise fault(
                "no length", f"Found {error.found}.", f"Expected {error.expected}.", sentence(error.hint)
            ) from error


# The names of the definitions that `editor_schema` puts in their place.
Length = Annotated[float, PlainValidator(_Length(False)), WithJsonSchema({"length": "Length"})]
LengthAboveZero = Annotated[float, PlainValidator(_Length(True)), WithJsonSchema({"length": "LengthAboveZero"})]


def _read_text(value: Any, limit: int = 200) -> str:
    if not isinstance(value, str):
        expected = "Write a text, in quotes if it has a colon, a comma or a bracket in it."
        raise fault("no text", f"Found {quoted(value)} in place of a text.", expected)
    return plain(value, limit)


def _read_note(value: Any) -> str:
    return _read_text(value, LONGEST_NOTE)


def _read_name(value: Any) -> str:
    name = _read_text(value)
    if not name:
        raise fault("no text", "Nothing is written here.", "Write a name.")
    return name


# An editor's YAML takes some words for numbers, truth values or nothing at all; here they are text.
_ANY_WORDS = WithJsonSchema({"type": ["string", "number", "boolean", "null"]})
_NAME_SCHEMA = {"type": ["string", "number", "boolean"], "minLength": 1}
Words = Annotated[str, PlainValidator(_read_text), _ANY_WORDS]
Note = Annotated[str, PlainValidator(_read_note), _ANY_WORDS]
Name = Annotated[str, PlainValidator(_read_name), WithJsonSchema(_NAME_SCHEMA)]
StrandName = Annotated[str, PlainValidator(_read_name), WithJsonSchema({**_NAME_SCHEMA, "pattern": "^[^:/]*$"})]


def _read_count(value: Any) -> int:
    if not isinstance(value, str):
        raise fault("no count", f"Found {quoted(value)} in place of a number.", "Write a whole number, like 12.")
    try:
        return whole_number(value)
    except LengthError as error:
        raise fault("no count", f"Found {error.found}.", f"Expected {error.expected}.", sentence(error.hint)) from error


def _read_count_or_fit(value: Any) -> int | None:
    if value == "fit":
        return None
    try:
        return _read_count(value)
    except PydanticCustomError as error:
        context = error.context or {}
        expected = "Expected a whole number from 1 to 100,000, or fit."
        slip = isinstance(value, str) and nearest(value, ("fit",))
        raise fault("no count", context["found"], expected, "Did you mean fit?" if slip else context["hint"]) from error


def _count_schema(most: int, pattern: str) -> dict[str, Any]:
    return {"type": ["integer", "string"], "minimum": 1, "maximum": most, "pattern": pattern}


_COUNT_SCHEMA = _count_schema(MOST_COUNT, length_patterns.COUNT)
Count = Annotated[int, PlainValidator(_read_count), WithJsonSchema(_COUNT_SCHEMA)]
CountOrFit = Annotated[
    int | None, PlainValidator(_read_count_or_fit), WithJsonSchema({"anyOf": [_COUNT_SCHEMA, {"const": "fit"}]})
]


def one_of(what: str, words: tuple[str, ...], reasons: dict[str, str] | None = None) -> Any:
    """A type that accepts exactly one of these words, and names the nearest if it is none of them. `reasons`: words
    that are refused for a reason of their own."""

    def read(value: Any) -> str:
        if isinstance(value, str) and value in words:
            return value
        near = nearest(value, words) if isinstance(value, str) else None
        hint = f"Did you mean {near}?" if near else ""
        if isinstance(value, str) and reasons:
            hint = reasons.get(value.lower(), hint)
        raise fault("no such word", f"Found {quoted(value)}.", f"Expected {what}: {_or(words)}.", hint)

    return Annotated[str, PlainValidator(read), WithJsonSchema({"enum": list(words)})]


def _or(words: tuple[str, ...]) -> str:
    """The words as alternatives: "a, b or c". A closure's own name may contain an "and"."""
    return f"{', '.join(words[:-1])} or {words[-1]}"


def _read_format(value: Any) -> int:
    if value == "1":
        return 1
    expected = "This version reads format 1: begin the file with `format: 1`."
    raise fault("format", f"Found {'format ' if value else ''}{quoted(value)}.", expected)


def _read_layers(value: Any) -> int:
    expected = f"Write how many cords run side by side: a whole number from 1 to {MOST_LAYERS}."
    try:
        layers = _read_count(value)
    except PydanticCustomError as error:
        raise fault("layers", (error.context or {})["found"], expected) from error
    if layers > MOST_LAYERS:
        raise fault("layers", f"Found {layers} layers.", expected)
    return layers


Format = Annotated[int, PlainValidator(_read_format), WithJsonSchema({"enum": [1, "1"]})]
Layers = Annotated[
    int, PlainValidator(_read_layers), WithJsonSchema(_count_schema(MOST_LAYERS, length_patterns.LAYERS))
]
