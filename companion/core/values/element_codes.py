"""Elements written in short: a bead is "=" and its key, a knot its kind, bare cord its length in mm."""

from __future__ import annotations

from typing import Any

from companion.core.values.design import KNOT_KINDS, Bead, Element, Knot, Space
from companion.core.values.plain_values import Misshapen, number

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


def from_code(code: Any) -> Element:
    """The element again. Raises Misshapen for what is none."""
    if not isinstance(code, str):
        return Space(float(number(code)))
    for kind in KNOT_KINDS:
        if code == kind:
            return Knot(kind)
    if code.startswith("="):
        return Bead(code[1:])
    raise Misshapen(f"no element: {code!r}")
