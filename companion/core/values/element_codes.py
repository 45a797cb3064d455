"""Elements written in short: a bead is "=" and its key, a knot its kind, bare cord its length in mm."""

from __future__ import annotations

from companion.core.values.design import KNOT_KINDS, Bead, Element, Knot, Space

Code = str | float


def to_code(element: Element) -> Code:
    """The element in short."""
    match element:
        case Bead(key=key):
            return f"={key}"
        case Knot(kind=kind):
            return kind
        case Space(length_mm=length_mm):
            return length_mm


def from_code(code: object) -> Element:
    """The element again. Raises ValueError for what is none."""
    if isinstance(code, (int, float)) and not isinstance(code, bool):
        return Space(float(code))
    for kind in KNOT_KINDS:
        if code == kind:
            return Knot(kind)
    if isinstance(code, str) and code.startswith("="):
        return Bead(code[1:])
    raise ValueError(f"no element: {code!r}")
