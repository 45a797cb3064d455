"""Closures with a clasp: bead tips, French wire, knotted, cord ends, crimps. Lengths in mm.

Figures are common practice (no source) unless one is named beside them.
"""

from __future__ import annotations

from collections.abc import Callable

from companion.core.closures.closure import CLASP_GIVES, HUNG_GIVES, Closure, ClosureEnd, fixed, lines
from companion.core.closures.fitting import NEXT_KNOT, tried_on
from companion.core.closures.joint import EndFigures, EndStep, Finding, Joint
from companion.core.closures.preparing import needle_on_fold
from companion.core.closures.toggle import bar_room_mm, bar_tried, clasp, first_part, is_toggle, last_part
from companion.core.values.measures.show_lengths import show
from companion.core.values.text import count_word, join_words, plural, sentences

CLASP_CAUTIONS = ("findings", "snips")
GLUE_CAUTIONS = ("glue", "findings", "snips")
THIN_MM = 0.5  # cords together thinner than this may pull a double knot through a bead tip's hole
# 3/8 in at each end: Stuller bench article, "Use of French Wire When Stringing on Silk"; S. Lupo, "Adding French Wire
# and Clasp to Silk Thread".
COIL_MM = 9.5
IN_CAP_MM = 8.0  # of the cord, inside a cord end
FRENCH_WIRE_BEADS = 3  # how many beads the short end runs back through, with a knot beside each


# -- bead tips --------------------------------------------------------------------------------------------------------
# Flexible glue, and that instant glue cracks: PDX Knitterati, "Knit? Knot!". The rest: common practice, no source.


def _bead_tip_figures(tail_mm: float) -> Callable[[Joint], EndFigures]:
    return lambda joint: EndFigures(12, max(15.0, joint.in_knot_mm("double")), tail_mm)


def _bead_tip_start(joint: Joint) -> tuple[EndStep, ...]:
    over = " over a seed bead" if _thin(joint) else ""
    return lines(
        f"Tie a double knot{over} in {joint.cords}, {joint.tail} from the start. Thread on a bead tip: its open cup "
        "takes the knot, its hook points to the tail."
    )


def _thin(joint: Joint) -> bool:
    """Whether a double knot by itself would pull through the hole of the cup."""
    return joint.cord.diameter_mm * joint.layers < THIN_MM


def _free_the_needle(joint: Joint) -> str:
    """The needle hangs in the fold of a strand that is done: the next strand wants it."""
    free = not joint.last_strand and needle_on_fold(joint.cord, "start to end")
    return " Cut the fold to free the needle for the next strand." if free else ""


def _bead_tip_end(joint: Joint) -> tuple[EndStep, ...]:
    first = (
        sentences("Thread on a bead tip, its hook and its open cup away from the beads.", tried_on(joint, NEXT_KNOT)),
        f"Tie a double knot{' over a seed bead' if _thin(joint) else ''} in {joint.cords}. Before it closes, bring it "
        f"down into the cup with the {joint.tool}, and tighten it there.{_free_the_needle(joint)}",
    )
    if not joint.last_strand:
        return lines(*first, closes=2)
    cups = "both cups" if joint.strands == 1 else f"all {count_word(2 * joint.strands)} cups"
    hang = (
        f"Hang the {clasp(joint)} on the two hooks and close them with the pliers. Tug gently: both should hold."
        if joint.strands == 1
        else f"Hang each strand on its own ring of the {clasp(joint)}, in the same order at both ends, and close the "
        "hooks with the pliers. Tug gently: they should hold."
    )
    chain = "If the bar does not go through the ring, hang it on two or three links of chain."
    return (
        *lines(*first, closes=2),
        *lines(
            f"Put a drop of glue that stays flexible on the knots in {cups}, and let it dry. Instant glue can crack."
        ),
        EndStep(f"Trim the tails close to the knots and close {cups} with the pliers.", trims=True),
        *lines(sentences(hang, chain if is_toggle(joint.finding) else "")),
    )


def _bead_tip_findings(joint: Joint) -> tuple[Finding, ...]:
    seed = (Finding("seed bead", 2 * joint.strands),) if _thin(joint) else ()
    return (Finding("bead tip", 2 * joint.strands), *seed, *_clasp_findings(joint))


def _clasp_findings(joint: Joint) -> tuple[Finding, ...]:
    rings = f" with {count_word(joint.strands)} rings each side" if joint.strands > 1 else ""
    return (Finding(f"{clasp(joint)}{rings}", 1, joint.size_mm),)


