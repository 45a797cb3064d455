"""The oracle of the crash trials: what is stored must follow from the keys typed, and hold all that was shown."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from companion.core.journal.events import Confirmed, Event, Jumped, Measured, Noted, RedoneAct, UndoneAct
from companion.core.journal.fold import after, fold
from companion.core.journal.piece import Piece
from companion.core.values.errors import NotPossible, WorkshopError
from companion.storage.folders import DATABASE
from companion.workshop import open_at


@dataclass(frozen=True)
class Key:
    """A key; where it opens a question, the `prompt` that shows then and what is `typed` into it."""

    first: str
    prompt: str = ""
    typed: str = ""


@dataclass(frozen=True)
class Observed:
    """What was seen of one trial. `steps_before`: steps done before it, None where it began the piece itself.

    `keys`: those typed; `steps_shown`: the number of steps done, in each state that the screen showed; `said`: words
    that it showed. `strict`: every key came at a screen that could take it, so none may be left out.
    """

    steps_before: int | None
    keys: Sequence[Key]
    steps_shown: Sequence[int]
    said: frozenset[str] = frozenset()
    strict: bool = True


@dataclass
class Judgement:
    """`stored`: how many events the trial has left. `wrong`: a sentence for each thing that must not be."""

    stored: int = 0
    wrong: list[str] = field(default_factory=list)


def judge(home: Path, observed: Observed) -> Judgement:
    """Hold what is stored in that folder against what was seen, and go on with the piece."""
    told = Judgement()
    if "Traceback" in observed.said:
        told.wrong.append("a traceback was shown")
    workshop = open_at(home)
    try:
        rows = workshop.pieces()
        if not rows:
            shown = observed.steps_shown
            told.wrong += [f"step {shown[-1]} was shown, no piece is stored"] if shown else []
            return told
        if len(rows) > 1:
            told.wrong.append(f"{len(rows)} pieces are stored")
        opened = workshop.open(rows[0].name)
        events = [entry.event for entry in workshop.journal(opened)]
        row = (rows[0].steps_done, rows[0].steps_total, rows[0].state)
        if row != (opened.piece.done, opened.piece.total_steps, opened.piece.state):
            told.wrong.append(f"the bench shows {row}, the journal comes to {opened.piece.done}")
        first = 2 if observed.steps_before else 1  # the start, and the jump to where the trial begins
        told.stored = len(events) - first
        told.wrong += _compare(events[:first], events[first:], observed)
        workshop.close()
        told.wrong += faults_in_file(home / DATABASE)
        if opened.piece.done < opened.piece.total_steps:  # and the piece can be gone on with
            workshop = open_at(home)
            done = workshop.confirm(workshop.open(opened.name)).piece.done
            if workshop.open(opened.name).piece.done != done:
                told.wrong.append("a step made after the crash is not stored")
    except (WorkshopError, NotPossible) as error:
        told.wrong.append(f"it can't be gone on with: {error}")
    finally:
        workshop.close()
    return told


def faults_in_file(database: Path) -> list[str]:
    """What is wrong with the file itself: SQLite's own check, events without a piece, numbers left out."""
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


def _compare(before: Sequence[Event], events: Sequence[Event], observed: Observed) -> list[str]:
    start = fold(before)
    wrong, states, piece = [], [start.done], start
    for event in events:
        piece = after(piece, event)
        states.append(piece.done)
    if not is_subsequence(observed.steps_shown, states):
        wrong.append(f"shown {list(observed.steps_shown)[-8:]}, stored {states[-8:]}")
    if "Noted." in observed.said and not any(isinstance(event, Noted) for event in events):
        wrong.append("a note was shown as taken, none is stored")
    return wrong + _match_keys(start, events, observed)


def is_subsequence(shown: Sequence[int], states: Sequence[int]) -> bool:
    """Whether what was shown came in the order of what is stored, some states perhaps passed over."""
    rest = iter(states)
    return all(any(state == one for state in rest) for one in shown)


def _match_keys(piece: Piece, events: Sequence[Event], observed: Observed) -> list[str]:
    """Every event must have a key of its own, in the order they were typed."""
    left = list(observed.keys)
    for event in events:
        while left:
            key = left.pop(0)
            if _expected(piece, key) == event or _answers(key, event):
                break
            if observed.strict and not key.prompt and _expected(piece, key) is not None:
                return [f"the key {key.first!r} is left out before {event}"]
        else:
            return [f"{event} is stored, but no key that was typed is left for it"]
        piece = after(piece, event)
    return []


def _expected(piece: Piece, key: Key) -> Event | None:
    """The event that a key without a question stands for, None where it stands for none."""
    match key.first:
        case " ":
            return Confirmed(piece.done + 1)
        case "u":
            return UndoneAct() if piece.before is not None else None
        case "U":
            return RedoneAct() if piece.later is not None else None
    return None


def _answers(key: Key, event: Event) -> bool:
    """Whether that event is what was typed into the key's question."""
    match event:
        case Measured(typed=typed):
            return key.first == "m" and key.typed == typed
        case Noted(text=text):
            return key.first == "n" and key.typed == text
        case Jumped(to=to):
            return key.first == "j" and key.typed == str(to)
    return False
