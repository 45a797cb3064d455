"""The JSON Schema of an export, for programs that read one, derived from the classes of its documents. An import checks
more than this."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any, Literal, get_args, get_origin, get_type_hints

from msgspec import StructMeta
from msgspec.structs import fields

from companion.core.gate.plan_document import VERSION
from companion.core.journal.event_document import KINDS
from companion.core.plan.plan import Plan, Step
from companion.core.values.design import Element
from companion.storage.export.document import (
    FORMAT,
    KIND,
    BeadDocument,
    CardDocument,
    PieceDocument,
    WithdrawalDocument,
)
from companion.storage.kept import CardEntry, DatedEvent

Schema = dict[str, Any]
MOMENT: Schema = {"type": "string", "description": "date, time and zone, as ISO 8601 has them"}
SIMPLE = {str: "string", int: "integer", float: "number", bool: "boolean", type(None): "null"}
DESCRIPTIONS = {
    (PieceDocument, "uid"): "who the piece is: the same on every machine",
    (PieceDocument, "name"): "what commands take",
    (PieceDocument, "plan"): "the plan as compiled when the piece began",
    (PieceDocument, "events"): "the journal, only ever added to",
}


def export_schema() -> Schema:
    """JSON Schema, draft 2020-12."""
    head: Schema = {"format": {"const": FORMAT}, "kind": {"const": KIND}, "made_at": MOMENT}
    lists = {key: _list(_schema(kind, SPECIAL)) for key, kind in (("cards", CardDocument), ("pieces", PieceDocument))}
    beads = {"beads": _list(_schema(BeadDocument, SPECIAL))}
    schema = _object({**head, **lists, **beads}, optional=("made_at", "beads"))
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Tallycord export", **schema}


def _object(properties: Schema, optional: tuple[str, ...] = ()) -> Schema:
    required = [key for key in properties if key not in optional]
    return {"type": "object", "properties": properties, "required": required, "additionalProperties": False}


def _list(of: Schema) -> Schema:
    return {"type": "array", "items": of}


def _schema(kind: Any, special: Mapping[Any, Schema]) -> Schema:
    """The schema for documents of a type. `special`: types that are written otherwise."""
    if kind in special:
        return special[kind]
    if kind in SIMPLE:
        return {"type": SIMPLE[kind]}
    if isinstance(kind, StructMeta):
        return _of_class(kind, special)
    arguments = get_args(kind)
    if get_origin(kind) is Literal:
        return {"enum": list(arguments)}
    if get_origin(kind) is tuple:
        return _list(_any_of([one for one in arguments if one is not Ellipsis], special))
    return _any_of(arguments, special)


def _any_of(kinds: Any, special: Mapping[Any, Schema]) -> Schema:
    found = [_schema(kind, special) for kind in dict.fromkeys(kinds)]
    return found[0] if len(found) == 1 else {"anyOf": found}


def _of_class(kind: Any, special: Mapping[Any, Schema]) -> Schema:
    hints, properties = get_type_hints(kind), {}
    for field in fields(kind):
        described = DESCRIPTIONS.get((kind, field.name))
        schema = _schema(hints[field.name], special)
        properties[field.name] = {**schema, "description": described} if described else schema
    return _object(properties, tuple(field.name for field in fields(kind) if not field.required))


def _event(name: str, kind: Any) -> Schema:
    return _object({"at": MOMENT, "kind": {"const": name}, "data": _schema(kind, {})})


_SHORT: Mapping[Any, Schema] = {
    Element: {"type": ["string", "number"]},
    Step: {"type": "array", "description": f"in this order: {', '.join(field.name for field in fields(Step))}"},
}
_PLAN = _schema(Plan, _SHORT)
_OPTIONAL_IN_A_PLAN = tuple(key for key in _PLAN["properties"] if key not in _PLAN["required"])
SPECIAL: Mapping[Any, Schema] = {
    datetime: MOMENT,
    Plan: _object({"version": {"const": VERSION}, **_PLAN["properties"]}, optional=_OPTIONAL_IN_A_PLAN),
    DatedEvent: {"anyOf": [_event(name, kind) for name, kind in KINDS.items()]},
    CardEntry: {"anyOf": [_schema(kind, {datetime: MOMENT}) for kind in (CardEntry, WithdrawalDocument)]},
}
