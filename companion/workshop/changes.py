"""A piece goes on: after one more event, and where the maker goes on otherwise than it began, with the plan as her
changes have made it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from msgspec.structs import replace

from companion.core.journal.events import Confirmed, Event, UndoneAct
from companion.core.journal.fold import after
from companion.core.journal.names import name_after
from companion.core.journal.pace import LATEST
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.plan.plan import Plan
from companion.storage.kept import DatedEvent
from companion.workshop import parts
from companion.workshop.open_piece import OpenPiece


def after_event(opened: OpenPiece, event: Event, at: datetime) -> OpenPiece:
    """The piece after one more event. Raises NotPossible where it does not follow."""
    times = opened.confirmed_at
    if isinstance(event, Confirmed):
        times = (*times[-LATEST:], at.timestamp())
    name, piece = name_after(opened.name, opened.piece, event), after(opened.piece, event)
    if (piece.changes, piece.cuts) != (opened.piece.changes, opened.piece.cuts):
        opened = replanned(opened, piece)
    return replace(opened, name=name, piece=piece, revision=opened.revision + 1, touched_at=at, confirmed_at=times)


def replanned(opened: OpenPiece, piece: Piece) -> OpenPiece:
    """The open piece with its plan as the cuts and changes of `piece` make it."""
    began = opened.began_with
    plan = _plan_of(began, piece)
    return replace(opened, plan=plan, first_plan=None if plan is began else began)


def _plan_of(first: Plan, piece: Piece) -> Plan:
    """The plan that the piece began with, told as its cords were cut, after its changes."""
    told: Plan = parts.as_cut.told_as_cut(first, piece.cuts) if piece.cuts else first
    return parts.replan.changed_plan(told, piece.changes) if piece.changes else told


def with_plans(first: Plan, journal: Iterable[DatedEvent]) -> Iterator[tuple[DatedEvent, Plan, Event | None]]:
    """Every event with the plan as it was then, for what is left may have been changed, and changed back; and with the
    act that it undoes or does again, if it does."""
    plan, piece = first, NOT_BEGUN
    for entry in journal:
        before, piece = piece, after(piece, entry.event)
        if (piece.changes, piece.cuts) != (before.changes, before.cuts):
            plan = _plan_of(first, piece)
        yield entry, plan, before.act if isinstance(entry.event, UndoneAct) else piece.act
