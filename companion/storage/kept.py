"""Pieces and cord cards as values, as they are stored: what one row holds, and a whole piece or card."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from msgspec import Struct

from companion.core.journal.events import Event
from companion.core.journal.piece import Piece, State
from companion.core.plan.plan import Plan
from companion.core.values.design import KnotKind, Material, Tool

Holder = Literal["here", "elsewhere", "nowhere"]  # of a piece: this window, another; nowhere: nothing here keeps locks
WITHDRAWN: Literal["withdrawn"] = "withdrawn"  # the kind of an entry that takes back the latest test that counts


class PieceRow(Struct, frozen=True):
    """One piece on the bench. `name`: what commands take; `warning`: "", or one or two words of warning."""

    id: int
    name: str
    design_name: str
    design_path: str
    design_digest: str
    started_at: datetime
    touched_at: datetime
    steps_done: int
    steps_total: int
    state: State
    warning: str


class Summary(Struct, frozen=True):
    """What the bench shows of a piece, stored in the same transaction as each event."""

    steps_done: int
    steps_total: int
    state: State
    warning: str

    @staticmethod
    def of(piece: Piece, warning: str) -> Summary:
        """The summary of a piece as it stands."""
        return Summary(piece.done, piece.total_steps, piece.state, warning)


class DatedEvent(Struct, frozen=True):
    """One event of a journal, with its time."""

    at: datetime
    event: Event


class DesignCopy(Struct, frozen=True):
    """The design that a piece was begun from, as its file was then. `digest`: SHA-256 of the file, hex."""

    name: str
    path: str
    digest: str
    text: str


class KeptPiece(Struct, frozen=True):
    """Everything that is stored of a piece. `uid`: its identity, the same on every machine."""

    uid: str
    name: str
    design: DesignCopy
    plan: Plan
    started_at: datetime
    journal: tuple[DatedEvent, ...]
    summary: Summary


class CardRow(Struct, frozen=True):
    """A cord card without its entries."""

    id: int
    name: str
    diameter_mm: float
    layers: int
    material: Material
    worked_with: Tool
    made_at: datetime


class CardEntry(Struct, frozen=True):
    """One entry of a card: a test, or the withdrawal of the latest test that counts. None: something the test does not
    have."""

    at: datetime
    kind: KnotKind | Literal["withdrawn"]
    knots: int
    before_mm: float | None
    after_mm: float | None
    row_mm: float | None
    ruler_step_mm: float
    typed: str

    @staticmethod
    def withdrawal(at: datetime) -> CardEntry:
        """An entry that withdraws the latest test that counts."""
        return CardEntry(at, WITHDRAWN, 0, None, None, None, 0.0, "")


class BeadRow(Struct, frozen=True):
    """A kind of bead as it was typed then, each length with its unit. `in_hand`: how many there were, "" for not
    counted."""

    at: datetime
    name: str
    length: str
    diameter: str
    hole: str
    colour: str
    shape: str
    in_hand: str


class BeadTakenOut(Struct, frozen=True):
    """A kind of bead was taken out of the box. `after`: the number of the latest bead in it then; one of that kind that
    was typed later is in it again."""

    at: datetime
    name: str
    length: str
    after: int


class KeptBead(Struct, frozen=True):
    """A kind of bead as it stands; of one that is taken out, as it was, and when that was."""

    bead: BeadRow
    taken_out: bool = False


class KeptCard(Struct, frozen=True):
    """A card with all its entries."""

    card: CardRow
    entries: tuple[CardEntry, ...]
