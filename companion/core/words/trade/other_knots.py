"""Knots that tie a cord to a ring, or two ends together, in our own words. All of it common practice, no source."""

from __future__ import annotations

from msgspec import Struct


class OtherKnot(Struct, frozen=True):
    """One of them: what it is for, its steps, and what goes wrong with it."""

    name: str
    used_for: str
    steps: tuple[str, ...]
    mistakes: tuple[str, ...]


_HITCHES = OtherKnot(
    "half hitches",
    "Two of them tie a cord to the ring of a clasp.",
    (
        "Pass the end through the ring from the front, and bring it back below the cord that it came on.",
        "Take the end up over that cord, down behind it on the ring's side, and out over itself: a half hitch.",
        "Slide it up to the ring and draw it close.",
        "Make a second one the same way beside it, on the side away from the ring.",
        "Draw both tight.",
    ),
    ("The second was turned the other way: it holds less well. Open it and wrap it just as the first.",),
)
_SURGEONS = OtherKnot(
    "surgeon's knot",
    "Joins two ends. Its first half, passed twice, stays put while you tie the second.",
    (
        "Cross the two ends, pass one round the other, and round it once more.",
        "Pull both ends evenly until the wraps lie close.",
        "Cross the ends again, the other way round than before, and pass one round the other once.",
        "Pull all four cords evenly, and press the knot flat.",
    ),
    (
        "The ends stand out to the sides: both halves were crossed the same way, and that slips. Each end should lie "
        "along its own cord. Open the second half and cross it the other way.",
    ),
)
_LARKS_HEAD = OtherKnot(
    "lark's head",
    "Hangs a folded cord on a ring, and comes off again once it is loosened.",
    (
        "Fold the cord in the middle.",
        "Lay the fold over the ring from the front, and bring it down behind.",
        "Bring the fold to the front below the ring, and pass both ends down through it.",
        "Pull both ends evenly until the fold lies close under the ring.",
    ),
    ("It slides along the ring, or loosens when only one end is pulled. Both ends have to carry the weight.",),
)
OTHER_KNOTS: dict[str, OtherKnot] = {knot.name: knot for knot in (_HITCHES, _SURGEONS, _LARKS_HEAD)}
