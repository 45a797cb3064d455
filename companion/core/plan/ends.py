"""The ends of one entry: which closures meet it, their figures, and their steps in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby, islice

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.closure import Closure, ClosureEnd
from companion.core.closures.joint import EndFigures, EndStep, Joint
from companion.core.closures.preparing import cut_words, string_all_words, thread_words
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import Cord
from companion.core.values.design import Bead, BeadKind, Element, Knot, Strand
from companion.core.values.measures.show_lengths import DisplayUnit, show, show_up
from companion.core.values.text import sentences

NO_END = EndFigures(0.0, 0.0, 0.0)  # the middle of a strand, where a side begins
LOOK_AT = 3  # beads at an end that any closure has to do with
MOST_LOOKED_AT = 2000  # elements, in search of them: no strand that is beaded has so many without a bead


class Outermost(Struct, frozen=True):
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


class StrandEnd(Struct, frozen=True):
    """One end of a strand as the design has it: its closure, its figures, and what its sentences depend on."""

    closure: Closure
    half: ClosureEnd
    figures: EndFigures
    joint: Joint
    lies: Outermost

    @property
    def own_beads(self) -> int:
        """How many beads it strings itself, to tie knots of its own beside them."""
        return self.half.end_beads if self.half.own_knots else 0


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
    other = strand.end if at_start else strand.start
    size_mm = other.size_mm if end.size_mm is None else end.size_mm
    middle = strand.work == "from the middle"
    joint = Joint(cord, unit, 0.0, names, there, end.finding or other.finding, size_mm, from_middle=middle)
    usual = half.figures(joint)
    figures = EndFigures(
        usual.length_mm if end.length_mm is None else end.length_mm,
        usual.cord_mm if end.cord_mm is None else end.cord_mm,
        usual.tail_mm if end.tail_mm is None else end.tail_mm,
    )
    return StrandEnd(closure, half, figures, replace(joint, tail_mm=figures.tail_mm), lies)


_BEHIND_THEM = "Take off the clip behind the last bead."
Runs = tuple[tuple[str, int], ...]  # beads in the order of stringing: (name, how many) for equal neighbours


def start_steps(
    start: StrandEnd, cut_mm: float, strand: str, apart_mm: float, strung: Runs, later: bool = False
) -> tuple[EndStep, ...]:
    """The steps before the first bead: the cord prepared, cut, folded and threaded, then the closure's own, and after
    that what lies against it: the beads `strung` before the first knot, () for none. `later`: another strand was cut
    before."""
    joint = start.joint
    apart = show_up(apart_mm, joint.unit) if apart_mm else ""
    return (
        EndStep(cut_words(joint.cord.material, show_up(cut_mm, joint.unit), strand, apart, later)),
        EndStep(thread_words(joint, start.closure.threading)),
        *start.half.steps(joint),
        *((EndStep(string_all_words(strung, on_already=start.own_beads)),) if strung else ()),
    )


def side_start_steps(
    side: str, joint: Joint, cut_mm: float, strand: str, from_end_mm: float, strung: Runs
) -> tuple[EndStep, ...]:
    """The steps before the first bead of a side of a strand that is worked from the middle."""
    string_all = (EndStep(string_all_words(strung, of_side=True)),) if strung else ()
    if side == "second":
        needle = ", and thread the needle on the other end" if joint.cord.tool == "needle" else ""
        turn = f"Take off the clip and turn the piece round{needle}: the second side begins beside the first bead."
        return (EndStep(turn), *string_all)
    return (
        EndStep(cut_words(joint.cord.material, show_up(cut_mm, joint.unit), strand, "")),
        EndStep(thread_words(joint, "both ends")),
        EndStep(side_clip_words(joint, from_end_mm)),
        *string_all,
    )


def side_clip_words(joint: Joint, from_end_mm: float) -> str:
    """The step that says where on the cord the middle of the strand lies. `from_end_mm`: what the first side has."""
    return (
        f"Put a clip on the cord {show(from_end_mm, joint.unit)} from one end, to hold the first bead. The first side "
        "is worked from there to that end."
    )


def end_steps(end: StrandEnd, side: str | None, joint: Joint, strung_first: bool = False) -> tuple[EndStep, ...]:
    """The steps after the last bead. `joint`: the end's, with what only the whole plan knows; `strung_first`: a clip
    holds the beads, which were strung before the first knot."""
    if side == "first":
        steps = (end.closure.first_side or end.closure.start.steps)(replace(joint, first_side=True))
    elif side == "second":
        steps = (end.closure.second_side or end.closure.end.steps)(joint)
    else:
        steps = end.half.steps(joint)
    if not strung_first:
        return steps
    first = steps[0]
    return (replace(first, text=sentences(_BEHIND_THEM, first.text)), *steps[1:])


def strung_all_first(strand: Strand, cord: Cord) -> bool:
    """Whether all beads are strung before the first knot: as the design says; else with silk, which is knotted with
    the beads on it. Common practice, no source."""
    if strand.stringing is not None:
        return strand.stringing == "all first"
    return cord.material == "silk"


def stringing_order(elements: Iterable[Element], beads: Mapping[str, BeadKind], on_already: int = 0) -> Runs:
    """The beads in the order in which they are strung, but for the first ones that are on already."""
    names = (beads[element.key].name for element in elements if isinstance(element, Bead))
    return tuple((name, len(list(group))) for name, group in groupby(islice(names, on_already, None)))


def own_beads(closure: str, at_start: bool) -> int:
    """How many beads a closure ties knots of its own beside; "" for no closure."""
    if not closure:
        return 0
    half = CLOSURES[closure].start if at_start else CLOSURES[closure].end
    return half.end_beads if half.own_knots else 0