BEAD_TIP = Closure(
    "bead tip and clasp",
    ClosureEnd(_bead_tip_figures(50), _bead_tip_start),
    ClosureEnd(_bead_tip_figures(80), _bead_tip_end),
    first_side=lambda joint: _bead_tip_end(joint)[:2],
    findings=_bead_tip_findings,
    gives=HUNG_GIVES,
    tools=("flat pliers", "snips", "glue"),
    cautions=GLUE_CAUTIONS,
)


# -- French wire ------------------------------------------------------------------------------------------------------
# Order of work: Stuller and Lupo as above (after the last two or three beads; glue on these knots only).


def _french_wire_figures(tail_mm: float) -> Callable[[Joint], EndFigures]:
    def figures(joint: Joint) -> EndFigures:
        own = FRENCH_WIRE_BEADS - joint.knots_there
        return EndFigures(COIL_MM + own * joint.knot_mm("single"), 25 + own * joint.in_knot_mm("single"), tail_mm)

    return figures


def _named(beads: tuple[str, ...]) -> str:
    """Beads as they are threaded: "three Grey pearls", or one by one where they differ."""
    if len(set(beads)) == 1:
        return f"{count_word(len(beads))} {plural(beads[0], len(beads))}"
    return join_words(beads)


def _french_wire_start(joint: Joint) -> tuple[EndStep, ...]:
    beads = _named(tuple(reversed(joint.beads[:3])))
    last = " (the piece's first bead comes last)" if len(set(joint.beads[:3])) > 1 else ""
    knots = () if joint.knots_there else _BACK_AND_KNOT  # else they are those of the beads' own steps
    return lines(
        f"On the short end thread {beads}{last}, a coil of French wire and {first_part(joint)}.",
        f"Take its needle back through the bead next to the coil, leave {joint.tail} of tail, and draw the coil into a "
        "small loop.",
        *knots,
    )


_BACK_AND_KNOT = (
    "Tie a single knot round the strand, tight against that bead.",
    "Take the needle through the next bead, and tie a single knot tight against it.",
    "Take the needle through the third bead, and tie a single knot tight against it.",
)


def _french_wire_end(joint: Joint) -> tuple[EndStep, ...]:
    tried = bar_tried(joint, "draw back and string a few tiny beads before the coil")
    coil = "Take the needle back through the last bead, and draw the coil into a small loop."
    return (
        *lines(
            f"Thread on {'a' if joint.first_side else 'the second'} coil of French wire and {last_part(joint)}.",
            sentences(coil, tried_on(joint, NEXT_KNOT)),
        ),
        *tried,
        *lines(
            *_BACK_AND_KNOT,
            "Put a drop of glue on the three knots at each end, and let it dry.",
            closes=len(_BACK_AND_KNOT),
        ),
        EndStep("Tug gently at both ends, then trim both tails flush with the knots.", trims=True),
    )


FRENCH_WIRE = Closure(
    "French wire and clasp",
    ClosureEnd(_french_wire_figures(150), _french_wire_start, passes=1, end_beads=3, own_knots=3),
    ClosureEnd(_french_wire_figures(120), _french_wire_end, passes=1, end_beads=3, own_knots=3),
    first_side=lambda joint: _french_wire_end(joint)[:-2],
    findings=lambda joint: (Finding("coil of French wire", 2, COIL_MM), *_clasp_findings(joint)),
    gives=CLASP_GIVES,
    tools=("2 fine needles", "snips", "glue"),
    cautions=GLUE_CAUTIONS,
    threading="short end first",
)


# -- knotted to the clasp ---------------------------------------------------------------------------------------------


def _knotted_start(joint: Joint) -> tuple[EndStep, ...]:
    ring = first_part(joint) if is_toggle(joint.finding) else f"the ring of {first_part(joint)}"
    return lines(
        f"Tie {joint.cords} to {ring} with two half hitches. Leave {joint.tail} of tail: it goes through the first "
        "bead too."
    )


def _knotted_figures(joint: Joint) -> EndFigures:
    """Of the end that is made last: a toggle's bar hangs on bare cord, there and back."""
    room_mm = bar_room_mm(joint.size_mm) if is_toggle(joint.finding) else 8.0
    return EndFigures(room_mm, 30 + 2 * (room_mm - 8), 100)


def _knotted_tie(joint: Joint) -> tuple[EndStep, ...]:
    openable = tried_on(joint, "the hitches can still be opened now, but not once they are glued")
    if not is_toggle(joint.finding) or joint.first_side:
        ring = last_part(joint) if is_toggle(joint.finding) else f"the ring of {last_part(joint)}"
        return lines(sentences(f"Pass {joint.cords} through {ring}, draw up, and tie two half hitches.", openable))
    room = show(bar_room_mm(joint.size_mm), joint.unit)
    return (
        *lines(
            f"Pass {joint.cords} through the eye of the toggle's bar, draw up to {room} from the last bead, and tie "
            "two half hitches. The bar needs that room to tip."
        ),
        *bar_tried(joint, "open the hitches and leave it more bare cord"),
        *lines(openable),
    )


