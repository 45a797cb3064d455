"""What would bring a piece back to its length: changes a maker could really make, with what each one gives."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from companion.core.design import Bead, Element, Knot
from companion.core.distributions import within
from companion.core.events import Piece
from companion.core.outlook import Outlook
from companion.core.plan import Plan, PlannedStrand
from companion.core.show_lengths import difference, display_unit, show_plus_minus
from companion.core.steps import element_mm, step_words

MOST_REPEATS = 3
LEAST_AT_CLOSURE_MM = 1.0
LIKELY = 0.5  # a change likelier than not to succeed comes before one that is not


@dataclass(frozen=True, slots=True)
class Remedy:
    """One change: in words, the finished length it gives, mm, the chance of tolerance, cord it costs, mm a layer.

    What choosing it does: after `made` elements of `entry`, `rest` is left, and the closure is `closure_mm` longer.
    """

    text: str
    finished_mm: float
    p_in_tolerance: float
    cord_mm: float
    entry: int
    made: int
    rest: tuple[Element, ...]
    closure_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class _Unit:
    """What repeats in the rest of a strand: its elements, their length and the cord they take, mm a layer."""

    words: str
    length_mm: float
    cord_mm: float
    left: int
    entry: int
    steps: tuple[tuple[Element, ...], ...]  # what is left of that entry, step by step
    unit: tuple[Element, ...]


def remedies(plan: Plan, piece: Piece, outlook: Outlook) -> tuple[Remedy, ...]:
    """Changes that bring the piece nearer its target than leaving it alone: in its repeats first, then at the closure.

    Empty without a target, where nothing is off, where the ruler is to be laid on again first, or where the rest
    leaves nothing to change.
    """
    if plan.target_mm is None or outlook.verdict in ("no target", "on plan", "measure again"):
        return ()
    unit = _repeating_unit(plan, piece)
    found = _by_repeats(plan, piece, outlook, unit) if unit else []
    found += _at_the_closure(plan, piece, outlook)
    return tuple(sorted(found, key=lambda remedy: remedy.p_in_tolerance < LIKELY))


def _by_repeats(plan: Plan, piece: Piece, outlook: Outlook, unit: _Unit) -> list[Remedy]:
    assert plan.target_mm is not None
    off_mm = plan.target_mm - outlook.finished.mean_mm
    times = round(off_mm / unit.length_mm)
    times = max(-min(unit.left - 1, MOST_REPEATS), min(MOST_REPEATS, times))
    if times == 0:
        return []
    finished_mm = outlook.finished.mean_mm + times * unit.length_mm
    p = _chance(plan, finished_mm, outlook.finished.sd_mm)
    count = {1: "One", 2: "Two", 3: "Three"}[abs(times)]
    change = f"{count} more" if times > 0 else f"{count} fewer"
    text = f"{change} of «{unit.words}» in what is left: it would finish at {_shown(plan, outlook, finished_mm)}."
    made = _made(plan, piece, unit.entry)
    return [Remedy(text, finished_mm, p, times * unit.cord_mm, unit.entry, made, _with_repeats(unit, times))]


def _with_repeats(unit: _Unit, times: int) -> tuple[Element, ...]:
    """What is left with so many more of the unit, beside its first, or its last ones left out."""
    steps = list(unit.steps)
    places = [number for number, step in enumerate(steps) if step == unit.unit]
    if times > 0:
        steps[places[0] : places[0]] = [unit.unit] * times
    else:
        for place in places[times:][::-1]:
            del steps[place]
    return tuple(element for step in steps for element in step)


def _made(plan: Plan, piece: Piece, entry: int) -> int:
    """How many elements of an entry are made."""
    number = min(max(piece.done - plan.piece_step(entry, 0), 0), len(plan.strands[entry].steps))
    return plan.strands[entry].steps[number - 1].elements if number else 0


def _at_the_closure(plan: Plan, piece: Piece, outlook: Outlook) -> list[Remedy]:
    """A longer closure, or a shorter one where the planned one has that much to give."""
    assert plan.target_mm is not None
    off_mm = plan.target_mm - outlook.finished.mean_mm
    has_mm = sum(plan.strands[number].closure_length_mm for number in plan.longest)
    if abs(off_mm) < LEAST_AT_CLOSURE_MM or -off_mm > has_mm / 2:
        return []
    p = _chance(plan, plan.target_mm, outlook.finished.sd_mm)
    word = "longer" if off_mm > 0 else "shorter"
    length = difference(abs(off_mm), display_unit(plan.unit))
    finished = _shown(plan, outlook, plan.target_mm)
    text = f"A closure {length} {word}: it would finish at {finished}."
    entry = plan.longest[-1]
    made = _made(plan, piece, entry)
    return [Remedy(text, plan.target_mm, p, 0.0, entry, made, plan.strands[entry].elements[made:], off_mm)]


def _shown(plan: Plan, outlook: Outlook, finished_mm: float) -> str:
    return show_plus_minus(finished_mm, outlook.finished.half95_mm, display_unit(plan.unit))


def _chance(plan: Plan, finished_mm: float, sd_mm: float) -> float:
    assert plan.target_mm is not None
    assert plan.tolerance_mm is not None
    return within(plan.target_mm - plan.tolerance_mm, plan.target_mm + plan.tolerance_mm, finished_mm, sd_mm)


def _repeating_unit(plan: Plan, piece: Piece) -> _Unit | None:
    """The step that comes oftenest in the rest of the strand that makes the finished length, beads in it."""
    left = {entry: tuple(_steps_left(plan, piece, entry)) for entry in plan.longest}
    counts = Counter((entry, step) for entry, steps in left.items() for step in steps if _has_bead(step))
    if not counts:
        return None
    (entry, best), count = counts.most_common(1)[0]
    kinds = {kind.key: kind for kind in plan.beads}
    length_mm = sum(element_mm(element, kinds, plan.cord) for element in best)
    take_up_mm = sum(plan.cord.knot(element.kind).take_up_mm for element in best if isinstance(element, Knot))
    words = step_words(best, {kind.key: kind.name for kind in plan.beads}, plan.unit)
    shown = words[:1].lower() + words[1:]
    return _Unit(shown, length_mm, length_mm + take_up_mm, count, entry, left[entry], best)


def _has_bead(step: tuple[Element, ...]) -> bool:
    return any(isinstance(element, Bead) for element in step)


def _steps_left(plan: Plan, piece: Piece, entry: int) -> list[tuple[Element, ...]]:
    """The elements of each string step of that entry that is not made yet."""
    strand: PlannedStrand = plan.strands[entry]
    before = plan.piece_step(entry, 0)
    made = 0
    left = []
    for step in strand.steps:
        if step.kind == "string" and before + step.number > piece.done:
            left.append(strand.elements[made : step.elements])
        made = step.elements
    return left
