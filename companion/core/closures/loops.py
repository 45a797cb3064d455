"""A loop at the start and a button or a bead at the end. The loop is sized by what passes through it. Lengths in mm.

Common practice, no source; lengths follow from the cord's own knots and from the size of the button or bead.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi
from typing import Literal

from companion.core.closures.closure import Closure, ClosureEnd, Give, lines
from companion.core.closures.fitting import tried_on
from companion.core.closures.joint import EndFigures, EndStep, Finding, Joint
from companion.core.values.measures.show_lengths import show
from companion.core.values.text import sentences

Fob = Literal["button", "bead"]

USUAL_MM: dict[Fob, float] = {"button": 12.0, "bead": 10.0}  # across, where the design gives no size
THICKNESS = 0.25  # of a button, as a share of its width
SHANK_MM = 8.0  # cord between the last knot and the button, so that the loop lies under it
ROOM = 1.05  # what the loop has over the bare fit, so that it can be passed over without force


def fob_mm(fob: Fob, joint: Joint) -> float:
    """How wide the button or closing bead is."""
    return USUAL_MM[fob] if joint.size_mm is None else joint.size_mm


def loop_round_mm(fob: Fob, joint: Joint) -> float:
    """How long the loop is, once round. A button passes through it edge on, a bead as it is; the cord's own width is
    added."""
    width_mm = fob_mm(fob, joint)
    bare_mm = 2 * (width_mm + THICKNESS * width_mm) if fob == "button" else pi * width_mm
    return ROOM * bare_mm + 2 * joint.cord.diameter_mm


def _of_the_fold(joint: Joint) -> bool:
    """Whether the loop is the fold of a doubled cord: a strand worked from the middle has none at its ends."""
    return joint.layers == 2 and not joint.from_middle


def _start_figures(fob: Fob) -> Callable[[Joint], EndFigures]:
    def figures(joint: Joint) -> EndFigures:
        round_mm = loop_round_mm(fob, joint)
        length_mm = round_mm / 2 + joint.knot_mm("single")
        if _of_the_fold(joint):  # each cord is half of it, and no tail is left
            return EndFigures(length_mm, round_mm / 2 + joint.in_knot_mm("single"), 0.0)
        return EndFigures(length_mm, round_mm + 2 * joint.in_knot_mm("single"), 60.0)

    return figures


def _end_figures(fob: Fob) -> Callable[[Joint], EndFigures]:
    def figures(joint: Joint) -> EndFigures:
        knot_mm = joint.in_knot_mm("double")
        if fob == "button":
            return EndFigures(SHANK_MM, 2 * SHANK_MM + knot_mm, 80.0)
        width_mm = fob_mm(fob, joint)
        return EndFigures(width_mm / 2 + joint.knot_mm("double"), 2 * width_mm + knot_mm, 80.0)

    return figures


def _loop_steps(fob: Fob) -> Callable[[Joint], tuple[EndStep, ...]]:
    def steps(joint: Joint) -> tuple[EndStep, ...]:
        if _of_the_fold(joint):
            size = _loop_size(fob, joint)
            return lines(f"Tie both cords in a single knot below the fold, so that the loop is {size}.", _passes(fob))
        start = "the start of the cord" if joint.layers == 1 else f"the start of {joint.cords}"
        return lines(_folded_back(fob, joint, start), _passes(fob))

    return steps


def _loop_size(fob: Fob, joint: Joint) -> str:
    return f"about {show(loop_round_mm(fob, joint), joint.unit)} round inside"


def _folded_back(fob: Fob, joint: Joint, end: str) -> str:
    loop = f"a loop {_loop_size(fob, joint)}, and a tail of {joint.tail}"
    return f"Fold {end} back and tie a single knot in the doubled end: {loop}."


def _passes(fob: Fob) -> str:
    name = "button" if fob == "button" else "closing bead"
    return f"Try the loop over the {name}: it should just pass. Then tighten the knot."


def _loop_last(fob: Fob) -> Callable[[Joint], tuple[EndStep, ...]]:
    """The loop that ends the second side of a strand worked from the middle, where the button or bead is on already."""

    def steps(joint: Joint) -> tuple[EndStep, ...]:
        tied = sentences(_folded_back(fob, joint, joint.cords), tried_on(joint, "this knot can still be moved"))
        return (*lines(tied, _passes(fob), closes=2), *_tugged_and_glued(fob))

    return steps


def _tugged_and_glued(fob: Fob) -> tuple[EndStep, ...]:
    return (
        *lines(f"Pass the loop over the {fob} and tug: the loop must not slip off, and the knots must not move."),
        EndStep(f"Put a drop of glue on the loop's knot and the {fob}'s, let it dry, and trim the tails.", trims=True),
    )


def _fob_steps(fob: Fob) -> Callable[[Joint], tuple[EndStep, ...]]:
    def steps(joint: Joint) -> tuple[EndStep, ...]:
        if fob == "button":
            room, where = show(SHANK_MM, joint.unit), "round that cord, close to the strand"
            how = (
                f"Thread on the {joint.finding or 'button'} and bring {joint.cords} back to the strand, with {room} of "
                "cord under the button for the loop to lie in."
            )
        else:
            where = "round the strand, close beneath the bead"
            how = (
                f"Thread on the {joint.finding or 'closing bead'} and a small stop bead, bring {joint.cords} back "
                "through the closing bead only, and draw up."
            )
        still_open = tried_on(joint, f"the {fob} can still be moved")
        tied = lines(how, sentences(still_open, f"Tie {joint.cords} in a double knot {where}."), closes=2)
        return tied if joint.first_side else (*tied, *_tugged_and_glued(fob))

    return steps


def _findings(fob: Fob) -> Callable[[Joint], tuple[Finding, ...]]:
    def findings(joint: Joint) -> tuple[Finding, ...]:
        if fob == "button":
            return (Finding(joint.finding or "button with a shank", 1, joint.size_mm),)
        closing = Finding(joint.finding or "closing bead", 1, joint.size_mm, joint.hole_mm())
        return (closing, Finding("small stop bead", 1))

    return findings


def _loop(fob: Fob) -> Closure:
    return Closure(
        f"loop and {fob}",
        ClosureEnd(_start_figures(fob), _loop_steps(fob)),
        ClosureEnd(_end_figures(fob), _fob_steps(fob)),
        both_ends=True,
        first_side=_fob_steps(fob),
        second_side=_loop_last(fob),
        findings=_findings(fob),
        gives=Give(10, 3, f"a longer shank below the {fob}", f"a shorter shank below the {fob}", 2),
        tools=("snips", "glue"),
        cautions=("glue", "snips"),
        threading="from the fold",
    )


LOOP_AND_BUTTON = _loop("button")
LOOP_AND_BEAD = _loop("bead")
