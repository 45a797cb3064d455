"""How each knot is tied and brought tight against its bead, in our own words."""

from __future__ import annotations

from msgspec import Struct

from companion.core.picture.knot_drawings import CROSSINGS, KNOT_DRAWINGS, for_the_left_hand
from companion.core.values.design import KnotKind, Tool
from companion.core.values.text import capitalised, count_word


class Lore(Struct, frozen=True):
    """One knot explained. `drawing`: at most 7 lines of 30 columns; `mistakes`: what goes wrong most, how that shows,
    and what puts it right."""

    title: str
    steps: tuple[str, ...]
    drawing: tuple[str, ...]
    mistakes: tuple[str, ...]


_PASSES: dict[KnotKind, str] = {
    "single": "Lay a loop close to the bead and pass the end through it once.",
    "double": "Lay a loop close to the bead and pass the end through it twice before anything is tightened.",
    "triple": "Lay a loop close to the bead and pass the end through it three times before anything is tightened.",
}
_TO_THE_BEAD: dict[Tool, str] = {
    "awl": "Put the awl through the loop, and lay its point against the bead, at the hole.",
    "needle": "Put a blunt needle through the loop, and lay its point against the bead, at the hole.",
    "tweezers": "Reach through the loop with the tweezers, and grip the cord close to the bead, at the hole.",
    "knotting tool": "Hook the loop over the tool's fork, and lay its point against the bead, at the hole.",
}
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
_SEATED_MORE = "Pull the cords one after another, so that each lies as tight as the next."

_GAP = (
    "Bare cord by the bead: the loop closed before the {tool} was there. Ease the knot open with the point, and again."
)
# Extra passes lengthen a knot and hardly widen it (own minimisation of tight knots), hence no more than "may".
_SINKS = "The knot goes into the hole: too slim for this bead. A double knot may hold; try one on a spare end first."
_UNEVEN = "One cord stands out in a small bow: it was slack when the knot closed. Open the knot and draw each cord up."
_ON_TOP = "Two knots tied one on the other are two single knots, not a double: longer, and no thicker."
_RIDING = (
    "A lump to one side: one wrap has ridden over another. Open it before it is tight; later it seldom comes undone."
)
_MISCOUNTED = (
    "Shorter than the others: a pass was missed. Before tightening, count {crossings} crossings under the loop."
)


def lore(kind: KnotKind, tool: Tool, layers: int, left_handed: bool = False) -> Lore:
    """How this kind of knot is tied in so many layers of cord (1 or more), with that tool."""
    drawing = KNOT_DRAWINGS[kind]
    steps = ["Push the beads up close and pinch the cord just past the last one."]
    if layers > 1:
        steps.append(_LAID_BY_SIDE.format(count_word(layers)))
    steps.append(_PASSES[kind])
    steps.append(_TO_THE_BEAD[tool])
    steps.append((_DRAWN_UP if kind == "single" else _DRAWN_UP_WRAPS).format(tool=tool))
    steps.append(_HOME.format(tool=tool))
    steps.append(_SEATED.get(layers, _SEATED_MORE))
    return Lore(
        f"{capitalised(kind)} knot",
        tuple(steps),
        for_the_left_hand(drawing) if left_handed else drawing,
        _mistakes(kind, tool, layers),
    )


def _mistakes(kind: KnotKind, tool: Tool, layers: int) -> tuple[str, ...]:
    mistakes = [_GAP.format(tool=tool)]
    if kind == "single":
        mistakes += [_SINKS, _ON_TOP]
    else:
        mistakes += [_RIDING, _MISCOUNTED.format(crossings=count_word(CROSSINGS[kind]))]
    if layers > 1:
        mistakes.append(_UNEVEN)
    return tuple(mistakes)
