"""A compiled plan as plain values and back: how a piece keeps its own copy. Elements and steps are written in short."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from companion.core.cord.cord import Cord, KnotFigures
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.values.design import Bead, Element, Knot, Size, Space
from companion.core.values.element_codes import from_code, to_code
from companion.core.values.plain_values import Misshapen, Reader, Writer, field_names, reader, row_reader, to_plain

VERSION = 1
STEP_FIELDS = 9  # of the first steps that were kept; `trims` and `closes` came later: written only where one is so
Document = dict[str, Any]


def to_document(plan: Plan) -> Document:
    """Plain dicts, lists, numbers and text, with a version of their own."""
    written: dict[type, Writer] = {Step: _row, Bead: to_code, Knot: to_code, Space: to_code}
    return {"version": VERSION, **to_plain(plan, written, _LATER)}


# Fields that came in later: left out where they say nothing, so that a plan kept before is written as it was.
_LATER: dict[type, dict[str, Any]] = {
    KnotFigures: {"estimated": ""},
    Cord: {"worked_with": "awl", "practised": False},
    Size: {"turns": 1},
    PlannedStrand: {
        "finding": "",
        "finding_mm": None,
        "strung_all_first": False,
        "lengths_written": (),
        "told_as": 1,
    },
    Plan: {"opened_mm": None},
}


def _row(step: Step) -> list[Any]:
    values = [getattr(step, name) for name in field_names(Step)]
    while len(values) > STEP_FIELDS and not values[-1]:
        values.pop()
    return [list(value) if type(value) is tuple else value for value in values]


def from_document(document: Any) -> Plan:
    """The plan again, every type in it as its class says. Raises ValueError for a version that this version does not
    know, Misshapen for a document that is no plan."""
    version = document.get("version") if isinstance(document, dict) else None
    if version != VERSION:
        raise ValueError(f"a plan of version {version!r}: only version {VERSION} is understood")
    plan: Plan = _reader()({key: value for key, value in document.items() if key != "version"})
    described = {Bead(kind.key) for kind in plan.beads}
    for strand in plan.strands:
        if any(isinstance(one, Bead) and one not in described for one in set(strand.elements)):
            raise Misshapen("a bead is in the strand and not among the beads")
    return plan


@cache
def _reader() -> Reader:
    """Made on first need."""
    return reader(Plan, {Element: _element, Step: row_reader(Step, {}, least=STEP_FIELDS)})


def _element(code: Any) -> Element:
    """The same code gives the same value: a strand has few kinds of element."""
    return _known_element(code) if type(code) in (str, float) else from_code(code)


_known_element = lru_cache(maxsize=1000)(from_code)
