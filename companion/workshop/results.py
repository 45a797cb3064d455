"""What use cases give back, beside an open piece."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:  # fields only: whoever makes a value has loaded what is in it
    from companion.core.cord.lessons import Lesson
    from companion.core.forecast.reading_list import ListedReading
    from companion.core.plan.plan import Plan
    from companion.core.values.design_reading import DesignReading, Problem


class Planned(Struct, frozen=True):
    """A design file and its plan; `plan` is None where the file has errors. `problems`: all of the file's findings."""

    plan: Plan | None
    problems: tuple[Problem, ...]
    reading: DesignReading


class Teaching(Struct, frozen=True):
    """What a piece would teach its cord card. `card`: its name; `lines`: what it says now and would say then, in words;
    `why_not`: where there is no lesson."""

    card: str
    lessons: tuple[Lesson, ...] = ()
    lines: tuple[str, ...] = ()
    why_not: str = ""


class DatedReading(Struct, frozen=True):
    """A reading of a piece, and when it was taken."""

    at: datetime
    listed: ListedReading
