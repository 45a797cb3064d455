"""Lessons of finished pieces: what each says of a cord's knots, and the figures of a card that has learnt from them."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from msgspec import Struct
from msgspec.structs import replace

from companion.core.cord.cord import Half, KnotFigures
from companion.core.journal.events import Finished, Taught
from companion.core.values.design import KNOT_KINDS, KnotKind

PIECE_DEGREES = 4.0  # of Student's t, by which an odd piece weighs less; our own choice
MOST_MM = 1e4  # of what a knot may take; more is no knot
TURNS = 200  # of the weighing of odd pieces; a few are usual


class Lesson(Struct, frozen=True):
    """What one piece says of one kind of knot: the mean of all pieces' take-up and length, mm, each with its standard
    deviation; None for what it says nothing of. `piece`: its name; `knots`: how many of the kind it had."""

    piece: str
    kind: KnotKind
    knots: int
    take_up: tuple[float, float] | None
    length: tuple[float, float] | None


def to_events(learnt: Sequence[Lesson]) -> tuple[Taught, ...]:
    """Lessons as a journal keeps them."""
    nothing = (None, None)
    return tuple((one.kind, one.knots, *(one.take_up or nothing), *(one.length or nothing)) for one in learnt)


def of_event(piece: str, finished: Finished) -> tuple[Lesson, ...]:
    """The lessons of a finished piece again. Raises ValueError for what can't be one."""
    found = []
    for kind, knots, *values in finished.lessons:
        if kind not in KNOT_KINDS or knots < 1 or any(not (value is None or 0 < value < MOST_MM) for value in values):
            raise ValueError("a lesson that can't be")
        take_up, take_up_sd, length, length_sd = values
        found.append(
            Lesson(
                piece,
                kind,
                knots,
                None if take_up is None or take_up_sd is None else (take_up, take_up_sd),
                None if length is None or length_sd is None else (length, length_sd),
            )
        )
    return tuple(found)


def taught(figures: KnotFigures, learnt: Sequence[Lesson]) -> KnotFigures:
    """The figures of a kind of knot after these lessons. The order of the lessons does not matter."""
    take_up = joined_lessons(
        (figures.take_up_mm, figures.take_up_sd_mm), [one.take_up for one in learnt if one.take_up]
    )
    length = joined_lessons((figures.length_mm, figures.length_sd_mm), [one.length for one in learnt if one.length])
    if not learnt:
        return figures
    return replace(
        figures,
        take_up_mm=take_up[0],
        take_up_sd_mm=take_up[1],
        length_mm=length[0],
        length_sd_mm=length[1],
        take_up_scatter_mm=figures.take_up_scatter_mm * take_up[0] / figures.take_up_mm,
        length_scatter_mm=figures.length_scatter_mm * length[0] / figures.length_mm,
        degrees=figures.degrees + len(learnt),
        source="card",
        estimated=_still_estimated(figures, learnt),
    )


def _still_estimated(figures: KnotFigures, learnt: Sequence[Lesson]) -> Half:
    """What neither tests nor lessons say anything of."""
    tested = figures.source != "estimate"
    if not (tested and figures.estimated != "take-up") and not any(one.take_up for one in learnt):
        return "take-up"
    if not (tested and figures.estimated != "length") and not any(one.length for one in learnt):
        return "length"
    return ""


def joined_lessons(before: tuple[float, float], seen: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """A mean and its standard deviation, joined with what pieces say of it.

    A piece that lies oddly far off weighs less, the less the further, as if pieces scattered with Student's t of few
    degrees about what is known (weights after Lange, Little and Taylor, "Robust statistical modeling using the t
    distribution", J. Amer. Statist. Assoc. 84 (1989) 881); what is known already keeps its weight.
    """
    if not seen or before[1] <= 0:
        return before
    known = 1 / before[1] ** 2
    mean, weights = before[0], [0.0] * len(seen)
    for _ in range(TURNS):
        weights = [(PIECE_DEGREES + 1) / (PIECE_DEGREES + ((value - mean) / sd) ** 2) / sd**2 for value, sd in seen]
        total = known + sum(weights)
        new = (known * before[0] + sum(w * value for w, (value, _) in zip(weights, seen, strict=True))) / total
        if abs(new - mean) < 1e-12 * abs(mean):
            break
        mean = new
    weights = [min(weight, 1 / sd**2) for weight, (_, sd) in zip(weights, seen, strict=True)]
    return mean, sqrt(1 / (known + sum(weights)))
