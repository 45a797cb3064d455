"""A sentence for the maker and how loud it is; the heading of a piece. Small, for a start needs them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.core.plan.plan import Plan

Level = Literal["quiet", "watch", "off"]
MARKS: dict[Level, str] = {"quiet": "", "watch": "△", "off": "▲"}


@dataclass(frozen=True, slots=True)
class Notice:
    """One sentence or two for the maker, and how much it matters; `mark` says the same without colour."""

    level: Level
    text: str

    @property
    def mark(self) -> str:
        return MARKS[self.level]

    def __str__(self) -> str:
        return f"{self.mark} {self.text}" if self.mark else self.text


def heading(plan: Plan) -> str:
    """The piece and its size: "Skerry bracelet · wrist 6 1/2 in"."""
    return f"{plan.design} · {plan.size.typed}" if plan.size and plan.size.typed else plan.design