def _knotted_end(joint: Joint) -> tuple[EndStep, ...]:
    return (
        *_knotted_tie(joint),
        *lines("Run the tail back through the last bead.", closes=1),
        *lines("Put a drop of glue on the hitches at both ends, and let it dry."),
        EndStep("Tug gently at both ends, then trim the tails close.", trims=True),
    )


KNOTTED = Closure(
    "knotted to the clasp",
    ClosureEnd(fixed(8, 30, 100), _knotted_start, passes=1, end_beads=1),
    ClosureEnd(_knotted_figures, _knotted_end, passes=1, end_beads=1),
    first_side=lambda joint: _knotted_end(joint)[:-2],
    findings=_clasp_findings,
    gives=CLASP_GIVES,
    tools=("snips", "glue"),
    cautions=GLUE_CAUTIONS,
)


# -- cord ends --------------------------------------------------------------------------------------------------------


def _cap_words(joint: Joint, which: str) -> str:
    """How a cord end is put on, whose bore is sold in millimetres everywhere."""
    bore = f" (bore {joint.size_mm:.4g} mm)" if joint.size_mm else ""
    cords = "it" if joint.layers == 1 else "them"
    if "crimp" in joint.finding.lower():
        return f"Push {cords} into {which}{bore} to the bottom, and press it shut with the pliers."
    return f"Put glue into {which}{bore}, push {cords} in to the bottom, and let it set."


def _cord_end_start(joint: Joint) -> tuple[EndStep, ...]:
    which = "the start of the cord" if joint.layers == 1 else f"the start of {joint.cords}"
    return lines(f"Cut {which} square. {_cap_words(joint, 'a cord end')}")


def _cord_end_words(joint: Joint, which: str) -> str:
    inside = show(IN_CAP_MM, joint.unit)
    return f"Cut {joint.cords} square, {inside} beyond the strand: that much goes in. {_cap_words(joint, which)}"


def _cord_end_finish(joint: Joint) -> tuple[EndStep, ...]:
    return (
        *lines(tried_on(joint, "after the next cut it can't be made longer")),
        EndStep(_cord_end_words(joint, "the second cord end"), trims=True, closes=True),
        *lines(
            "Tug at both ends: nothing should give. Hang one part of the clasp on each with a jump ring, and close the "
            "rings with the pliers."
        ),
    )


CORD_END = Closure(
    "cord end and clasp",
    ClosureEnd(fixed(12, IN_CAP_MM, 20), _cord_end_start),
    ClosureEnd(fixed(12, IN_CAP_MM, 20), _cord_end_finish),
    first_side=lambda joint: lines(_cord_end_words(joint, "a cord end")),
    findings=lambda joint: (
        Finding(joint.finding or "cord end", 2, joint.size_mm, None if joint.size_mm else joint.hole_mm(1)),
        Finding("clasp", 1),
        Finding("jump ring", 2),
    ),
    gives=HUNG_GIVES,
    tools=("flat pliers", "snips", "glue"),
    cautions=GLUE_CAUTIONS,
)


# -- crimps -----------------------------------------------------------------------------------------------------------


def _crimp_start(joint: Joint) -> tuple[EndStep, ...]:
    return lines(
        f"Thread on a crimp and {first_part(joint)}, go back through the crimp, leave {joint.tail} of "
        "tail, and squeeze it. The tail goes through the first two beads too."
    )


def _crimp_end(joint: Joint) -> tuple[EndStep, ...]:
    return (
        *lines(
            f"Thread on a crimp and {last_part(joint)}. Take {joint.cords} back through the crimp and the last two "
            "beads."
        ),
        *bar_tried(joint, "draw back and string a few tiny beads before the crimp"),
        *lines(
            sentences(
                "Draw up until no bare cord shows and the beads still move a little.",
                tried_on(joint, "a crimp can't be opened"),
                "Squeeze the crimp.",
            ),
            closes=1,
        ),
        EndStep("Tug at both crimps, and trim the tails where they come out of a bead.", trims=True),
    )


CRIMP = Closure(
    "crimp and clasp",
    ClosureEnd(fixed(10, 14, 50), _crimp_start, passes=1, end_beads=2),
    ClosureEnd(fixed(10, 14, 80), _crimp_end, passes=1, end_beads=2),
    first_side=lambda joint: _crimp_end(joint)[:-1],
    findings=lambda joint: (Finding("crimp", 2 * joint.strands, hole_mm=joint.hole_mm()), *_clasp_findings(joint)),
    gives=CLASP_GIVES,
    tools=("crimping pliers", "snips"),
    cautions=CLASP_CAUTIONS,
)
