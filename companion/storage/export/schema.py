"""The JSON Schema of an export, for programs that read one. What an import takes is checked further than this."""

from __future__ import annotations

from typing import Any, get_args

from companion.core.journal.event_document import KINDS
from companion.core.journal.piece import State
from companion.core.values.design import KNOT_KINDS, Material, Tool
from companion.storage.export.document import FORMAT, KIND, WITHDRAWN

TEXT: dict[str, Any] = {"type": "string"}
LENGTH: dict[str, Any] = {"type": ["number", "null"]}
COUNT: dict[str, Any] = {"type": "integer", "minimum": 0}
MOMENT: dict[str, Any] = {"type": "string", "description": "date, time and zone, as ISO 8601 has them"}


def export_schema() -> dict[str, Any]:
    """JSON Schema, draft 2020-12."""
    head = {"format": {"const": FORMAT}, "kind": {"const": KIND}, "made_at": MOMENT}
    schema = _object({**head, "cards": _list(_card()), "pieces": _list(_piece())}, optional=("made_at",))
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Companion export", **schema}


def _object(properties: dict[str, Any], optional: tuple[str, ...] = ()) -> dict[str, Any]:
    required = [key for key in properties if key not in optional]
    return {"type": "object", "properties": properties, "required": required, "additionalProperties": False}


def _list(of: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": of}


def _piece() -> dict[str, Any]:
    event = _object({"at": MOMENT, "kind": {"enum": list(KINDS)}, "data": {"type": "object"}})
    return _object(
        {
            "uid": {"type": "string", "description": "who the piece is: the same on every machine"},
            "name": {"type": "string", "description": "what commands take"},
            "state": {"enum": list(get_args(State))},
            "steps_done": COUNT,
            "steps_total": COUNT,
            "trouble": TEXT,
            "started_at": MOMENT,
            "design": _object({"name": TEXT, "path": TEXT, "digest": TEXT, "text": TEXT}),
            "plan": {"type": "object", "description": "the plan as compiled when the piece began"},
            "events": {**_list(event), "minItems": 1, "description": "the journal, only ever added to"},
        }
    )


def _card() -> dict[str, Any]:
    knots = {"at": MOMENT, "kind": {"enum": list(KNOT_KINDS)}, "knots": {"type": "integer", "minimum": 1}}
    lengths = {"before_mm": LENGTH, "after_mm": LENGTH, "row_mm": LENGTH, "ruler_step_mm": {"type": "number"}}
    test = _object({**knots, **lengths, "typed": TEXT})
    withdrawn = _object({"at": MOMENT, "kind": {"const": WITHDRAWN}})
    return _object(
        {
            "name": TEXT,
            "diameter_mm": {"type": "number", "exclusiveMinimum": 0},
            "layers": {"type": "integer", "minimum": 1},
            "material": {"enum": list(get_args(Material))},
            "worked_with": {"enum": list(get_args(Tool))},
            "made_at": MOMENT,
            "tests": _list({"anyOf": [test, withdrawn]}),
        }
    )
