"""The ordered steps of one entry: its start, its beads and knots, its end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from typing import NamedTuple

from msgspec import Struct

from companion.core.closures.joint import EndStep
from companion.core.cord.cord import Cord
from companion.core.plan.plan import Step, element_mm
from companion.core.values.design import Bead, BeadKind, Element, Knot, KnotKind
from companion.core.values.element_words import WHERE_IT_BEGINS, string_step_text
from companion.core.values.text import capitalised, count_word, plural

MOST_BEADS_A_STEP = 10


class Ends(Struct, frozen=True):
    """What an entry's ends come to, mm per layer, and their steps in words.

    `already_on`: how many of the first beads the start's own steps have strung, with a knot beside each still to come
    or `knotted_before`; `knotted_later`: beside how many of the last beads the knot is tied with the closure.
    `strung_first`: all beads are strung before the first knot. `told_as`: how the steps are told, as the plan has it.
    """

    start_tail_mm: float
    start_closure_cord_mm: float
    end_closure_cord_mm: float
    end_tail_mm: float
    start_steps: tuple[EndStep, ...]
    end_steps: tuple[EndStep, ...]
    already_on: int = 0
    knotted_later: int = 0
    strung_first: bool = False
    knotted_before: bool = False
    told_as: int = 1


def cut_into_steps(elements: Sequence[Element]) -> list[int]:
    """Where each string step ends, as the number of elements then made.

    A step is the beads up to and including the next knot; a run of more than ten beads is cut into tens, the last
    part taking the knot; bare cord belongs to the step that follows; what comes after the last knot makes the last.
    """
    stops: list[int] = []
    beads = 0
    full_at: int | None = None  # where a run of ten beads ends, should another bead follow
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


def steps_of(
    elements: Sequence[Element], ends: Ends, cut_a_layer_mm: float, beads: dict[str, BeadKind], cord: Cord, unit: str
) -> tuple[Step, ...]:
    """All steps of one entry, with the figures after each: lengths in mm, cord for each layer."""
    used_mm = ends.start_tail_mm + ends.start_closure_cord_mm
    steps = [
        Step(number, "start", step.text, (), None, 0.0, used_mm, cut_a_layer_mm - used_mm, 0)
        for number, step in enumerate(ends.start_steps, start=1)
    ]
    strand_mm, strung = 0.0, 0
    all_beads = sum(isinstance(element, Bead) for element in elements)
    known: dict[tuple[Element, ...], _StringStep] = {}
    for begin, stop in pairwise([0, *cut_into_steps(elements)]):
        part = tuple(elements[begin:stop])
        found = known.get(part)
        if found is None:
            found = known[part] = _string_step(part, beads, cord, unit)
        text, keys, knot, length_mm, take_up_mm = found
        if not begin and _begins_with_a_knot(ends, part):
            text += f", {WHERE_IT_BEGINS}"
        if ends.already_on or ends.knotted_later:
            text = closing_text(text, part, strung, all_beads, ends, beads)
        strung += len(keys)
        strand_mm += length_mm
        used_mm += length_mm + take_up_mm
        steps.append(
            Step(len(steps) + 1, "string", text, keys, knot, strand_mm, used_mm, cut_a_layer_mm - used_mm, stop)
        )
    last = (len(steps), strand_mm, used_mm, len(elements))
    return (*steps, *_end_steps(ends, cut_a_layer_mm, *last))


def _begins_with_a_knot(ends: Ends, part: tuple[Element, ...]) -> bool:
    """Whether the first of the entry is a knot, with something of its start behind it."""
    behind_mm = ends.start_tail_mm + ends.start_closure_cord_mm
    return bool(behind_mm) and all(isinstance(element, Knot) for element in part)


def _end_steps(
    ends: Ends, cut_a_layer_mm: float, made: int, strand_mm: float, used_mm: float, elements: int
) -> Iterator[Step]:
    """The closing, after `made` steps: its last step takes the closure's cord. Cord for each layer, mm."""
    last = len(ends.end_steps)
    for number, step in enumerate(ends.end_steps, start=1):
        used_mm += ends.end_closure_cord_mm if number == last else 0.0
        free_mm, marks = cut_a_layer_mm - used_mm, (step.trims, step.closes)
        yield Step(made + number, "end", step.text, (), None, strand_mm, used_mm, free_mm, elements, *marks)


