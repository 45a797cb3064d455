"""What a cord makes of a design, in words: the most, the next that it is too short for, and the design itself."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out
from companion.core.values.measures.show_lengths import display_unit, over_or_short, show, show_both
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.text import count_of, join_words, one_in, sentences
from companion.core.variants.reach import Made, Reach
from companion.core.words.compared.compare_words import length_note
from companion.core.words.plan_words import fitted_noun


def reach_lines(reach: Reach) -> Iterator[str]:
    """The answer, sentence by sentence."""
    plan = reach.designed.plan
    unit = display_unit(plan.unit)
    if reach.made is None:
        yield from _nothing(reach)
        return
    made = reach.made
    own, other = show_both(made.plan.finished_length_mm, unit)
    longest = (
        f"The longest it is enough for: {_count(made)}, " if made.count else "It is enough for the piece as it stands: "
    )
    yield f"{longest}{own} ({other}) long."
    yield f"That is {_beads(made.plan)}."
    yield f"It needs {show(made.needs_mm, unit)} of cord{_apart(made.plan)}; {_left(reach.cord_mm, made, plan)}."
    yield f"Cut like that, {one_in(made.plan.risk)} would run out."
    yield from _target(made.plan)
    if reach.beyond is not None:
        yield f"One more ({_one_more(reach.beyond)}) {_short_of(reach.beyond, reach.cord_mm)}."
    elif made.count:
        yield "Nothing longer was planned."
    yield from _designed(reach)


def _nothing(reach: Reach) -> Iterator[str]:
    beyond = reach.beyond or reach.designed
    if beyond.count:
        short = _short_of(beyond, reach.cord_mm)
        yield f"This cord is too short for any of it: even {_count(beyond)} ({_long(beyond)}) {short}."
        yield from _designed(reach)
    else:
        yield f"This cord is too short: the piece {_short_of(beyond, reach.cord_mm)}."


def _count(made: Made) -> str:
    return count_of(made.count, fitted_noun(made.plan, made.count))


def _one_more(made: Made) -> str:
    return f"{_count(made)}, {_long(made)}"


def _long(made: Made) -> str:
    return f"{show(made.plan.finished_length_mm, display_unit(made.plan.unit))} long"


def _short_of(made: Made, cord_mm: float) -> str:
    """What it needs, and how much more that is than there is."""
    unit = display_unit(made.plan.unit)
    return f"needs {show(made.needs_mm, unit)}, {show(made.needs_mm - cord_mm, unit)} more than you have"


def _left(cord_mm: float, made: Made, plan: Plan) -> str:
    left_mm = cord_mm - made.needs_mm
    return "nothing is left" if left_mm < UNNOTICED_MM else f"{show(left_mm, display_unit(plan.unit))} is left"


def _apart(plan: Plan) -> str:
    """What of it is cut apart, and into how many cords."""
    parts = [count_of(len(plan.cuts), "cord")] if len(plan.cuts) > 1 else []
    parts += [f"{show(extra.cut_mm, display_unit(plan.unit))} for the {extra.purpose}" for extra in plan.extra_cords]
    return f" ({join_words(parts)})" if parts else ""


def _beads(plan: Plan) -> str:
    counted = [count_of(count, kind.name) for kind, count in beads_to_count_out(plan)]
    return join_words(counted) or "cord and knots alone"


def _target(plan: Plan) -> Iterator[str]:
    if plan.target_mm is None:
        return
    unit = display_unit(plan.unit)
    if length_note(plan):
        yield f"That is {over_or_short(plan.finished_length_mm, plan.target_mm, unit)}, the target."
    else:
        yield f"That is as near to the target ({show(plan.target_mm, unit)}) as you asked."


def _designed(reach: Reach) -> Iterator[str]:
    """The design itself, where it is not the answer already."""
    one = reach.designed
    if not one.count or (reach.made and reach.made.count == one.count):
        return
    if reach.beyond and reach.beyond.count == one.count:
        yield "That one would be the design as it stands."
        return
    begins = f"The design as it stands ({_one_more(one)})"
    unit = display_unit(one.plan.unit)
    if one.needs_mm <= reach.cord_mm:
        yield sentences(f"{begins} needs {show(one.needs_mm, unit)}, and this cord is enough for it.")
    else:
        yield f"{begins} {_short_of(one, reach.cord_mm)}."
