"""After the fall: what is stored, held against what was shown and what was typed."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from companion.core.journal.events import Confirmed, Event, Jumped, Measured, Noted, Undone
from companion.core.journal.fold import after, undo_of
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.values.errors import NotPossible, WorkshopError
from companion.storage.folders import DATABASE
from companion.workshop import open_at


@dataclass(frozen=True)
class Key:
    """A key, with what is typed into the question that it opens, once that shows."""

    first: str
    prompt: str = ""
    typed: str = ""


@dataclass
class Accounts:
    """`stored`: events that the round has left. `wrong`: sentences."""

    stored: int = 0
    wrong: list[str] = field(default_factory=list)


def sound(database: Path) -> list[str]:
    """What is wrong with the file itself: SQLite's own check, and every summary against its journal."""
    db = sqlite3.connect(database)
    try:
        (checked,) = db.execute("PRAGMA integrity_check").fetchone()
        wrong = [] if checked == "ok" else [f"integrity check: {checked}"]
        if db.execute("PRAGMA foreign_key_check").fetchall():
            wrong.append("an event without its piece")
        if any(last != many for last, many in db.execute("SELECT max(seq), count(*) FROM event GROUP BY piece_id")):
            wrong.append("a journal with a gap")
        return wrong
    finally:
        db.close()


def accounts(
    home: Path, began: int | None, keys: Sequence[Key], shown: Sequence[int], said: set[str], *, strict: bool
) -> Accounts:
    """The accounts of one round. `began`: steps made before it, None: it began the piece itself; `strict`: each key is
    stored in its turn up to some last one, none left out; else some may be."""
    told = Accounts()
    if "Traceback" in said:
        told.wrong.append("a traceback was shown")
    workshop = open_at(home)
    try:
        rows = workshop.pieces()
        if not rows:
            told.wrong += [f"step {shown[-1]} was shown, no piece is stored"] if shown else []
            return told
        if len(rows) > 1:
            told.wrong.append(f"{len(rows)} pieces are stored")
        opened = workshop.open(rows[0].name)
        events = [entry.event for entry in workshop.journal(opened)]
        row = (rows[0].steps_done, rows[0].steps_total, rows[0].state)
        if row != (opened.piece.done, opened.piece.total_steps, opened.piece.state):
            told.wrong.append(f"the bench shows {row}, the journal comes to {opened.piece.done}")
        first = 2 if began else 1  # the start, and the jump to where the round begins
        told.stored = len(events) - first
        _check(told, events[:first], events[first:], keys, shown, said, strict)
        workshop.close()
        told.wrong += sound(home / DATABASE)
        if opened.piece.done < opened.piece.total_steps:  # and the work goes on
            workshop = open_at(home)
            done = workshop.confirm(workshop.open(opened.name)).piece.done
            if workshop.open(opened.name).piece.done != done:
                told.wrong.append("a step after the fall is not stored")
    except (WorkshopError, NotPossible) as error:
        told.wrong.append(f"it can't be gone on with: {error}")
    finally:
        workshop.close()
    return told


def _check(
    told: Accounts,
    before: Sequence[Event],
    events: Sequence[Event],
    keys: Sequence[Key],
    shown: Sequence[int],
    said: set[str],
    strict: bool,
) -> None:
    piece = NOT_BEGUN
    for event in before:
        piece = after(piece, event)
    states, start = [piece.done], piece
    for event in events:
        piece = after(piece, event)
        states.append(piece.done)
    if not is_within(shown, states):
        told.wrong.append(f"shown {list(shown)[-8:]}, stored {states[-8:]}")
    if "Noted." in said and not any(isinstance(event, Noted) for event in events):
        told.wrong.append("a note was shown as taken, none is stored")
    told.wrong += _in_turn(start, events, keys, strict)


def is_within(shown: Sequence[int], states: Sequence[int]) -> bool:
    """Whether what was shown came in the order of what is stored, some states perhaps passed over."""
    rest = iter(states)
    return all(any(state == one for state in rest) for one in shown)


def _in_turn(piece: Piece, events: Sequence[Event], keys: Sequence[Key], strict: bool) -> list[str]:
    """Every event must have a key of its own, in the order they were typed."""
    left = list(keys)
    for event in events:
        while left:
            key = left.pop(0)
            if _meant(piece, key) == event or _meant_as_typed(key, event):
                break
            if strict and not key.prompt and _meant(piece, key) is not None:
                return [f"the key {key.first!r} is left out before {event}"]
        else:
            return [f"{event} is stored, but no key that was typed is left for it"]
        piece = after(piece, event)
    return []


def _meant(piece: Piece, key: Key) -> Event | None:
    """The event that a single key stands for, None where it stands for none."""
    if key.first == "u":
        try:
            return undo_of(piece)
        except NotPossible:
            return None
    return Confirmed(piece.done + 1) if key.first == " " else None


def _meant_as_typed(key: Key, event: Event) -> bool:
    match event:
        case Measured(typed=typed):
            return key.first == "m" and key.typed == typed
        case Noted(text=text):
            return key.first == "n" and key.typed == text
        case Jumped(to=to):
            return key.first == "j" and key.typed == str(to)
        case Undone() | Confirmed():
            return False
    return False
