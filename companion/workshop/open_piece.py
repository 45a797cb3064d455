"""A piece that is open: what the workshop gives to the screen and the commands, and takes back from them."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook


class OpenPiece(Struct, frozen=True):
    """A piece that is open: its plan, as it stands, and how many events its journal had when it was looked at."""

    id: int
    name: str
    plan: Plan
    piece: Piece
    revision: int
    design_path: str
    design_digest: str
    started_at: datetime
    touched_at: datetime
    warning: str = ""  # a word or two of warning, as the bench shows it
    confirmed_at: tuple[float, ...] = ()  # seconds, the latest confirms: for the pace
    first_plan: Plan | None = None  # as the piece began, where the maker has gone on otherwise since

    @property
    def began_with(self) -> Plan:
        """The plan as the piece began, whatever was changed on the way."""
        return self.first_plan or self.plan


def warning_of(outlook: Outlook) -> str:
    """A word or two of warning for the bench, "" when nothing is to be done: a length that may turn out either way is
    no warning yet."""
    words: list[str] = [] if outlook.verdict in ("no target", "on plan", "watch") else [_verdict_word(outlook)]
    cord = outlook.entries[outlook.worst_cord].cord.verdict
    if cord != "enough":
        words.append("cord " + {"scant": "tight"}.get(cord, cord))
    return ", ".join(words)


def _verdict_word(outlook: Outlook) -> str:
    """The verdict on the length; a count of which nothing is likely enough to be told as the cause is to be watched."""
    if outlook.verdict != "recount":
        return outlook.verdict
    from companion.core.forecast.counting import miscount_chance
    from companion.core.forecast.verdicts import NAMED_FROM

    return outlook.verdict if miscount_chance(outlook) >= NAMED_FROM else "watch"
