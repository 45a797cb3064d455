"""Which small jobs and knots a step asks for that is no knot between beads: its how-to belongs beside it."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.preparing import stiffened_with
from companion.core.closures.table import CLOSURES
from companion.core.closures.tied import SLIPPERY
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.plan.tray import threading_of
from companion.core.tying.knot_picture import in_words
from companion.core.tying.shown import KnotShown
from companion.core.values.design import Bead
from companion.core.values.measures.show_lengths import display_unit
from companion.core.words.trade.how_to import HowTo, how_to
from companion.core.words.trade.knot_lore import Beside, look_of

_TIED_AT_THE_END = ("sliding knot", "endless")  # there is nothing of them to see at the start
CUTS, THREADS = 1, 2  # the numbers of the steps that come before the closure's own
_WIRE = ("coil of French wire", "knot round the strand")
# What the steps of each end ask for, in the order of the work: of the start, of the end.
_ASKED: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "bead tip and clasp": (("double knot",), ("double knot",)),
    "French wire and clasp": (_WIRE, _WIRE),
    "knotted to the clasp": (("half hitch",), ("half hitch", "running a tail back")),
    "cord end and clasp": (("glue-in cord end",), ("glue-in cord end", "jump ring")),
    "crimp and clasp": (("crimp",), ("crimp",)),
    "loop and button": (("button loop",), ("threading a button", "knot round the strand")),
    "loop and bead": (("button loop",), ("stop bead", "knot round the strand")),
    "sliding knot": ((), ()),
    "endless": ((), ("reef knot", "running a tail back", "knot round the strand")),
    "plain tail": ((), ()),
}


# The words by which a step names a job, where that is not the job's own name.
_BY: dict[str, tuple[str, ...]] = {
    "coil of French wire": ("coil",),
    "running a tail back": ("back through the last bead", "back through the two beads"),
    "knot round the strand": ("single knot", "double knot"),
    "button loop": ("loop",),
    "threading a button": ("thread on",),
    "toggle": ("the toggle's bar", "the bar"),
    "glue-in cord end": ("cord end",),
    "fold-over crimp end": ("cord end",),
    "stretching silk": ("stretch",),
    "stiffening an end": ("stiffen",),
}


def asked_for(plan: Plan, entry: int, step: Step, left_handed: bool = False) -> Iterator[HowTo]:
    """How to do what a step at an end of an entry (from 0) asks for; nothing for a step of beads and knots."""
    cord, unit = plan.cord, display_unit(plan.unit)
    moment = Beside(first=step.kind == "start")
    for name in names_asked_for(plan, entry, step):
        told = how_to(name, unit, cord.tool, cord.layers, left_handed, moment)
        if told is not None:
            yield told


def names_asked_for(plan: Plan, entry: int, step: Step) -> tuple[str, ...]:
    """The same by their names: of all that is asked for at that end, what this step speaks of."""
    said = step.text.lower()
    return tuple(name for name in _of_step(plan, entry, step) if any(word in said for word in _BY.get(name, (name,))))


def _of_step(plan: Plan, entry: int, step: Step) -> tuple[str, ...]:
    strand = plan.strands[entry]
    if step.kind == "string":
        return ()
    if step.kind == "end":
        return _of_end(strand, plan)
    if step.number == CUTS:
        return ("stretching silk",) if plan.cord.material == "silk" else ()
    if step.number == THREADS:
        return ("stiffening an end",) if stiffened_with(plan.cord, threading_of(strand)) else ()
    if strand.strung_all_first and strand.steps[step.number].kind == "string":
        return ()  # the last one strings the beads
    return _ASKED[strand.start_closure][0] if strand.start_closure in CLOSURES else ()


def _of_end(strand: PlannedStrand, plan: Plan) -> tuple[str, ...]:
    at_start, asked = _ASKED[strand.end_closure]
    if strand.side == "second" and "button loop" in at_start:  # the button or bead was knotted on at the first side
        return at_start
    if strand.end_closure == "endless" and plan.cord.material in SLIPPERY:
        return ("surgeon's knot", *asked[1:])
    if strand.end_closure == "cord end and clasp" and "crimp" in strand.finding.lower():
        return ("fold-over crimp end", *asked[1:])
    return (*asked[:1], "toggle", *asked[1:]) if "toggle" in strand.finding.lower() else asked


def closure_shown(plan: Plan, entry: int, step: Step, left_handed: bool = False) -> KnotShown | None:
    """The drawing of the closure that a step at an end works on; None for other steps, and where nothing is drawn."""
    strand = plan.strands[entry]
    beads = [element.key for element in strand.elements if isinstance(element, Bead)]
    name = _drawn_at(strand, plan, step)
    if not name or not beads:
        return None
    mark = next(mark for mark in marks_of(plan.beads) if mark.key == beads[0 if step.kind == "start" else -1])
    look, cord = look_of(mark, plan.bead(mark.key)), plan.cord
    shown = KnotShown(name, cord.tool, cord.layers, left_handed, look, colour=mark.colour)
    return shown if in_words(shown) else None


def _drawn_at(strand: PlannedStrand, plan: Plan, step: Step) -> str:
    """The name of what is drawn beside a step, "" for nothing."""
    if step.kind == "string" or (step.kind == "start" and step.number <= THREADS):
        return ""
    closure = strand.start_closure if step.kind == "start" else strand.end_closure
    if step.kind == "start" and closure in _TIED_AT_THE_END:
        return ""
    if closure == "endless":
        return "surgeon's knot" if plan.cord.material in SLIPPERY else "reef knot"
    if closure == "cord end and clasp" and "crimp" in strand.finding.lower():
        return ""  # a channel that is folded over, which the drawing does not show
    return closure
