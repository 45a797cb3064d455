"""Ends without a finding: the sliding knot, the endless piece, plain tails. Lengths in mm."""

from __future__ import annotations

from math import pi, sqrt

from companion.core.closures.closure import Closure, ClosureEnd, fixed, lines
from companion.core.closures.joint import EndFigures, EndStep, Joint
from companion.core.values.design import Material
from companion.core.values.measures.show_lengths import show, show_up
from companion.core.values.text import count_word

# Slippery cord lets a plain reef knot go: endless strands of it want a surgeon's knot, and ends run back through beads
# with a knot and glue between. Source: Dava Bead, "Endless Strand" tip.
SLIPPERY: frozenset[Material] = frozenset({"silk", "nylon", "polyester"})
MELTING: frozenset[Material] = frozenset({"nylon", "polyester"})  # only these seal with heat; plant fibre and hide char

WRAPS = 5  # round both tails; three to six are usual (common practice, no source)
WRAP_ENDS_MM = 100.0  # of the separate cord, at each end of the wraps
TAIL_KNOT_MM = 25.0  # of each tail, behind the knot that keeps it from slipping out


# -- sliding knot -----------------------------------------------------------------------------------------------------
# Glue on the outside only, and about 2.5 ft of 1–2 mm leather for a bracelet with the tails tying it: beadworld.com,
# "How to tie a slide knot". 4 in a knot: R. Klingenberg, "Adjustable Sliding Knot Necklace".


def separate_cord_mm(joint: Joint) -> float:
    """The cord of the wraps: so many turns round the two tails and itself, and both its ends."""
    across_mm = 2 * joint.cord.diameter_mm * sqrt(joint.layers)
    return WRAPS * pi * (across_mm + joint.cord.diameter_mm) + 2 * WRAP_ENDS_MM


def opens_mm(joint: Joint) -> float:
    """How much longer the piece is when it is opened wide: both tails, less what their end knots hold."""
    return 2 * _slides_mm(joint)


def _slides_mm(joint: Joint) -> float:
    """How far each tail slides, from the wrap to the knot in it."""
    return max(0.0, joint.tail_mm - TAIL_KNOT_MM)


def _hold(joint: Joint) -> tuple[EndStep, ...]:
    return lines(f"Put a clip on {joint.cords}, {joint.tail} from the end: that tail is for the closing.")


def _slide_steps(joint: Joint) -> tuple[EndStep, ...]:
    wide = f"to about {show(joint.closed_mm + opens_mm(joint), joint.unit)}" if joint.closed_mm else "wide"
    return (
        *lines(
            "Take off the clip at the start, lay the two tails side by side, pointing opposite ways, and hold them "
            "with it.",
            f"Wrap the separate cord {count_word(WRAPS)} times round both tails, its own start and a straw (or a thick "
            "needle). Pass its end back along the straw, and draw the straw out.",
            "Pull both ends of the wrap until the tails still slide, but not by themselves.",
            f"Open the piece {wide} and try it on: it has to pass. Then close it again.",
            f"Tie a single knot in each tail, {show(_slides_mm(joint), joint.unit)} from the wrap.",
            "Put a drop of glue on the outside of the wrap's ends only: none inside, or it will not slide. Let it dry.",
            closes=5,
        ),
        EndStep("Trim the ends of the wrap, and the tails beyond their knots.", trims=True),
    )


SLIDING = Closure(
    "sliding knot",
    ClosureEnd(fixed(0, 0, 120), _hold),
    ClosureEnd(fixed(0, 0, 120), _slide_steps),
    both_ends=True,
    cord_apart_mm=separate_cord_mm,
    opens_mm=opens_mm,
    tools=("clip", "straw or thick needle", "snips", "glue"),
    cautions=("noose", "glue", "snips"),
)


# -- endless ----------------------------------------------------------------------------------------------------------


def _endless_end(joint: Joint) -> EndFigures:
    return EndFigures(0, max(20.0, joint.in_knot_mm("double")), 90)


def _endless_steps(joint: Joint) -> tuple[EndStep, ...]:
    if joint.cord.material in SLIPPERY:
        return (
            *lines(
                "Take off the clip at the start, hold the two ends together and try the piece on: it has to pass.",
                "Tie them together, close between the first bead and the last, in a surgeon's knot.",
                "Run each tail back through the two beads beside it, with a single knot round the strand between them.",
                "Put a drop of glue on all three knots, and leave it to dry overnight.",
                closes=3,
            ),
            EndStep("Trim the tails where they come out of a bead.", trims=True),
        )
    return (
        *lines(
            "Take off the clip at the start, hold the two ends together and try the piece on: it has to pass.",
            "Tie them together, close between the first bead and the last, in a reef knot.",
            "Run each tail back through the two beads beside it.",
            closes=3,
        ),
        EndStep("Tug at the knot, and trim the tails where they come out of a bead.", trims=True),
    )


ENDLESS = Closure(
    "endless",
    ClosureEnd(fixed(0, 0, 90), _hold, passes=1, end_beads=2),
    ClosureEnd(_endless_end, _endless_steps, passes=1, end_beads=2),
    both_ends=True,
    threading="both ends",
    tools=("clip", "snips"),
    finishes_with=lambda material: "glue" if material in SLIPPERY else "",
    cautions=("noose", "glue", "snips"),
)


# -- plain tail -------------------------------------------------------------------------------------------------------


def raw_end(material: Material) -> str:
    """What keeps the raw end of this material from fraying. Heat only if the fibre melts."""
    if material in MELTING:
        return "Seal the cut ends: with glue, or over a flame for a moment."
    if material in ("leather", "suede"):
        return "Cut the ends at a slant."
    if material == "silk":
        return "Put a little glue on the cut ends."
    return "Rub wax into the cut ends."


def _raw_end_needs(material: Material) -> str:
    """What `raw_end` asks for; for what melts it is glue or a flame."""
    if material in ("leather", "suede"):
        return ""
    return "glue" if material in SLIPPERY else "wax"


def _plain_steps(joint: Joint) -> tuple[EndStep, ...]:
    return (
        EndStep(f"Leave a tail of {joint.tail} at each end, and trim the rest.", trims=True, closes=True),
        *lines(raw_end(joint.cord.material)),
    )


PLAIN = Closure(
    "plain tail",
    ClosureEnd(fixed(0, 0, 80), lambda joint: lines(f"Leave a tail of {joint.tail} before the first knot or bead.")),
    ClosureEnd(fixed(0, 0, 80), _plain_steps),
    first_side=lambda joint: lines(f"Leave a tail of {joint.tail}."),
    finishes_with=_raw_end_needs,
)


def separate_cord_words(joint: Joint) -> str:
    """How long to cut the separate cord."""
    return show_up(separate_cord_mm(joint), joint.unit)
