"""What is left of a strand in one line of letters, from where the work stands on: "g◦g◦s◦"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from companion.core.picture.marks import coming_letter
from companion.core.values.design import Bead, Element, Knot

KNOTS = {"single": "◦", "double": "◎", "triple": "◉"}
BARE, CUT_OFF = "┄", "…"
BEFORE = 8  # characters that are shown of what stays, before the first that differs


def rest_letters(elements: Sequence[Element], letters: Mapping[str, str]) -> str:
    """One character for each element; `letters`: of the bead kinds, by key."""
    return "".join(_character(element, letters) for element in elements)


def _character(element: Element, letters: Mapping[str, str]) -> str:
    match element:
        case Bead(key=key):
            return coming_letter(letters[key])
        case Knot(kind=kind):
            return KNOTS[kind]
    return BARE


def rest_strip(rest: str, planned: str, columns: int) -> str:
    """As much of `rest` as has room. What is as planned for a long way is left out before what differs."""
    if len(rest) <= columns:
        return rest
    same = next((n for n, (one, other) in enumerate(zip(rest, planned, strict=False)) if one != other), len(rest))
    first = 0 if same <= columns - 2 or rest == planned else min(same - BEFORE, len(rest) - columns + 1)
    if first == 0:
        return f"{rest[: columns - 1]}{CUT_OFF}"
    shown = rest[first:]
    return f"{CUT_OFF}{shown}" if len(shown) < columns else f"{CUT_OFF}{shown[: columns - 2]}{CUT_OFF}"
