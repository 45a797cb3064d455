"""From the mapping that a file holds to a Design, or to everything that is wrong with it."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from companion.core.values.design import Design
from companion.core.values.design_reading import Problem
from companion.storage.design.conversion import bead_from, cord_from, design_from, size_from, strand_from
from companion.storage.design.findings import Findings
from companion.storage.design.schema import BeadModel, CordModel, DesignModel, SizeModel, StrandModel
from companion.storage.design.schema_findings import plain_data, tell
from companion.storage.design.sense import strand_maps, words_sense
from companion.storage.design.whole_sense import Sound, whole_sense
from companion.storage.design.yaml_text.strict_yaml import List, Map, Node, Text

AnyModel = TypeVar("AnyModel", bound=BaseModel)


def build(root: Map, file: str) -> tuple[Design | None, tuple[Problem, ...]]:
    """The design, or None together with every error of the file, in the order of the file."""
    findings = Findings(root, file)
    unit = root.values.get("unit")
    known = isinstance(unit, Text) and unit.value in ("mm", "cm", "in")
    # A misspelt unit is one fault, not one at every bare number: they are read all the same, and not weighed up below.
    context = {"unit": unit.value if isinstance(unit, Text) and known else "mm" if unit else None}
    document = None
    try:
        document = DesignModel.model_validate(plain_data(root), context=context)
    except ValidationError as error:
        tell(error, findings)
    words_sense(findings)
    design = design_from(document, root) if document is not None and not findings.problems else None
    if known or unit is None:
        whole_sense(findings, _all_sound(design, root) if design else _sound(root, context))
    findings.tell_the_rest()
    problems = tuple(sorted(dict.fromkeys(findings.problems), key=lambda problem: (problem.line, problem.column)))
    return (None if problems else design), problems


def _all_sound(design: Design, root: Map) -> Sound:
    strands = tuple(zip(strand_maps(root), design.strands, strict=True))
    return Sound(strands, True, design.beads, design.cord, design.size, True)


def _sound(root: Map, context: dict[str, Any]) -> Sound:
    """The parts of a faulty file that have no fault of their own."""
    cord = _alone(CordModel, root.values.get("cord"), context)
    size = _alone(SizeModel, root.values.get("size"), context)
    kinds = [kind for kind in ("length", "wrist", "neck") if size and getattr(size, kind) is not None]
    if size and (len(kinds) != 1 or (kinds == ["length"] and (size.ease is not None or size.turns != 1))):
        size = None
    beads = root.values.get("beads")
    bead_models = {key: _alone(BeadModel, node, context) for key, node in _values(beads).items()}
    nodes = strand_maps(root)
    models = [(node, _alone(StrandModel, node, context)) for node in nodes]
    strands = tuple((node, strand_from(model)) for node, model in models if model)
    several = root.values.get("strands")
    return Sound(
        strands,
        len(strands) == (len(several.items) if isinstance(several, List) else 1),
        tuple(bead_from(key, model) for key, model in bead_models.items() if model),
        cord_from(cord) if cord else None,
        size_from(size, root),
        size is not None or "size" not in root.values,
    )


def _alone(model: type[AnyModel], node: Node | None, context: dict[str, Any]) -> AnyModel | None:
    """One part of the file; None if it is missing or has a fault."""
    if not isinstance(node, Map):
        return None
    try:
        return model.model_validate(plain_data(node), context=context)
    except ValidationError:
        return None


def _values(node: Node | None) -> dict[str, Node]:
    return node.values if isinstance(node, Map) else {}
