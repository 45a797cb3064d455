"""A clasp with a bar that is passed through a ring: which end has which, and the room that the bar needs. In mm."""

from __future__ import annotations

from companion.core.closures.closure import lines
from companion.core.closures.joint import EndStep, Joint

# The bar goes through its ring lying along the strand: half of it beside the last beads, which go through with it. "Be
# sure that the last few beads near the clasp are fairly small": Artbeads, "Toggle or Toggle Clasp". With beads nearly
# as wide as the ring the bar does not fold down, and wants a short chain: gingerjools, "Toggle Technique 1".
USUAL_BAR_MM = 16.0  # where the design gives no size; common practice, no source
SMALL_SHARE = 1 / 3  # of the bar's length: beads up to so wide go through beside it; our own choice


def is_toggle(finding: str) -> bool:
    """Whether the design's own name of its clasp says so."""
    return "toggle" in finding.lower()


def bar_room_mm(bar_mm: float | None) -> float:
    """How much of the strand lies along the bar while it passes the ring."""
    return (bar_mm or USUAL_BAR_MM) / 2


def clasp(joint: Joint) -> str:
    """What the design calls the clasp."""
    return joint.finding or "clasp"


def first_part(joint: Joint) -> str:
    """What the end that is made first has."""
    return "the toggle's ring" if is_toggle(joint.finding) else f"one part of the {clasp(joint)}"


def last_part(joint: Joint) -> str:
    """What the end at hand has, where it is one of those that are made after the beads: the bar comes last."""
    if joint.first_side:
        return first_part(joint)
    return "the toggle's bar" if is_toggle(joint.finding) else f"the other part of the {clasp(joint)}"


def bar_tried(joint: Joint, otherwise: str) -> tuple[EndStep, ...]:
    """A bar that has no room is found out while it can still be mended: `otherwise` says how."""
    if not is_toggle(joint.finding) or joint.first_side:
        return ()
    return lines(f"Pass the bar through the ring: it should go without force. If not, {otherwise}.")
