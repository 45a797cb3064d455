"""Before the first bead: the cord is prepared by its material, cut, folded or divided, and threaded."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.closures.closure import Threading
from companion.core.closures.joint import Joint
from companion.core.closures.tied import SLIPPERY
from companion.core.cord.cord import HIDES, Cord
from companion.core.values.design import Material
from companion.core.values.text import count_of, count_word

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


def cut_words(material: Material, cut: str, strand: str, apart: str, later: bool = False, entered: bool = False) -> str:
    """The first step: the cord is prepared and cut. `cut`: how long, as a ruler shows it; `strand`: its name, "" for
    the only one; `apart`: the separate cord of a sliding knot, "" for none; `later`: another strand was cut before;
    `entered`: the maker has said herself how long."""
    which = f" for the {strand} strand" if strand else ""
    also = f" Cut {apart} more, for the sliding knot." if apart else ""
    if_not = f"{', as you entered' if entered else ''}, if it is not cut yet."
    if later and material == "silk":  # all of it was stretched for the first strand
        return f"Cut {cut} of the stretched silk{which}{if_not}{also}"
    return f"{_PREPARED[material]} Cut {cut}{which}{if_not}{also}"


def thread_words(joint: Joint, threading: Threading) -> str:
    """The second step: how the cord is folded or divided, and how its ends pass the beads."""
    hide = joint.cord.material in HIDES
    if joint.layers == 1:
        return _ends(joint, threading)
    if joint.layers > 2 or threading == "both ends" or (hide and threading != "from the fold"):
        pieces = count_word(joint.layers)
        return (
            f"Cut it into {pieces} equal lengths and lay them side by side: they are worked as one cord. "
            f"{_ends(joint, threading)}"
        )
    if threading == "from the fold":
        return f"Fold the cord in half. The fold is the start: it will be the loop. {_ends(joint, threading)}"
    if threading == "short end first":
        return (
            "Fold the cord in half. Thread one fine needle on the fold, which is the long end, and one on the two ends "
            "together, which are the short end."
        )
    return "Fold the cord in half, with the needle on the fold. The two ends together are the start."


def needle_on_fold(cord: Cord, threading: Threading) -> bool:
    """Whether a doubled cord is threaded by its fold, which takes a needle whatever the knots are worked with."""
    return cord.layers == 2 and threading == "start to end" and cord.material not in HIDES


# The end that beads go on over hangs free while the knots are tied. Common practice, no source.
_HELD = "Put a clip behind the last, and slide them away from the start."


def string_all_words(runs: Sequence[tuple[str, int]], of_side: bool = False, on_already: int = 0) -> str:
    """The step that strings all beads before the first knot. `runs`: their order, (name, how many) for equal
    neighbours; `of_side`: they are those of one side of a strand; `on_already`: how many the start has strung by its
    short end."""
    count = sum(number for _, number in runs)
    side = " of this side" if of_side else ""
    every, end = ("the other", " on the long end") if on_already else ("all", "")
    if count == 1:
        bead = "other bead on the long end" if on_already else "bead"
        return f"String the {bead}. Put a clip behind it, and slide it away from the start."
    if len({name for name, _ in runs}) == 1:
        return f"String {every} {count_of(count, runs[0][0])}{side}{end}. {_HELD}"
    return f"String {every} {count} beads{side}{end} in their order (the plan lists it), the first one first. {_HELD}"


def stiffener(material: Material) -> str:
    """What stiffens the working end of this material, "" for none: hide needs nothing."""
    if material in HIDES:
        return ""
    return "glue" if material in SLIPPERY else "wax"


def needed_to_prepare(cord: Cord, threading: Threading) -> tuple[str, ...]:
    """What the steps before the first bead ask for besides a needle: wax to draw the cord over, and what stiffens an
    end that no needle draws through the beads."""
    drawn_over = "wax" if "over wax" in _PREPARED[cord.material] else ""
    return tuple(dict.fromkeys(thing for thing in (drawn_over, stiffened_with(cord, threading)) if thing))


def stiffened_with(cord: Cord, threading: Threading) -> str:
    """What stiffens the ends that pass the beads; "" where a needle draws them through, or nothing is needed."""
    by_needle = cord.tool == "needle" or threading == "short end first" or needle_on_fold(cord, threading)
    return "" if by_needle else stiffener(cord.material)


def _ends(joint: Joint, threading: Threading) -> str:
    """How the ends that pass the beads are made fit for it."""
    if threading == "short end first":
        end = "each end" if joint.layers == 1 else "all the ends together, on each side"
        return f"Thread one fine needle on {end}: the short end makes the clasp, the long end goes on."
    if joint.cord.tool == "needle":
        if threading == "from the fold":
            return "Thread the needle with both ends."
        return "Thread the needle." if joint.layers == 1 else "Thread the needle with all of them."
    both = threading == "both ends"
    if joint.layers == 1:
        which, them = ("both ends", "them") if both else ("the working end", "it")
    else:
        which, them = ("all their ends" if both else "the working ends"), "them"
    if joint.cord.material in HIDES:
        passes = "it passes" if them == "it" else "they pass"
        return f"Cut {which} at a slant, so that {passes} the beads."
    stiff = stiffener(joint.cord.material)
    dry = ", let it set" if stiff == "glue" else ""
    return f"Stiffen {which} with a little {stiff}{dry}, and cut {them} at a slant."
