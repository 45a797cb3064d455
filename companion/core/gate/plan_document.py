"""A compiled plan as plain values and back: how a piece keeps its own copy. Elements are written in short."""

from __future__ import annotations

from dataclasses import asdict, fields
from typing import Any

from companion.core.cord.cord import Cord, KnotFigures
from companion.core.plan.plan import Cut, ExtraCord, OtherCount, Plan, PlannedStrand, Step, Warning
from companion.core.values.design import KNOT_KINDS, BeadKind, Element, Size
from companion.core.values.element_codes import from_code, to_code

VERSION = 1
Document = dict[str, Any]


def to_document(plan: Plan) -> Document:
    """Plain dicts, lists, numbers and text, with a version of their own."""
    document: Document = {"version": VERSION}
    for field in fields(plan):
        value = getattr(plan, field.name)
        if field.name == "strands":
            document["strands"] = [_strand_document(strand) for strand in value]
        elif field.name in ("beads", "fit_others", "cuts", "extra_cords", "warnings"):
            document[field.name] = [_flat(item) for item in value]
        elif field.name == "cord":
            document["cord"] = _cord_document(plan.cord)
        elif field.name == "size":
            document[field.name] = None if value is None else asdict(value)
        else:
            document[field.name] = value
    return document


def from_document(document: Document) -> Plan:
    """The plan again. Raises ValueError for a version this companion does not know, or a document that is not one."""
    version = document.get("version") if isinstance(document, dict) else None
    if version != VERSION:
        raise ValueError(f"a plan of version {version!r}: this companion reads version {VERSION}")
    rest = {key: value for key, value in document.items() if key != "version"}
    try:
        rest["size"] = Size(**rest["size"]) if rest["size"] else None
        rest["cord"] = _cord(rest["cord"])
        rest["beads"] = tuple(BeadKind(**item) for item in rest["beads"])
        rest["strands"] = tuple(_strand(item) for item in rest["strands"])
        rest["longest"] = tuple(rest["longest"])
        rest["fit_others"] = tuple(OtherCount(**item) for item in rest["fit_others"])
        rest["cuts"] = tuple(Cut(**{**item, "entries": tuple(item["entries"])}) for item in rest["cuts"])
        rest["extra_cords"] = tuple(ExtraCord(**item) for item in rest["extra_cords"])
        rest["warnings"] = tuple(Warning(**item) for item in rest["warnings"])
        return Plan(**rest)
    except (KeyError, TypeError, AttributeError) as error:
        raise ValueError("not a plan that this companion wrote") from error


def _flat(value: Any) -> Document:
    return {field.name: getattr(value, field.name) for field in fields(value)}


def _cord_document(cord: Cord) -> Document:
    """Figures of which nothing is estimated are written as ever: copies of old plans stay alike."""
    document: Document = asdict(cord)
    for kind in KNOT_KINDS:
        if not document[kind]["estimated"]:
            del document[kind]["estimated"]
    return document


def _cord(document: Document) -> Cord:
    figures: Document = {kind: KnotFigures(**document[kind]) for kind in KNOT_KINDS}
    return Cord(**{**document, **figures})


def _strand_document(strand: PlannedStrand) -> Document:
    document = _flat(strand)
    document["elements"] = [to_code(element) for element in strand.elements]
    document["steps"] = [
        [s.number, s.kind, s.text, s.beads, s.knot, s.strand_mm, s.cord_used_mm, s.free_cord_mm, s.elements]
        + ([True] if s.trims else [])
        for s in strand.steps
    ]
    return document


def _strand(document: Document) -> PlannedStrand:
    elements: dict[Any, Element] = {}
    steps = tuple(
        Step(number, kind, text, tuple(beads), *rest) for number, kind, text, beads, *rest in document["steps"]
    )
    return PlannedStrand(
        **{
            **document,
            "elements": tuple(_element(word, elements) for word in document["elements"]),
            "steps": steps,
            "beads": tuple((key, count) for key, count in document["beads"]),
            "knots": tuple((kind, count) for kind, count in document["knots"]),
        }
    )


def _element(code: Any, known: dict[Any, Element]) -> Element:
    """The element of that code; the same code gives the same value."""
    if code not in known:
        known[code] = from_code(code)
    return known[code]
