"""How every knot and every closure is worked, without a piece: for the bench, and for a command of its own."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.closure import Closure
from companion.core.closures.joint import Joint
from companion.core.closures.preparing import thread_words
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import cord_of
from companion.core.tying.knot_picture import in_words
from companion.core.tying.shown import KnotShown
from companion.core.values.design import KNOT_KINDS, CordDesign, KnotKind, Material, Tool
from companion.core.values.measures.show_lengths import DisplayUnit
from companion.core.values.text import capitalised, join_words, nearest, uncapitalised
from companion.core.words.plan_words import finding_words
from companion.core.words.trade.knot_lore import ANYWHERE, Beside, lore
from companion.core.words.trade.techniques import KNOTS_BY_HAND, OTHER_NAMES, TECHNIQUES, Technique

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
# The cord that a closure is usual with, where that changes its steps.
_MATERIAL_FOR: dict[str, Material] = {"bead tip and clasp": "silk", "French wire and clasp": "silk", "endless": "nylon"}
MISTAKES = "What goes wrong"
MODEL_CORD = CordDesign("cord", 1.0, material="cotton")  # a cord to show the work with, where there is no piece


class HowTo(Struct, frozen=True):
    """One knot or closure. `parts`: each a heading ("" for none) and its steps; `drawing`: lines, () for none; `shown`:
    its drawing in pixels."""

    name: str
    used_for: str
    parts: tuple[tuple[str, tuple[str, ...]], ...]
    shown: KnotShown
    drawing: tuple[str, ...] = ()
    needed: str = ""


def names() -> tuple[str, ...]:
    """Everything that has a how-to: knots, closures, and the small jobs that these ask for."""
    jobs = (name for name in TECHNIQUES if name not in KNOTS_BY_HAND)
    return (*(f"{kind} knot" for kind in KNOT_KINDS), *KNOTS_BY_HAND, *CLOSURES, *jobs)


def how_to(
    name: str,
    unit: DisplayUnit,
    tool: Tool = "awl",
    layers: int = 1,
    left_handed: bool = False,
    moment: Beside = ANYWHERE,
) -> HowTo | None:
    """How that knot, closure or job is done; the nearest where the name is not quite one; None where none is near.
    `moment`: what lies beside a knot between beads."""
    found = _meant(name)
    if found is None:
        return None
    if found in TECHNIQUES:
        return _technique(TECHNIQUES[found], KnotShown(found, tool, layers, left_handed))
    kind = next((kind for kind in KNOT_KINDS if found == f"{kind} knot"), None)
    if kind:
        return _knot(kind, tool, layers, left_handed, moment)
    return _closure(CLOSURES[found], unit, KnotShown(found, tool, layers, left_handed))


def _goes_on(closure: Closure) -> tuple[str, ...]:
    """What follows a start that is made by the short end."""
    return ("Go on with the needle on the long end.",) if closure.start.own_knots else ()


class PageLine(Struct, frozen=True):
    """One line of a page before it is wrapped. `hang`: how far its later lines are set in; `strong`: a heading."""

    text: str
    hang: int = 0
    strong: bool = False


def how_to_list(for_the_ear: bool = False) -> Iterator[PageLine]:
    """Everything that has a how-to, each with what it is for, in two columns; `for_the_ear`: as a sentence."""
    if for_the_ear:
        yield from (PageLine(f"{capitalised(name)}: {uncapitalised(used_for(name))}") for name in names())
        return
    width = max(map(len, names()))
    for name in names():
        yield PageLine(f"{name:<{width}}  {used_for(name)}", width + 2)


def used_for(name: str) -> str:
    """What a knot or closure is for, in a line. Raises KeyError."""
    kind = next((kind for kind in KNOT_KINDS if name == f"{kind} knot"), None)
    if kind:
        return _KNOT_FOR[kind]
    return TECHNIQUES[name].used_for if name in TECHNIQUES else _USED_FOR[name]


def how_to_page(told: HowTo, for_the_ear: bool = False) -> Iterator[PageLine]:
    """The whole how-to, line by line. `for_the_ear`: what its drawing shows is said."""
    yield from how_to_top(told)
    if told.drawing and not for_the_ear:
        yield PageLine("")
        yield from map(PageLine, told.drawing)
    elif seen := in_words(told.shown):
        yield PageLine("")
        yield PageLine(seen)
    yield from how_to_steps(told)


def how_to_top(told: HowTo) -> Iterator[PageLine]:
    """What stands above the drawing."""
    yield PageLine(told.used_for)
    if told.needed:
        yield PageLine(f"You will need: {told.needed}.", 2)


def how_to_steps(told: HowTo) -> Iterator[PageLine]:
    """What stands below it."""
    for heading, steps in told.parts:
        yield PageLine("")
        if heading:
            yield PageLine(heading, strong=True)
        for number, step in enumerate(steps, start=1):
            yield PageLine(f"{number}  {step}" if heading != MISTAKES else f"·  {step}", 3)


def _meant(name: str) -> str | None:
    """The name that is meant: as written, by another name of it, by a slip of the fingers, by some of its letters."""
    wanted = name.strip().lower()
    for one in names():
        if wanted == one.lower():
            return one
    if wanted in OTHER_NAMES:
        return OTHER_NAMES[wanted]
    near = nearest(name, (*names(), *OTHER_NAMES))
    return OTHER_NAMES.get(near, near) if near else _beginning(name)


def _beginning(name: str) -> str | None:
    """The only one whose name holds these letters."""
    holding = [one for one in names() if name.strip().lower() in one.lower()]
    return holding[0] if name.strip() and len(holding) == 1 else None


def _technique(one: Technique, shown: KnotShown) -> HowTo:
    return HowTo(one.name, one.used_for, (("", one.steps), (MISTAKES, one.mistakes)), shown, needed=one.needed)


def _knot(kind: KnotKind, tool: Tool, layers: int, left_handed: bool, moment: Beside) -> HowTo:
    told = lore(kind, tool, layers, left_handed, moment)
    parts = (("", told.steps), (MISTAKES, told.mistakes))
    return HowTo(told.title, _KNOT_FOR[kind], parts, told.shown, told.drawing)


def _closure(closure: Closure, unit: DisplayUnit, shown: KnotShown) -> HowTo:
    cord = cord_of(replace(MODEL_CORD, material=_MATERIAL_FOR.get(closure.name, MODEL_CORD.material)))
    start, end = (
        Joint(cord, unit, half.figures(Joint(cord, unit)).tail_mm, ("bead", "bead", "bead"))
        for half in (closure.start, closure.end)
    )
    threaded = (thread_words(start, closure.threading),)
    parts = (
        ("At the start", (*threaded, *(step.text for step in closure.start.steps(start)), *_goes_on(closure))),
        ("At the end", tuple(step.text for step in closure.end.steps(end))),
    )
    found = (replace(one, hole_mm=None) for one in closure.findings(start))  # a hole goes with the cord of a piece
    needed = [*(finding_words(one, unit) for one in found), *closure.tools, closure.finishes_with(cord.material)]
    return HowTo(closure.name, _USED_FOR[closure.name], parts, shown, needed=join_words([one for one in needed if one]))
