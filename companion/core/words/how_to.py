"""How every knot and every closure is worked, without a piece: for the bench, and for a command of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from companion.core.closures.closure import Closure
from companion.core.closures.joint import Joint
from companion.core.closures.preparing import thread_words
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import cord_of
from companion.core.values.design import KNOT_KINDS, CordDesign, KnotKind, Tool
from companion.core.values.show_lengths import DisplayUnit
from companion.core.values.text import join_words, nearest
from companion.core.words.knot_lore import lore

# What each closure is for, in a line. Common practice, no source.
_USED_FOR = {
    "bead tip and clasp": "The usual end for silk: the knot lies hidden in a small cup.",
    "French wire and clasp": "For pearls on silk: a fine coil guards the cord where the clasp would wear it.",
    "knotted to the clasp": "The plainest clasp: the cord is tied to its ring.",
    "cord end and clasp": "For leather and thick cord: the end sits in a metal cap.",
    "crimp and clasp": "For cord that holds no small knot: a squeezed tube holds the end.",
    "loop and button": "No metal: a loop of the cord passes over a button.",
    "loop and bead": "No metal: a loop of the cord passes over a bead.",
    "sliding knot": "Fits any wrist: the two tails slide in a knot of a separate cord.",
    "endless": "No closure at all: long enough to pass over the head, or wide enough for the hand.",
    "plain tail": "The cord's own ends, to tie on with.",
}
_KNOT_FOR: dict[KnotKind, str] = {
    "single": "The knot between beads, wherever it is wider than the bead's hole.",
    "double": "For a hole that a single knot slips into: longer, and a little thicker.",
    "triple": "For the widest holes, and for show.",
}
MODEL_CORD = CordDesign("cord", 1.0, material="cotton")  # a cord to show the work with, where there is no piece


@dataclass(frozen=True, slots=True)
class HowTo:
    """One knot or closure. `parts`: each a heading ("" for none) and its steps; `drawing`: lines, () for none."""

    name: str
    used_for: str
    parts: tuple[tuple[str, tuple[str, ...]], ...]
    drawing: tuple[str, ...] = ()
    needed: str = ""


def names() -> tuple[str, ...]:
    """Everything there is a how-to of, knots first."""
    return (*(f"{kind} knot" for kind in KNOT_KINDS), *CLOSURES)


def how_to(name: str, unit: DisplayUnit, tool: Tool = "awl", layers: int = 1) -> HowTo | None:
    """How that knot or closure is worked; the nearest where the name is not quite one; None where none is near."""
    found = name if name in names() else nearest(name, names()) or _beginning(name)
    if found is None:
        return None
    kind = next((kind for kind in KNOT_KINDS if found == f"{kind} knot"), None)
    return _knot(kind, tool, layers) if kind else _closure(CLOSURES[found], unit)


def _beginning(name: str) -> str | None:
    """The only one whose name holds these letters."""
    holding = [one for one in names() if name.strip().lower() in one.lower()]
    return holding[0] if name.strip() and len(holding) == 1 else None


def _knot(kind: KnotKind, tool: Tool, layers: int) -> HowTo:
    told = lore(kind, tool, layers)
    parts = (("", told.steps), ("What goes wrong", told.mistakes))
    return HowTo(told.title, _KNOT_FOR[kind], parts, told.drawing)


def _closure(closure: Closure, unit: DisplayUnit) -> HowTo:
    cord = cord_of(MODEL_CORD)
    start, end = (
        Joint(cord, unit, half.figures(Joint(cord, unit)).tail_mm, ("bead", "bead", "bead"), closed_mm=200.0)
        for half in (closure.start, closure.end)
    )
    threaded = (thread_words(start, closure.threading),)
    parts = (
        ("At the start", (*threaded, *(step.text for step in closure.start.steps(start)))),
        ("At the end", tuple(step.text for step in closure.end.steps(end))),
    )
    return HowTo(closure.name, _USED_FOR[closure.name], parts, needed=join_words(list(_needed(closure, start))))


def _needed(closure: Closure, joint: Joint) -> Iterator[str]:
    for finding in closure.findings(joint):
        yield finding.name if finding.count == 1 else f"{finding.count} × {finding.name}"
    yield from closure.tools
