"""Elements in words: the beads, the bare cord and the knot of a string step."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from companion.core.values.design import Bead, Element, Knot, Space
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import capitalised, plural

WHERE_IT_BEGINS = "where the strand begins"  # of a knot that nothing but the closure comes before


def string_step_parts(elements: Iterable[Element], names: dict[str, str], unit: str) -> tuple[str, str]:
    """The beads and bare cord of a string step in words, and its knot: ("Silver daisy", "a single knot").

    What it lacks is empty. `names`: those of the kinds of bead, by key.
    """
    parts: list[str] = []
    knot = ""
    for element, group in groupby(elements):
        count = len(list(group))
        match element:
            case Bead(key=key):
                parts.append(names[key] if count == 1 else f"{count} {plural(names[key], count)}")
            case Space(length_mm=length_mm):
                parts.append(f"{show(length_mm * count, display_unit(unit))} of bare cord")
            case Knot(kind=kind):
                knot = f"a {kind} knot"
    return capitalised(", ".join(parts)), knot


def string_step_text(elements: Iterable[Element], names: dict[str, str], unit: str) -> str:
    """A string step in words that read well aloud: "Silver daisy, then a single knot"."""
    beads, knot = string_step_parts(elements, names, unit)
    if not beads:
        return capitalised(knot)
    return f"{beads}, then {knot}" if knot else beads
