"""Before the first bead: the cord is prepared by its material, cut, folded or divided, and threaded."""

from __future__ import annotations

from companion.core.closures.joint import Joint
from companion.core.closures.tied import SLIPPERY
from companion.core.cord.cord import HIDES
from companion.core.values.design import Material
from companion.core.values.text import count_word

# Silk gives later, and gaps open beside its knots; wax keeps plant fibre from tangling. Common practice, no source.
_PREPARED: dict[Material, str] = {
    "silk": "Stretch the silk first: draw it through your hands in short lengths, or hang it overnight.",
    "nylon": "Pull the kinks out of the cord.",
    "polyester": "Pull the kinks out of the cord.",
    "cotton": "Draw the cord over wax once or twice: it will tangle less.",
    "linen": "Draw the cord over wax once or twice: it will tangle less.",
    "hemp": "Draw the cord over wax once or twice: it will tangle less.",
    "waxed linen": "Pull the kinks out of the cord.",
    "waxed cotton": "Pull the kinks out of the cord.",
    "leather": "Straighten the leather between finger and thumb, and cut away what is thin or cracked.",
    "suede": "Straighten the suede between finger and thumb, and cut away what is thin or cracked.",
    "other": "Pull the kinks out of the cord.",
}


def cut_words(joint: Joint, cut: str, strand: str, apart: str) -> str:
    """The first step: the cord is prepared and cut. `cut`: how long, as a ruler shows it; `strand`: its name, "" for
    the only one; `apart`: the separate cord of a sliding knot, "" for none."""
    which = f" for the {strand} strand" if strand else ""
    also = f" Cut {apart} more, for the sliding knot." if apart else ""
    return f"{_PREPARED[joint.cord.material]} Cut {cut}{which}, if it is not cut yet.{also}"


def thread_words(joint: Joint, loop_first: bool, from_middle: bool = False) -> str:
    """The second step: how the cord is folded or divided, and how its ends pass the beads. `loop_first`: the piece
    begins with a loop, which a doubled cord's fold makes; `from_middle`: it has no start, but two ends."""
    ends = _ends(joint)
    if joint.layers == 1:
        return ends
    if joint.layers > 2 or from_middle:
        pieces = count_word(joint.layers)
        return f"Cut it into {pieces} equal lengths and lay them side by side: they are worked as one cord. {ends}"
    if loop_first:
        return f"Fold the cord in half. The fold is the start: it will be the loop. {ends}"
    return "Fold the cord in half, with the needle on the fold. The two ends together are the start."


def string_all_words(beads: int) -> str:
    """The step that strings all beads before the first knot."""
    if beads == 1:
        return "String the bead, and push it back."
    return f"String all {beads} beads in their order (the plan lists it), the first one first, and push them back."


def stiffener(material: Material) -> str:
    """What stiffens the working end of this material, "" for none: hide needs nothing."""
    if material in HIDES:
        return ""
    return "glue" if material in SLIPPERY else "wax"


def _ends(joint: Joint) -> str:
    """How the working end is brought through the beads."""
    if joint.cord.tool == "needle":
        return "Thread the needle."
    if joint.cord.material in HIDES:
        return "Cut the working end at a slant, so that it passes the beads."
    glue = stiffener(joint.cord.material)
    which = "the working end" if joint.layers == 1 else "the working ends"
    return f"Stiffen {which} with a little {glue} and cut at a slant."
