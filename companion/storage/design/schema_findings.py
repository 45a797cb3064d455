"""From what pydantic finds to problems with their place in the file, in words for the maker."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from companion.core.values.design_reading import Problem
from companion.core.values.text import capitalised, join_words, nearest
from companion.storage.design.findings import Findings, quoted
from companion.storage.design.part_words import how_written, part_at, to_add
from companion.storage.design.schema import (
    BeadModel,
    BeadsModel,
    CordModel,
    DesignModel,
    EndModel,
    KnotModel,
    KnotsModel,
    MirrorModel,
    RepeatModel,
    SidesModel,
    SizeModel,
    SpaceModel,
    StrandModel,
    field_names,
)
from companion.storage.design.yaml_text.strict_yaml import List, Map, Node, Text

_DIGITS_FIRST = re.compile(r"\d")
ITEM_KEYS = tuple(key for model in (SpaceModel, RepeatModel, MirrorModel, BeadsModel) for key in field_names(model))


def plain_data(node: Node) -> Any:
    """The file's values without their places: text ("" if nothing was written), lists and dicts."""
    if isinstance(node, Text):
        return node.value
    if isinstance(node, List):
        return [item.value if type(item) is Text else plain_data(item) for item in node.items]
    return {key: plain_data(value) for key, value in node.values.items()}


def tell(error: ValidationError, findings: Findings) -> None:
    """Add what pydantic found, each with its place and in our own words."""
    for one in error.errors(include_url=False, include_input=False):
        path = one["loc"]
        if one["type"] == "extra_forbidden":
            parent = find(findings.root, path[:-1])
            key = str(path[-1])
            node: Node = parent.keys[key] if isinstance(parent, Map) and key in parent.keys else parent
        else:
            node = find(findings.root, path)
        if findings.tells(_code(one), node):
            findings.problems.append(_problem(one, node, findings.file))


def _code(one: Any) -> str:
    """What kind of problem it is."""
    kinds = {"extra_forbidden": "unknown key", "missing": "missing key"}
    return str(one["ctx"]["code"]) if one["type"] == "tallycord" else kinds.get(one["type"]) or _code_of(one["type"])


def _problem(one: Any, node: Node, file: str) -> Problem:
    path, kind, context, code = one["loc"], one["type"], one.get("ctx", {}), _code(one)
    if kind == "extra_forbidden":
        words = _unknown_key(str(path[-1]), field_names(_model_at(path[:-1])), path[:-1])
    elif kind == "missing":
        words = capitalised(f"{part_at(path[:-1])} has no {quoted(str(path[-1]))}."), to_add(str(path[-1])), ""
    elif kind == "tallycord":
        words = context["found"], context["expected"], context["hint"]
    else:
        words = _shape(kind, path, node)
    return Problem(file, node.line, node.column, "error", code, *words)


def _unknown_key(key: str, known: Sequence[str], path: Sequence[Any]) -> tuple[str, str, str]:
    near = nearest(key, known)
    if key in ITEM_KEYS and set(known) < set(ITEM_KEYS):
        return f"Found {quoted(key)} together with {quoted(known[0])}.", "Give each of them a dash of its own.", ""
    if near:
        hint = f"Did you mean {near}?"
    elif _DIGITS_FIRST.match(key):
        hint = "Within { and } a length with a decimal comma needs quotes."
    else:
        hint = ""
    expected = f"It can have {join_words(list(dict.fromkeys(known)))}, and nothing else."
    return f"Found {quoted(key)} in {part_at(path)}, where it means nothing.", expected, hint


def _shape(kind: str, path: Sequence[Any], node: Node) -> tuple[str, str, str]:
    """What is found, what is expected and what to do, where something of another kind belongs."""
    if _code_of(kind) == "no layout item":
        keys = list(node.values) if isinstance(node, Map) else []
        near = next((near for key in keys if (near := nearest(key, ITEM_KEYS))), None)
        expected = "A line of a layout is a bead or a knot, or it begins with space, repeat, mirror or beads."
        found = f"Found {quoted(plain_data(node))} in {part_at(path)}."
        return found, expected, f"Did you mean {near}?" if near else ""
    part, data = part_at(path), plain_data(node)
    if not data:
        return capitalised(f"{part} is empty."), how_written(path), ""
    return capitalised(f"{part} is written as {quoted(data)}."), how_written(path), ""


def _code_of(kind: str) -> str:
    """The code of pydantic's own kinds of findings."""
    if kind in ("union_tag_not_found", "union_tag_invalid"):
        return "no layout item"
    if kind in ("list_type", "too_short"):
        return "no list"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return "no mapping"
    return "not understood"


def find(root: Node, path: Sequence[Any]) -> Text | List | Map:
    """The node at a path; if the path goes further than the file, the last node on it."""
    node = root
    for part in path:
        if isinstance(node, Map) and part in node.values:
            node = node.values[part]
        elif isinstance(node, List) and isinstance(part, int) and part < len(node.items):
            node = node.items[part]
    return node


_BY_KEY: dict[str, type[BaseModel]] = {
    "size": SizeModel,
    "cord": CordModel,
    "knots": KnotsModel,
    "single": KnotModel,
    "double": KnotModel,
    "triple": KnotModel,
    "start": EndModel,
    "end": EndModel,
    "strand": StrandModel,
    "strands": StrandModel,
    "mirror": SidesModel,
    "«space»": SpaceModel,
    "«repeat»": RepeatModel,
    "«mirror»": MirrorModel,
    "«beads»": BeadsModel,
}


def _model_at(path: Sequence[Any]) -> type[BaseModel]:
    if len(path) == 2 and path[0] == "beads":
        return BeadModel
    for part in reversed(path):
        if isinstance(part, str) and part in _BY_KEY:
            return _BY_KEY[part]
    return DesignModel
