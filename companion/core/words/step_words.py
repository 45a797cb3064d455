"""Steps in words: how one is named, said aloud, and shown on two lines."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.values.element_words import WHERE_IT_BEGINS, string_step_parts, string_step_text
from companion.core.values.text import capitalised, closed, count_word, sentences


def step_name(plan: Plan, step: int) -> str:
    """How a step is told: its number in the whole piece, the one that the heading has."""
    return str(step)


def entry_step_name(plan: Plan, entry: int, number: int) -> str:
    """The same, for a step of an entry."""
    return step_name(plan, plan.piece_step(entry, number))


def step_code(plan: Plan, step: int) -> str:
    """How a program is told a step: NUMBER, or ENTRY:NUMBER where the design has several entries."""
    entry, number = plan.place(step)
    return f"{plan.strands[entry].label}:{number}" if len(plan.strands) > 1 else str(number)


def step_sentence(step: Step) -> str:
    """What to do in a step, as a sentence: "Silver daisy, then a single knot."."""
    return closed(step.text)


def step_line(plan: Plan, step: int, piece: Piece | None = None) -> str:
    """A step for the ear: "Silver daisy, then a single knot. Step 13 of 26.". `piece`: that one's, with the
    order in which its beads are strung.

    Where there are several entries, also with its own: "Step 40 of 52, lower.".
    """
    entry, number = plan.place(step)
    strand = plan.strands[entry]
    name = f", {strand.title}" if len(plan.strands) > 1 else ""
    told = step_sentence(strand.steps[number - 1])
    order = stringing_words(plan, strand, number) if piece else ""
    return sentences(told, order, f"Step {step} of {plan.total_steps}{name}.")


def stringing_words(plan: Plan, strand: PlannedStrand, number: int) -> str:
    """Of the step that strings all beads: in which order; "" for any other, and for beads that are all of a kind."""
    last_of_start = sum(one.kind == "start" for one in strand.steps)
    if not strand.strung_all_first or number != last_of_start:
        return ""
    from companion.core.words.plan_words import order_of, strung_runs  # once in a strand

    return f"Their order: {order_of(plan, strand)}." if len(strung_runs(plan, strand)) > 1 else ""


def step_in_two(plan: Plan, step: int) -> tuple[str, str]:
    """A step for two lines: ("Silver daisy", "then a single knot, both cords as one"). Without a knot the second is
    empty."""
    entry, number = plan.place(step)
    strand = plan.strands[entry]
    one = strand.steps[number - 1]
    if one.knot is None:
        return one.text, ""
    before = strand.steps[number - 2].elements if number > 1 else 0
    names = {key: plan.bead(key).name for key in set(one.beads)}
    elements = strand.elements[before : one.elements]
    beads, knot = string_step_parts(elements, names, plan.unit)
    together = {1: "", 2: "both cords as one"}.get(strand.layers, f"all {count_word(strand.layers)} cords as one")
    plain = string_step_text(elements, names, plan.unit)
    if one.text == f"{plain}, {WHERE_IT_BEGINS}":
        return plain, f"{WHERE_IT_BEGINS}, {together}" if together else WHERE_IT_BEGINS
    if one.text != plain:  # a closure has to do with these beads
        return one.text, ""
    if not beads:
        return capitalised(knot), together
    return beads, f"then {knot}, {together}" if together else f"then {knot}"


def step_in_short(step: Step, letters: Mapping[str, str]) -> str:
    """A step as a few letters: "G knot", "3×G double knot", "begin", "close". `letters`: of the beads, by key."""
    if step.kind != "string":
        return {"start": "begin", "end": "close"}[step.kind]
    runs = [(letter, len(list(run))) for letter, run in groupby(letters[key] for key in step.beads)]
    parts = [letter if count == 1 else f"{count}×{letter}" for letter, count in runs]
    if step.knot:
        parts.append({"single": "knot", "double": "double knot", "triple": "triple knot"}[step.knot])
    return " ".join(parts) or "bare cord"


def step_marked(plan: Plan, step: int, letters: Mapping[str, str]) -> str:
    """What was marked just now: "Step 18 done: G knot."; of a step at an end its number alone. `letters`: of the beads,
    by key."""
    entry, number = plan.place(step)
    one = plan.strands[entry].steps[number - 1]
    if one.kind != "string":
        return f"Step {step_name(plan, step)} done."
    return f"Step {step_name(plan, step)} done: {step_in_short(one, letters)}."
