"""What a voice says of length and cord: an alarm once, and then only what is new of it."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from companion.core.forecast.counting import suspected_miscount
from companion.core.forecast.outlook import Outlook
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.verdict_words import NO_KEYS, Keys, ruler_is_due, verdict_line
from companion.core.words.notices import Level, Notice


class PieceThen(Struct, frozen=True):
    """A piece as it stood, with what was expected of it then."""

    plan: Plan
    piece: Piece
    outlook: Outlook


def news(before: PieceThen | None, now: PieceThen, keys: Keys = NO_KEYS) -> Iterator[Notice]:
    """What is to be said of length and cord after an act: an alarm that is new, worse, of another cause or over, and
    that the ruler is due, once. `before`: as it was before the act, and so was said already; None: nothing was said."""
    yield from _length_news(before, now, keys)
    cord = cord_line(now.plan, now.outlook)
    if cord_is_news(before, now) and cord.text:
        yield cord


def cord_is_news(before: PieceThen | None, now: PieceThen) -> bool:
    """Whether an alarm of the cord is new, worse or over; other figures of the same are no news."""
    level = cord_line(now.plan, now.outlook).level
    if before is None:
        return level != "quiet"
    if level != cord_line(before.plan, before.outlook).level:
        return True
    return level != "quiet" and _cord_is_worse(before.outlook, now.outlook)


def _length_news(before: PieceThen | None, now: PieceThen, keys: Keys) -> Iterator[Notice]:
    line, level = verdict_line(now.plan, now.piece, now.outlook, keys), _level(before)
    due = ruler_is_due(now.piece, now.outlook) and not (before and ruler_is_due(before.piece, before.outlook))
    another = before is not None and _cause(before) != _cause(now)
    changed = line.level != level or (line.level != "quiet" and another)
    if changed or (due and line.level == "quiet"):
        yield line
    elif due and line.action:
        yield replace(line, level="quiet", headline="", detail="")


def _level(moment: PieceThen | None) -> Level:
    return verdict_line(moment.plan, moment.piece, moment.outlook).level if moment else "quiet"


def _cause(moment: PieceThen) -> tuple[str, ...]:
    """What an alarm is about: another one is news, and other figures of the same are none."""
    plan, outlook = moment.plan, moment.outlook
    over = plan.target_mm is not None and outlook.finished.mean_mm > plan.target_mm
    suspect = suspected_miscount(plan, outlook)
    fault = suspect.kind if suspect else ""
    newest = outlook.newest
    surprise = "" if newest is None or newest.is_usual else f"reading {len(outlook.checks)}"
    return outlook.verdict, fault, "over" if over else "short", surprise


def _cord_is_worse(before: Outlook, now: Outlook) -> bool:
    """Whether another cord is in danger, or the same one ends earlier."""
    was, cord = before.entries[before.worst_cord].cord, now.entries[now.worst_cord].cord
    earlier = cord.step is not None and (was.step is None or cord.step < was.step)
    return before.worst_cord != now.worst_cord or earlier
