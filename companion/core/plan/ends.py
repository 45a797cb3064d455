"""The ends of one entry: which closures meet it, their figures, and their steps in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from companion.core.closures.closure import Closure, ClosureEnd
from companion.core.closures.joint import EndFigures, EndStep, Joint
from companion.core.closures.preparing import cut_words, string_all_words, thread_words
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import Cord
from companion.core.values.design import Bead, BeadKind, Element, Knot, Strand
from companion.core.values.show_lengths import DisplayUnit, show, show_up

NO_END = EndFigures(0.0, 0.0, 0.0)  # the middle of a strand, where a side begins
LOOK_AT = 3  # beads at an end that any closure has to do with
MOST_LOOKED_AT = 2000  # elements, in search of them: no strand that is beaded has so many without a bead


@dataclass(frozen=True, slots=True)
class Outermost:
    """What lies at one end of a strand: the keys of its last beads, the outermost first, and of which of them a knot
    lies on the inner side; `knot_outside`: whether a knot comes before the outermost bead."""

    keys: tuple[str, ...]
    knotted: tuple[bool, ...]
    knot_outside: bool


def outermost(elements: Iterable[Element]) -> Outermost:
    """The same from the elements as they come from that end inward."""
    keys: list[str] = []
    knotted: list[bool] = []
    outside = False
    for element in elements:
        if isinstance(element, Bead):
            if len(keys) == LOOK_AT:
                break
            keys.append(element.key)
            knotted.append(False)
        elif isinstance(element, Knot):
            if not keys:
                outside = True
            else:
                knotted[-1] = True
                if len(keys) == LOOK_AT:
                    break
    return Outermost(tuple(keys), tuple(knotted), outside)


def knots_there(closure_end: ClosureEnd, lies: Outermost, made_first: bool) -> int:
    """How many of the places where the closure ties knots of its own have one of the layout's already.

    Made before the beads it ties one beyond each of the outermost; made after them, the innermost of its knots comes
    beside the one that was tied before the last beads were strung, and is one more.
    """
    places = closure_end.own_knots if made_first else closure_end.own_knots - 1
    return sum(lies.knotted[: max(0, places)])


@dataclass(frozen=True, slots=True)
class StrandEnd:
    """One end of a strand as the design has it: its closure, its figures, and what its sentences depend on."""

    closure: Closure
    half: ClosureEnd
    figures: EndFigures
    joint: Joint
    lies: Outermost


def strand_end(
    strand: Strand,
    at_start: bool,
    elements: Iterable[Element],
    beads: Mapping[str, BeadKind],
    cord: Cord,
    unit: DisplayUnit,
) -> StrandEnd:
    """One end of a strand; `elements`: the whole strand's, from that end inward."""
    end = strand.start if at_start else strand.end
    closure = CLOSURES[end.closure]
    half = closure.start if at_start else closure.end
    lies = outermost(islice(elements, MOST_LOOKED_AT))
    names = tuple(beads[key].name for key in lies.keys if key in beads)
    there = knots_there(half, lies, made_first=at_start and strand.work == "along")
    joint = Joint(cord, unit, 0.0, names, there, end.finding, end.size_mm)
    usual = half.figures(joint)
    figures = EndFigures(
        usual.length_mm if end.length_mm is None else end.length_mm,
        usual.cord_mm if end.cord_mm is None else end.cord_mm,
        usual.tail_mm if end.tail_mm is None else end.tail_mm,
    )
    return StrandEnd(closure, half, figures, replace(joint, tail_mm=figures.tail_mm), lies)


def start_steps(
    start: StrandEnd, cut_mm: float, strand: str, apart_mm: float, all_first: bool, beads: int
) -> tuple[EndStep, ...]:
    """The steps before the first bead: the cord prepared, cut, folded and threaded, then the closure's own."""
    joint = start.joint
    apart = show_up(apart_mm, joint.unit) if apart_mm else ""
    loop_first = start.closure.name.startswith("loop")
    return (
        EndStep(cut_words(joint, show_up(cut_mm, joint.unit), strand, apart)),
        EndStep(thread_words(joint, loop_first)),
        *((EndStep(string_all_words(beads)),) if all_first else ()),
        *start.half.steps(joint),
    )


def side_start_steps(side: str, joint: Joint, cut_mm: float, strand: str, from_end_mm: float) -> tuple[EndStep, ...]:
    """The steps before the first bead of a side of a strand that is worked from the middle."""
    if side == "second":
        return (EndStep("Turn the piece round: the second side begins at the mark, with the rest of the cord."),)
    mark = f"Mark the cord {show(from_end_mm, joint.unit)} from one end: the first side is worked from there."
    return (
        EndStep(cut_words(joint, show_up(cut_mm, joint.unit), strand, "")),
        EndStep(thread_words(joint, loop_first=False, from_middle=True)),
        EndStep(mark),
    )


def end_steps(end: StrandEnd, side: str | None, joint: Joint) -> tuple[EndStep, ...]:
    """The steps after the last bead. `joint`: the end's, with what only the whole plan knows."""
    if side == "first":
        return (end.closure.first_side or end.closure.start.steps)(joint)
    if side == "second":
        return (end.closure.second_side or end.closure.end.steps)(joint)
    return end.half.steps(joint)


def strung_all_first(strand: Strand, cord: Cord) -> bool:
    """Whether all beads are strung before the first knot: as the design says; else with silk, which is knotted with
    the beads on it, unless French wire begins it with three beads of its own. Common practice, no source."""
    if strand.stringing is not None:
        return strand.stringing == "all first"
    return cord.material == "silk" and strand.start.closure != "French wire and clasp"


def stringing_order(elements: Sequence[Element], beads: dict[str, BeadKind]) -> tuple[tuple[str, int], ...]:
    """The beads in the order in which they are strung, equal neighbours together: (name, how many)."""
    runs: list[tuple[str, int]] = []
    for element in elements:
        if isinstance(element, Bead):
            name = beads[element.key].name
            if runs and runs[-1][0] == name:
                runs[-1] = (name, runs[-1][1] + 1)
            else:
                runs.append((name, 1))
    return tuple(runs)


def own_beads(closure: str, at_start: bool) -> int:
    """How many beads a closure ties knots of its own beside; "" for no closure."""
    if not closure:
        return 0
    half = CLOSURES[closure].start if at_start else CLOSURES[closure].end
    return half.end_beads if half.own_knots else 0
