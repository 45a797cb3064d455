"""Trying a piece on, or measuring it, while its length can still be changed. Common practice, no source."""

from __future__ import annotations

from companion.core.closures.joint import Joint

NEXT_KNOT = "after the next knot it is too late"


def tried_on(joint: Joint, because: str) -> str:
    """That the piece is tried on here, and `because` of what not later; "" where another end is still to be made."""
    return "" if joint.first_side else f"Try it on, or measure it: {because}."
