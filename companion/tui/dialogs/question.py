"""What is asked of the maker in one line to type in, and what each answer would mean."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Generic, Never, TypeVar

from msgspec import Struct

from companion.core.words.notices import Notice

if TYPE_CHECKING:
    from companion.core.chart.gauge import Gauge

T = TypeVar("T", covariant=True)

ONCE_MORE = "Press Enter again to accept it anyway."


class Judged(Struct, Generic[T], frozen=True):
    """What the typed text means. `value`: what it is taken as, None where it can't be taken; `doubt`: asked about once
    before it is; `gauge`: where a length falls, to be drawn beside it."""

    value: T | None
    lines: tuple[Notice, ...] = ()
    doubt: str = ""
    gauge: Gauge | None = None


def not_yet(text: str = "") -> Judged[Never]:
    """What is typed can't be taken as it is: why, or what it should be."""
    return Judged(None, (Notice("quiet", text),) if text else ())


class Question(Struct, Generic[T], frozen=True):
    """What is asked; `judge` reads what is typed so far."""

    prompt: str
    judge: Callable[[str], Judged[T]]
    begin_with: str = ""
    hint: str = ""
