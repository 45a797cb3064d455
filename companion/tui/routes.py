"""Where a page can lead: what the app is asked for. Pages do not know one another; the app knows them all."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from companion.core.words.notices import Notice
from companion.workshop import OpenPiece


class ToBench(Struct, frozen=True):
    """The bench, with a sentence. The piece that was open is open no more. `at`: the way that its cursor begins on;
    None: the one that it was left by."""

    said: Notice | None = None
    at: object = None


class ToDesign(Struct, frozen=True):
    """A design: begin a piece of it, or go on with the one under way. `new`: begin another in any case."""

    path: Path
    new: bool = False


class ToPiece(Struct, frozen=True):
    """The piece of that name: its recap where steps are made, its steps, or its result; with a sentence there."""

    name: str
    said: Notice | None = None


class ToSteps(Struct, frozen=True):
    """The steps of a piece, one by one."""

    opened: OpenPiece


class ToPlan(Struct, frozen=True):
    """The plan at hand of a piece."""

    opened: OpenPiece


class ToDesignPlan(Struct, frozen=True):
    """The plan of a design, without beginning a piece of it."""

    path: Path


class ToDraft(Struct, frozen=True):
    """The design page: with a copy of that design, or with the one that was left half-made, or an empty one."""

    copy_of: Path | None = None


class ToCords(Struct, frozen=True):
    """All cord cards. `new`: make another one there."""

    new: bool = False


class ToKnots(Struct, frozen=True):
    """How every knot and closure is worked."""


class ToTrial(Struct, frozen=True):
    """The sample piece, in a home of its own that is gone when it is over."""


class ToSettings(Struct, frozen=True):
    """All that can be set."""


class ToCard(Struct, frozen=True):
    """The cord card of that name."""

    name: str


Route = (
    ToBench
    | ToDesign
    | ToPiece
    | ToSteps
    | ToPlan
    | ToDesignPlan
    | ToDraft
    | ToCords
    | ToCard
    | ToKnots
    | ToSettings
    | ToTrial
)