def closing_text(
    text: str, part: Sequence[Element], strung: int, all_beads: int, ends: Ends, beads: dict[str, BeadKind]
) -> str:
    """A string step's words where a closure has to do with its beads: the first ones that are on already, with a knot
    beside each; the last ones whose knots come with the clasp. `strung`: how many of `all_beads` come before this step.
    """
    keys = [element.key for element in part if isinstance(element, Bead)]
    knotted = isinstance(part[-1], Knot)
    last = strung + len(keys)
    on = max(0, min(len(keys), ends.already_on - strung))
    if ends.knotted_before and on:
        return _on_and_knotted(keys, on, knotted, beads)
    if ends.already_on and keys and strung <= ends.already_on:
        short_end = f"{_already_on(keys[:on], last >= ends.already_on, beads)}. " if on else ""
        if on == len(keys):
            return short_end.removesuffix(". ")
        new = text if not on else _new_ones(keys[on:], knotted, beads)
        if ends.knotted_before:
            return text
        return f"{short_end}{new}" if ends.strung_first else f"{short_end}Needle on the long end: {new}"
    if ends.told_as > 1:
        loose = last > all_beads - ends.knotted_later and knotted == (last < all_beads)
        return _left_loose(keys, beads) if keys and loose else text
    if keys and knotted and all_beads - ends.knotted_later < last < all_beads:
        return f"{_run_words(keys, beads)}, without a knot: it comes with the clasp"
    return text


def _left_loose(keys: Sequence[str], beads: dict[str, BeadKind]) -> str:
    """The last beads of a strand whose closure ties the knots beside them."""
    knots = "its knot comes" if len(keys) == 1 else "their knots come"
    return f"{_run_words(keys, beads)}, left a little loose: {knots} with the clasp"


def _on_and_knotted(keys: Sequence[str], on: int, knotted: bool, beads: dict[str, BeadKind]) -> str:
    """A step whose first beads the start has strung and knotted already."""
    if on == len(keys):
        return f"{_run_words(keys, beads)}, on and knotted already"
    number = "one is" if on == 1 else f"{count_word(on)} are"
    return f"{_new_ones(keys[on:], knotted, beads)}; the first {number} on already"


def _already_on(keys: Sequence[str], last: bool, beads: dict[str, BeadKind]) -> str:
    """Beads that the closure has strung already; `last`: no other such bead comes after them."""
    if len(keys) > 1:
        tie = "tie a single knot beside each, then through the next bead"
    else:
        tie = "tie a single knot" if last else "tie a single knot, and go on through the next bead"
    return f"{_run_words(keys, beads)}, already on: with the short end {tie}"


def _new_ones(keys: Sequence[str], knotted: bool, beads: dict[str, BeadKind]) -> str:
    return f"{_run_words(keys, beads)}{', then a single knot' if knotted else ''}"


def _run_words(keys: Sequence[str], beads: dict[str, BeadKind]) -> str:
    runs = [(beads[key].name, len(list(group))) for key, group in groupby(keys)]
    return capitalised(", ".join(name if count == 1 else f"{count} {plural(name, count)}" for name, count in runs))


class _StringStep(NamedTuple):
    """What a string step of certain elements is, wherever in the strand it stands; lengths mm, take-up per layer."""

    text: str
    beads: tuple[str, ...]
    knot: KnotKind | None
    length_mm: float
    take_up_mm: float


def _string_step(part: tuple[Element, ...], beads: dict[str, BeadKind], cord: Cord, unit: str) -> _StringStep:
    keys = tuple(element.key for element in part if isinstance(element, Bead))
    knots = [element.kind for element in part if isinstance(element, Knot)]
    text = string_step_text(part, {key: beads[key].name for key in keys}, unit)
    length_mm = sum(element_mm(element, beads, cord) for element in part)
    take_up_mm = sum(cord.knot(kind).take_up_mm for kind in knots)
    return _StringStep(text, keys, knots[-1] if knots else None, length_mm, take_up_mm)
