"""Pieces that go on otherwise than they began: their plan as the maker's changes have made it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from companion.core.journal.events import Event, UndoneAct
from companion.core.journal.fold import after
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.plan.plan import Plan
from companion.core.plan.replan import changed_plan
from companion.storage.kept import DatedEvent
from companion.workshop.open_piece import OpenPiece


def replanned(opened: OpenPiece, piece: Piece) -> OpenPiece:
    """The open piece with its plan as the changes of `piece` make it."""
    return replace(opened, plan=changed_plan(opened.began_with, piece.changes), first_plan=opened.began_with)


def with_plans(first: Plan, journal: Iterable[DatedEvent]) -> Iterator[tuple[DatedEvent, Plan, Event | None]]:
    """Every event with the plan as it was then, for what is left may have been changed, and changed back; and with the
    act that it undoes or does again, if it does."""
    plan, piece = first, NOT_BEGUN
    for entry in journal:
        before, piece = piece, after(piece, entry.event)
        if piece.changes != before.changes:
            plan = changed_plan(first, piece.changes)
        yield entry, plan, before.act if isinstance(entry.event, UndoneAct) else piece.act
