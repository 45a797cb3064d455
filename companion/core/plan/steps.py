"""The ordered steps of one entry: its start, its beads and knots, its end."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from companion.core.closures.joint import EndStep
from companion.core.cord.cord import Cord
from companion.core.plan.plan import Step
from companion.core.values.design import Bead, BeadKind, Element, Knot, Space
from companion.core.values.show_lengths import display_unit, show

MOST_BEADS_A_STEP = 10


@dataclass(frozen=True, slots=True)
class Ends:
    """What an entry's ends come to, mm per layer, and their steps in words.

    `already_on`: how many of the first beads the start's own steps have strung, with a knot beside each still to come;
    `knotted_later`: beside how many of the last beads the knot is tied with the closure.
    """

    start_tail_mm: float
    start_closure_cord_mm: float
    end_closure_cord_mm: float
    end_tail_mm: float
    start_steps: tuple[EndStep, ...]
    end_steps: tuple[EndStep, ...]
    already_on: int = 0
    knotted_later: int = 0


def element_mm(element: Element, beads: dict[str, BeadKind], cord: Cord) -> float:
    """The length of one element along the strand, mm."""
    match element:
        case Bead(key=key):
            return beads[key].length_mm
        case Knot(kind=kind):
            return cord.knot(kind).length_mm
        case Space(length_mm=length_mm):
            return length_mm


def cut_into_steps(elements: Sequence[Element]) -> list[int]:
    """Where each string step ends, as the number of elements then made.

    A step is the beads up to and including the next knot; a run of more than ten beads is cut into tens, the last
    part taking the knot; bare cord belongs to the step that follows; what comes after the last knot makes the last.
    """
    stops: list[int] = []
    beads = 0
    full_at: int | None = None  # after the tenth bead of the run, while nobody knows whether another follows
    for made, element in enumerate(elements, start=1):
        if isinstance(element, Bead):
            if full_at is not None:
                stops.append(full_at)
                beads, full_at = 0, None
            beads += 1
            if beads == MOST_BEADS_A_STEP:
                full_at = made
        elif isinstance(element, Knot):
            stops.append(made)
            beads, full_at = 0, None
    if elements and (not stops or stops[-1] < len(elements)):
        stops.append(len(elements))
    return stops


def step_words(elements: Iterable[Element], names: dict[str, str], unit: str) -> str:
    """One string step in words that read well aloud: "Silver daisy, then a single knot"."""
    parts: list[str] = []
    knot = ""
    for element, group in groupby(elements):
        count = len(list(group))
        match element:
            case Bead(key=key):
                parts.append(names[key] if count == 1 else f"{count} {names[key]}")
            case Space(length_mm=length_mm):
                parts.append(f"{show(length_mm * count, display_unit(unit))} of bare cord")
            case Knot(kind=kind):
                knot = f"a {kind} knot"
    if not parts:
        return knot[:1].upper() + knot[1:]
    words = ", ".join(parts)
    words = words[:1].upper() + words[1:]
    return f"{words}, then {knot}" if knot else words


def steps_of(
    elements: Sequence[Element], ends: Ends, cut_a_layer_mm: float, beads: dict[str, BeadKind], cord: Cord, unit: str
) -> tuple[Step, ...]:
    """All steps of one entry, with the running figures after each; lengths mm, cord per layer."""
    before_mm = ends.start_tail_mm + ends.start_closure_cord_mm
    steps = [
        Step(number, "start", step.text, (), None, 0.0, before_mm, cut_a_layer_mm - before_mm, 0)
        for number, step in enumerate(ends.start_steps, start=1)
    ]
    lengths = {element: element_mm(element, beads, cord) for element in set(elements)}
    take_ups = {e: cord.knot(e.kind).take_up_mm if isinstance(e, Knot) else 0.0 for e in lengths}
    names = {kind.key: kind.name for kind in beads.values()}
    words: dict[tuple[Element, ...], str] = {}
    strand_mm = take_up_mm = 0.0
    begin = 0
    for stop in cut_into_steps(elements):
        part = tuple(elements[begin:stop])
        for element in part:
            strand_mm += lengths[element]
            take_up_mm += take_ups[element]
        if part not in words:
            words[part] = step_words(part, names, unit)
        last = part[-1]
        used_mm = before_mm + strand_mm + take_up_mm
        steps.append(
            Step(
                len(steps) + 1,
                "string",
                words[part],
                tuple(element.key for element in part if isinstance(element, Bead)),
                last.kind if isinstance(last, Knot) else None,
                strand_mm,
                used_mm,
                cut_a_layer_mm - used_mm,
                stop,
            )
        )
        begin = stop
    used_mm = before_mm + strand_mm + take_up_mm
    for left, step in zip(range(len(ends.end_steps) - 1, -1, -1), ends.end_steps, strict=True):
        used_after_mm = used_mm if left else used_mm + ends.end_closure_cord_mm
        free_mm = cut_a_layer_mm - used_after_mm
        steps.append(
            Step(
                len(steps) + 1, "end", step.text, (), None, strand_mm, used_after_mm, free_mm, len(elements), step.trims
            )
        )
    return tuple(steps)
