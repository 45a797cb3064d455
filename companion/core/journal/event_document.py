"""Events as plain values and back: how the journal keeps them. A kind that is not known is refused in words."""

from __future__ import annotations

from dataclasses import asdict, fields
from typing import Any

from companion.core.journal.events import (
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Event,
    Finished,
    Joined,
    Jumped,
    Measured,
    Noted,
    Recounted,
    Started,
    Undone,
    Withdrawn,
)

KINDS: dict[str, type[Event]] = {
    "started": Started,
    "cut entered": CutEntered,
    "confirmed": Confirmed,
    "undone": Undone,
    "jumped": Jumped,
    "measured": Measured,
    "withdrawn": Withdrawn,
    "changed": Changed,
    "joined": Joined,
    "recounted": Recounted,
    "noted": Noted,
    "finished": Finished,
    "abandoned": Abandoned,
}
NAMES = {kind: name for name, kind in KINDS.items()}
LATER = {  # values that came in later: left out where they say nothing, so that an old entry is written as it was
    Changed: ("more", "end_closure"),
    Recounted: ("since", "beads"),
    Finished: ("left_mm", "card", "lessons"),
}


def event_to_document(event: Event) -> tuple[str, dict[str, Any]]:
    """The event's kind in words, and its values."""
    values = asdict(event)
    defaults = {field.name: field.default for field in fields(event)}
    for name in LATER.get(type(event), ()):
        if values[name] == defaults[name]:
            del values[name]
    return NAMES[type(event)], values


def event_from_document(kind: str, values: dict[str, Any]) -> Event:
    """The event again. Raises ValueError for a kind or values that this companion does not know."""
    if kind not in KINDS:
        raise ValueError(f"a journal entry of a kind this companion does not know: {kind!r}")
    try:
        return _made(kind, {name: _frozen(value) for name, value in values.items()})
    except TypeError as error:
        raise ValueError(f"a journal entry {kind!r} with values this companion does not know") from error


def _frozen(value: Any) -> Any:
    """Lists, as JSON has them, as the tuples that they were."""
    return tuple(_frozen(one) for one in value) if isinstance(value, list) else value


def _made(kind: str, values: dict[str, Any]) -> Event:
    return KINDS[kind](**values)
