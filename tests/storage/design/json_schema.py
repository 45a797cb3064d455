"""A small checker of JSON Schema, as an editor would run it: apart from pydantic, for the words that ours uses."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

KINDS: dict[str, tuple[type, ...]] = {
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
    "boolean": (bool,),
    "null": (type(None),),
    "object": (dict,),
    "array": (list,),
}
WORDS_ONLY = {"$schema", "$defs", "title", "description", "default", "then"}
Check = Callable[[Any, Any], bool]


def is_kind(value: Any, kind: str) -> bool:
    """Whether the value is of that type; a truth value is no number."""
    return isinstance(value, KINDS[kind]) and (kind == "boolean" or not isinstance(value, bool))


def same(one: Any, other: Any) -> bool:
    return one == other and isinstance(one, bool) is isinstance(other, bool)


SIMPLE: dict[str, Check] = {
    "type": lambda kinds, value: any(is_kind(value, kind) for kind in ([kinds] if isinstance(kinds, str) else kinds)),
    "const": same,
    "enum": lambda words, value: any(same(word, value) for word in words),
    "required": lambda keys, value: not is_kind(value, "object") or all(key in value for key in keys),
    "minItems": lambda least, value: not is_kind(value, "array") or len(value) >= least,
    "maxItems": lambda most, value: not is_kind(value, "array") or len(value) <= most,
    "minLength": lambda least, value: not is_kind(value, "string") or len(value) >= least,
    "maxLength": lambda most, value: not is_kind(value, "string") or len(value) <= most,
    "pattern": lambda pattern, value: not is_kind(value, "string") or re.search(pattern, value) is not None,
    "minimum": lambda least, value: not is_kind(value, "number") or value >= least,
    "maximum": lambda most, value: not is_kind(value, "number") or value <= most,
    "exclusiveMinimum": lambda least, value: not is_kind(value, "number") or value > least,
}


def accepts(schema: dict[str, Any], rule: Any, value: Any) -> bool:
    """Whether the value keeps a rule of that schema. Raises KeyError for a word that this checker does not know."""
    if isinstance(rule, bool):
        return rule

    def keeps(other: Any, inside: Any = value) -> bool:
        return accepts(schema, other, inside)

    values = value if isinstance(value, dict) else {}
    known = rule.get("properties", {})
    nested: dict[str, Callable[[Any], bool]] = {
        "$ref": lambda name: keeps(schema["$defs"][name.rpartition("/")[2]]),
        "anyOf": lambda rules: any(keeps(one) for one in rules),
        "oneOf": lambda rules: sum(keeps(one) for one in rules) == 1,
        "allOf": lambda rules: all(keeps(one) for one in rules),
        "not": lambda one: not keeps(one),
        "if": lambda one: not keeps(one) or keeps(rule["then"]),
        "items": lambda one: not isinstance(value, list) or all(keeps(one, inside) for inside in value),
        "properties": lambda rules: all(keeps(rules[key], values[key]) for key in values if key in rules),
        "additionalProperties": lambda one: all(keeps(one, values[key]) for key in values if key not in known),
        "propertyNames": lambda one: all(keeps(one, key) for key in values),
    }
    return all(
        nested[word](what) if word in nested else SIMPLE[word](what, value)
        for word, what in rule.items()
        if word not in WORDS_ONLY
    )
