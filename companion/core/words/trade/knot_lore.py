"""How each knot is tied and brought tight against its bead, in our own words."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.picture.colours import Colour
from companion.core.picture.knot_drawings import CROSSINGS, knot_drawing
from companion.core.picture.marks import BeadMark, marks_of
from companion.core.plan.plan import Plan, Step
from companion.core.tying.shown import A_BEAD, BeadLook, KnotShown
from companion.core.values.design import Bead, BeadKind, KnotKind, Tool
from companion.core.values.text import capitalised, count_word


class Lore(Struct, frozen=True):
    """One knot explained. `drawing`: at most 7 lines of 30 columns; `shown`: the same drawn in pixels; `mistakes`: what
    goes wrong most, how that shows, and what puts it right."""

    title: str
    steps: tuple[str, ...]
    drawing: tuple[str, ...]
    mistakes: tuple[str, ...]
    shown: KnotShown


class Beside(Struct, frozen=True):
    """What lies beside a knot when it is tied. `strung`: the beads still to come are on the cord already; `first`: no
    bead is before it; `letter`: the mark of the bead that it is drawn up to; `bead`: how that bead is drawn, `colour`
    its own colour."""

    strung: bool = False
    first: bool = False
    letter: str = A_BEAD.letter
    bead: BeadLook = A_BEAD
    colour: Colour | None = None


_TIMES: dict[KnotKind, str] = {
    "single": "once",
    "double": "twice before anything is tightened",
    "triple": "three times before anything is tightened",
}
# With the beads strung before the first knot the end that hangs free is the finished one: common practice, no source.
_PASSED = "Lay a loop {where} and pass the end through it {times}."
_DROPPED = "Lay a loop round two fingers, {where}, and drop the finished end through it {times}."
_AT_THE_BEAD, _AT_THE_START = "close to the bead", "close to the start"
_BEADS_UP = "Push the beads up close and pinch the cord just past the last one."
_BEADS_AWAY = "Draw the next bead up close, slide the others well away, and pinch the cord just past that one."
_NO_BEAD = "Pinch the cord where the strand begins."
_NO_BEAD_STRUNG = "Slide all the beads well away, and pinch the cord where the strand begins."
_THROUGH: dict[Tool, str] = {
    "awl": "Put the awl through the loop, and lay its point {point}.",
    "needle": "Put a blunt needle through the loop, and lay its point {point}.",
    "tweezers": "Reach through the loop with the tweezers, and grip the cord {grip}.",
    "knotting tool": "Hook the loop over the tool's fork, and lay its point {point}.",
}
_TO_THE_BEAD = {"point": "against the bead, at the hole", "grip": "close to the bead, at the hole"}
_TO_THE_PLACE = {"point": "where the knot is to sit", "grip": "where the knot is to sit"}
_CALLED: dict[Tool, str] = {"knotting tool": "tool"}  # in the sentences that follow
_DRAWN_UP = "Draw the cord slowly: the loop closes round the {tool} and slides along it to the point."
_DRAWN_UP_WRAPS = (
    "Draw the cord in small pulls: the wraps close round the {tool} side by side, like a coil, down to its point."
)
_HOME = "Keep the cord drawn, slip the {tool} out, and push the knot home with a thumbnail at once."
_LAID_BY_SIDE = "Lay the {} cords side by side, without a twist, and tie them as one."
_SEATED = {
    1: "The bead should not move between its knots, and the cord should still bend freely.",
    2: "Part the two cords and pull them gently away from each other: that seats the knot against the bead.",
}
_SEATED_FIRST = "It should hold its place when you pull gently."
_SEATED_MORE = "Pull the cords one after another, so that each lies as tight as the next."

_GAP = "Bare cord by the bead: the loop closed before the {tool} was there. Ease it open with the point and try again."
# Extra passes lengthen a knot and hardly widen it (own minimisation of tight knots), hence no more than "may".
_SINKS = "The knot goes into the hole: too slim for this bead. A double knot may hold; try one on a spare end first."
_PRICKED = "Fluff beside the knot: the awl's point pricked the cord. Lay it beside it. For thin silk take tweezers."
_UNEVEN = "One cord stands out in a small bow: it was slack when the knot closed. Open the knot and draw each cord up."
_ON_TOP = "Two knots tied one on the other are two single knots, not a double: longer, and no thicker."
_RIDING = (
    "A lump to one side: one wrap has ridden over another. Open it before it is tight; later it rarely comes undone."
)
_MISCOUNTED = (
    "Shorter than the others: a pass was missed. Before tightening, count {crossings} crossings under the loop."
)


ANYWHERE = Beside()


def lore(kind: KnotKind, tool: Tool, layers: int, left_handed: bool = False, moment: Beside = ANYWHERE) -> Lore:
    """How this kind of knot is tied in so many layers of cord (1 or more), with that tool, at that moment."""
    bead = None if moment.first else moment.bead
    return Lore(
        f"{capitalised(kind)} knot",
        tuple(_steps(kind, tool, layers, moment)),
        knot_drawing(kind, "" if moment.first else moment.letter, left_handed, moment.strung),
        _mistakes(kind, tool, layers, moment),
        KnotShown(f"{kind} knot", tool, layers, left_handed, bead, moment.strung, moment.colour),
    )


def _steps(kind: KnotKind, tool: Tool, layers: int, moment: Beside) -> Iterator[str]:
    called = _CALLED.get(tool, tool)
    if moment.first:
        yield _NO_BEAD_STRUNG if moment.strung else _NO_BEAD
    else:
        yield _BEADS_AWAY if moment.strung else _BEADS_UP
    if layers > 1:
        yield _LAID_BY_SIDE.format(count_word(layers))
    passed = _DROPPED if moment.strung else _PASSED
    yield passed.format(where=_AT_THE_START if moment.first else _AT_THE_BEAD, times=_TIMES[kind])
    yield _THROUGH[tool].format(**(_TO_THE_PLACE if moment.first else _TO_THE_BEAD))
    yield (_DRAWN_UP if kind == "single" else _DRAWN_UP_WRAPS).format(tool=called)
    yield _HOME.format(tool=called)
    yield _SEATED_FIRST if moment.first and layers == 1 else _SEATED.get(layers, _SEATED_MORE)


def _mistakes(kind: KnotKind, tool: Tool, layers: int, moment: Beside) -> tuple[str, ...]:
    mistakes = [] if moment.first else [_GAP.format(tool=_CALLED.get(tool, tool))]
    if kind == "single":
        mistakes += [_SINKS, _ON_TOP]
    else:
        mistakes += [_RIDING, _MISCOUNTED.format(crossings=count_word(CROSSINGS[kind]))]
    if layers > 1:
        mistakes.append(_UNEVEN)
    if tool == "awl":
        mistakes.append(_PRICKED)
    return tuple(mistakes)


def moment_of(plan: Plan, entry: int, step: Step) -> Beside:
    """What lies beside the knot that a step of an entry (from 0) ties."""
    strand = plan.strands[entry]
    beads = [element.key for element in strand.elements[: step.elements] if isinstance(element, Bead)]
    first = not beads and strand.side != "second"  # the second side begins beside the first one's bead
    if not beads:
        return Beside(strand.strung_all_first, first)
    mark = next(mark for mark in marks_of(plan.beads) if mark.key == beads[-1])
    return Beside(strand.strung_all_first, first, mark.letter, look_of(mark, plan.bead(mark.key)), mark.colour)


def look_of(mark: BeadMark, kind: BeadKind) -> BeadLook:
    """How a bead is drawn beside a knot."""
    return BeadLook(mark.outline.form, kind.length_mm / kind.diameter_mm, mark.letter)


def lore_at(plan: Plan, entry: int, step: Step, left_handed: bool = False) -> Lore:
    """How the knot of a step is tied, in this piece's cord, with its tool, at that moment; the step has a knot."""
    assert step.knot
    moment = moment_of(plan, entry, step)
    return lore(step.knot, plan.cord.tool, plan.cord.layers, left_handed, moment)
