"""What is said to the maker and how much it matters; and the heading of a piece. A start loads this file."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.journal.names import shown_name
from companion.core.plan.plan import Plan
from companion.core.values.text import sentences

Level = Literal["quiet", "watch", "off"]
MARKS: dict[Level, str] = {"quiet": "", "watch": "△", "off": "▲"}


class Notice(Struct, frozen=True):
    """What the maker is told: `headline` says how things are, `detail` the figures and the reason, `action` what to do.

    Each is a whole sentence, or several. `mark` says the level to those who see no colours.
    """

    level: Level
    headline: str
    detail: str = ""
    action: str = ""

    @property
    def mark(self) -> str:
        """The sign of its level, "" for a quiet one."""
        return MARKS[self.level]

    @property
    def text(self) -> str:
        """All that it says, without the mark."""
        return sentences(self.headline, self.detail, self.action)

    def __str__(self) -> str:
        return sentences(self.mark, self.text)


def heading(plan: Plan, name: str = "") -> str:
    """The piece and its size: "Skerry bracelet · wrist 6 1/2 in". `name`: the piece's own, where it has one."""
    shown = shown_name(name, plan.design) if name else plan.design
    return f"{shown} · {plan.size.typed}" if plan.size and plan.size.typed else shown


class PieceLine(Struct, frozen=True):
    """One line of the page of a piece. `depth`: how far it is set in; `heading`: the first line of a section."""

    text: str
    depth: int = 0
    heading: bool = False
