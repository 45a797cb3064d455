"""What the journal writes: old journals must be readable for ever, so its words are held here letter by letter."""

from __future__ import annotations

import json
from typing import get_args

import pytest

from companion.core.journal.event_document import KINDS, event_from_document, event_to_document
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

WRITTEN = [
    (Started(28), "started", '{"total_steps": 28}'),
    (CutEntered(0, 1168.4, "46 in"), "cut entered", '{"cord": 0, "length_mm": 1168.4, "typed": "46 in"}'),
    (Confirmed(7), "confirmed", '{"step": 7}'),
    (Undone(6), "undone", '{"back_to": 6}'),
    (UndoneAct(), "act undone", "{}"),
    (RedoneAct(), "act redone", "{}"),
    (TakenUp(), "taken up", "{}"),
    (Renamed("For Anna", "skerry-bracelet"), "renamed", '{"name": "For Anna", "was": "skerry-bracelet"}'),
    (Jumped(12), "jumped", '{"to": 12}'),
    (Jumped(25, ((18, 17), (22, -1))), "jumped", '{"to": 25, "moved": [[18, 17], [22, -1]]}'),
    (Jumped(25, ((18, 17),), (10, 17)), "jumped", '{"to": 25, "moved": [[18, 17]], "counted": [10, 17]}'),
    (
        Measured("free", 9, 412.75, "16 1/4 in", 1.5875),
        "measured",
        '{"kind": "free", "step": 9, "length_mm": 412.75, "typed": "16 1/4 in", "ruler_step_mm": 1.5875}',
    ),
    (Withdrawn(), "withdrawn", "{}"),
    (
        TakenOut(2, Measured("strand", 9, 34.0, "34 mm")),
        "taken out",
        '{"number": 2, "reading": {"kind": "strand", "step": 9, "length_mm": 34.0, "typed": "34 mm", '
        '"ruler_step_mm": 1.0}}',
    ),
    (
        PutBack(1, Measured("free", 0, 412.75, "16 1/4 in", 1.5875)),
        "put back",
        '{"number": 1, "reading": {"kind": "free", "step": 0, "length_mm": 412.75, "typed": "16 1/4 in", '
        '"ruler_step_mm": 1.5875}}',
    ),
    (Joined(9, 300.0, "30 cm"), "joined", '{"step": 9, "added_mm": 300.0, "typed": "30 cm"}'),
    (Recounted(9, 6, -1), "recounted", '{"step": 9, "since": 6, "beads": -1}'),
    (
        Changed(0, 4, ("=b", "single", 5.0), 0.5, 30, "One more"),
        "changed",
        '{"entry": 0, "made": 4, "rest": ["=b", "single", 5.0], "closure_mm": 0.5, "total_steps": 30, '
        '"words": "One more"}',
    ),
    (
        Changed(0, 4, ("=b",), 0.0, 30, "One more", ((1, 0, ("single", "=b")),), "cord end and clasp"),
        "changed",
        '{"entry": 0, "made": 4, "rest": ["=b"], "closure_mm": 0.0, "total_steps": 30, "words": "One more", '
        '"more": [[1, 0, ["single", "=b"]]], "end_closure": "cord end and clasp"}',
    ),
    (Noted(9, "knots — looser"), "noted", '{"step": 9, "text": "knots \\u2014 looser"}'),
    (Finished(202.0), "finished", '{"length_mm": 202.0}'),
    (Recounted(9), "recounted", '{"step": 9}'),
    (
        Finished(202.0, 150.0, "silk", (("single", 24, 6.1, 0.4, None, None),)),
        "finished",
        '{"length_mm": 202.0, "left_mm": 150.0, "card": "silk", "lessons": [["single", 24, 6.1, 0.4, null, null]]}',
    ),
    (Finished(), "finished", '{"length_mm": null}'),
    (Abandoned("tired"), "abandoned", '{"reason": "tired"}'),
]


@pytest.mark.parametrize(("event", "kind", "data"), WRITTEN, ids=lambda value: value if isinstance(value, str) else "")
def test_the_words_of_the_journal_stay(event: Event, kind: str, data: str) -> None:
    written_kind, values = event_to_document(event)
    assert (written_kind, json.dumps(values)) == (kind, data)
    assert event_from_document(kind, json.loads(data)) == event


def test_every_event_has_its_word() -> None:
    assert set(KINDS.values()) == set(get_args(Event)) == {type(event) for event, _, _ in WRITTEN}


def test_a_reading_from_before_rulers_had_a_step_is_read() -> None:
    """Values that an event has a default for may be missing."""
    old = {"kind": "strand", "step": 3, "length_mm": 30.0, "typed": "30 mm"}
    assert event_from_document("measured", old) == Measured("strand", 3, 30.0, "30 mm", 1.0)


@pytest.mark.parametrize(
    ("kind", "values"),
    [("embroidered", {}), ("", {}), ("confirmed", {}), ("confirmed", {"step": 1, "row": 2}), ("noted", {"text": "x"})],
)
def test_what_is_not_known_is_refused_in_words(kind: str, values: dict) -> None:
    with pytest.raises(ValueError, match="does not know"):
        event_from_document(kind, values)
