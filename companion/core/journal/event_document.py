"""Events as plain values, as the journal stores them, and back again. An unknown kind of event is refused with a
sentence."""

from __future__ import annotations

from functools import cache
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
    PutBack,
    Recounted,
    RedoneAct,
    Renamed,
    Started,
    TakenOut,
    TakenUp,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.values.plain_values import Misshapen, Reader, reader, to_plain

KINDS: dict[str, type[Event]] = {
    "started": Started,
    "cut entered": CutEntered,
    "confirmed": Confirmed,
    "undone": Undone,
    "act undone": UndoneAct,
    "act redone": RedoneAct,
    "jumped": Jumped,
    "measured": Measured,
    "withdrawn": Withdrawn,
    "taken out": TakenOut,
    "put back": PutBack,
    "changed": Changed,
    "joined": Joined,
    "recounted": Recounted,
    "noted": Noted,
    "finished": Finished,
    "abandoned": Abandoned,
    "taken up": TakenUp,
    "renamed": Renamed,
}
NAMES = {kind: name for name, kind in KINDS.items()}
LATER: dict[type, dict[str, Any]] = {  # fields added later: an event without them is written as before
    Changed: {"more": (), "end_closure": ""},
    Jumped: {"moved": (), "counted": None},
    Recounted: {"since": 0, "beads": 0},
    Finished: {"left_mm": None, "card": "", "lessons": ()},
}


def event_to_document(event: Event) -> tuple[str, dict[str, Any]]:
    """The event's kind in words, and its values."""
    return NAMES[type(event)], to_plain(event, {}, LATER)


def event_from_document(kind: str, values: Any) -> Event:
    """The event of a stored document; each value has the type that the event's class declares. Raises ValueError for a
    kind or values that this version does not know, and Misshapen for a value of the wrong type."""
    if kind not in KINDS:
        raise ValueError(f"a journal entry of a kind this version does not know: {kind!r}")
    try:
        event: Event = _reader(kind)(values)
    except Misshapen as error:
        if error.place:
            raise
        raise ValueError(f"a journal entry {kind!r} with values this version does not know") from error
    return event


@cache
def _reader(kind: str) -> Reader:
    """Built when it is first needed."""
    return reader(KINDS[kind], {})
