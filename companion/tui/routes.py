"""Where a page can lead: what the app is asked for. Pages do not know one another; the app knows them all."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from companion.core.words.notices import Notice
from companion.workshop import OpenPiece


@dataclass(frozen=True, slots=True)
class ToBench:
    """The bench, with a sentence. The piece that was open is open no more."""

    said: Notice | None = None


@dataclass(frozen=True, slots=True)
class ToDesign:
    """A design: begin a piece of it, or go on with the one under way. `new`: begin another in any case."""

    path: Path
    new: bool = False


@dataclass(frozen=True, slots=True)
class ToPiece:
    """The piece of that name: its recap where steps are made, its steps, or its result; with a sentence there."""

    name: str
    said: Notice | None = None


@dataclass(frozen=True, slots=True)
class ToSteps:
    """The steps of a piece, one by one."""

    opened: OpenPiece


@dataclass(frozen=True, slots=True)
class ToPlan:
    """The plan at hand of a piece."""

    opened: OpenPiece


@dataclass(frozen=True, slots=True)
class ToDraft:
    """The design page: with a copy of that design, or with the one that was left half-made, or an empty one."""

    copy_of: Path | None = None


@dataclass(frozen=True, slots=True)
class ToCords:
    """All cord cards. `new`: make another one there."""

    new: bool = False


@dataclass(frozen=True, slots=True)
class ToKnots:
    """How every knot and closure is worked."""


@dataclass(frozen=True, slots=True)
class ToSettings:
    """All that can be set."""


@dataclass(frozen=True, slots=True)
class ToCard:
    """The cord card of that name."""

    name: str


Route = ToBench | ToDesign | ToPiece | ToSteps | ToPlan | ToDraft | ToCords | ToCard | ToKnots | ToSettings
