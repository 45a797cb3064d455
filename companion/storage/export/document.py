"""The documents of pieces and cards that an export holds, derived from the classes that they are kept in."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal

from msgspec import Struct

from companion.core.gate.plan_document import to_document
from companion.core.journal.event_document import event_to_document
from companion.core.journal.piece import State
from companion.core.plan.plan import Plan
from companion.core.values.design import Material, Tool
from companion.core.values.plain_values import Writer, to_plain
from companion.storage.kept import WITHDRAWN, CardEntry, DatedEvent, DesignCopy, KeptBead, KeptCard, KeptPiece

FORMAT, KIND = 1, "tallycord export"
EARLIER_KIND = "companion export"  # before the program had its name; read, never written
LISTS = ("cards", "pieces")
LATER_LISTS = ("beads",)  # an export that was written before has none
Document = dict[str, Any]


class PieceDocument(Struct, frozen=True):
    """A piece. Its steps done and its state are for readers; an import works them out again."""

    uid: str
    name: str
    state: State
    steps_done: int
    steps_total: int
    trouble: str
    started_at: datetime
    design: DesignCopy
    plan: Plan
    events: tuple[DatedEvent, ...]


class EventDocument(Struct, frozen=True):
    """An event: its kind in words, and its values."""

    at: datetime
    kind: str
    data: Document


class CardDocument(Struct, frozen=True):
    """A cord card."""

    name: str
    diameter_mm: float
    layers: int
    material: Material
    worked_with: Tool
    made_at: datetime
    tests: tuple[CardEntry, ...]


class BeadDocument(Struct, frozen=True):
    """A bead of the bead box as it stands; of one that was taken out, as it was, and when that was."""

    at: datetime
    name: str
    length: str
    diameter: str
    hole: str
    colour: str
    shape: str
    in_hand: str
    taken_out: bool


class WithdrawalDocument(Struct, frozen=True):
    """An entry of a card that withdraws the latest test that counts."""

    at: datetime
    kind: Literal["withdrawn"]


def piece_document(kept: KeptPiece) -> Document:
    """A piece as plain values."""
    stands = kept.summary
    return _plain(
        PieceDocument(
            kept.uid,
            kept.name,
            stands.state,
            stands.steps_done,
            stands.steps_total,
            stands.warning,
            kept.started_at,
            kept.design,
            kept.plan,
            kept.journal,
        )
    )


def card_document(kept: KeptCard) -> Document:
    """A card as plain values."""
    row = kept.card
    return _plain(
        CardDocument(row.name, row.diameter_mm, row.layers, row.material, row.worked_with, row.made_at, kept.entries)
    )


def bead_document(kept: KeptBead) -> Document:
    """A bead as plain values."""
    row = kept.bead
    texts = (row.name, row.length, row.diameter, row.hole, row.colour, row.shape, row.in_hand)
    return _plain(BeadDocument(row.at, *texts, kept.taken_out))


def _plain(value: Any) -> Document:
    writers: dict[type, Writer] = {
        datetime: datetime.isoformat,
        Plan: to_document,
        DatedEvent: _event,
        CardEntry: _entry,
    }
    document: Document = to_plain(value, writers, {})
    return document


def _event(line: DatedEvent) -> Document:
    kind, values = event_to_document(line.event)
    return {"at": line.at.isoformat(), "kind": kind, "data": values}


def _entry(entry: CardEntry) -> Document:
    document: Document = to_plain(entry, {datetime: datetime.isoformat}, {})
    return {key: document[key] for key in ("at", "kind")} if entry.kind == WITHDRAWN else document
