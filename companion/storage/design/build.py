"""From the file's mapping to a Design, or to all that is wrong with it."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from companion.core.values.design import (
    KNOT_WORDS,
    Bead,
    BeadKind,
    BeadRun,
    CordDesign,
    Design,
    Element,
    End,
    Item,
    Knot,
    KnotKind,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Space,
    Strand,
)
from companion.core.values.design_reading import Problem
from companion.core.values.lengths import unit_of
from companion.core.values.text import plain
from companion.storage.design.findings import plain_data, tell
from companion.storage.design.schema import (
    BeadModel,
    BeadsModel,
    CordModel,
    DesignModel,
    EndModel,
    MirrorModel,
    RepeatModel,
    SizeModel,
    SpaceModel,
    StrandModel,
)
from companion.storage.design.sense import Findings, strand_maps, words_sense
from companion.storage.design.strict_yaml import List, Map, Node, Text
from companion.storage.design.whole_sense import Sound, whole_sense

AnyModel = TypeVar("AnyModel", bound=BaseModel)


def build(root: Map, file: str) -> tuple[Design | None, tuple[Problem, ...]]:
    """The design, or None with every error of the file, in the order of the file."""
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
    design = _design(document, root) if document is not None and not findings.problems else None
    if known or unit is None:
        whole_sense(findings, _all_sound(design, root) if design else _sound(root, context))
    findings.tell_the_rest()
    problems = tuple(sorted(dict.fromkeys(findings.problems), key=lambda problem: (problem.line, problem.column)))
    return (None if problems else design), problems


def _all_sound(design: Design, root: Map) -> Sound:
    strands = tuple(zip(strand_maps(root), design.strands, strict=True))
    return Sound(strands, True, design.beads, design.cord, design.size, True)


def _sound(root: Map, context: dict[str, Any]) -> Sound:
    """Each part of a file with faults that has none of its own."""
    cord = _alone(CordModel, root.values.get("cord"), context)
    size = _alone(SizeModel, root.values.get("size"), context)
    kinds = [kind for kind in ("length", "wrist", "neck") if size and getattr(size, kind) is not None]
    if size and (len(kinds) != 1 or (kinds == ["length"] and (size.ease is not None or size.turns != 1))):
        size = None
    beads = root.values.get("beads")
    bead_models = {key: _alone(BeadModel, node, context) for key, node in _values(beads).items()}
    nodes = strand_maps(root)
    models = [(node, _alone(StrandModel, node, context)) for node in nodes]
    strands = tuple((node, _strand(model)) for node, model in models if model)
    several = root.values.get("strands")
    return Sound(
        strands,
        len(strands) == (len(several.items) if isinstance(several, List) else 1),
        tuple(_bead(key, model) for key, model in bead_models.items() if model),
        _cord(cord) if cord else None,
        _size(size, root),
        size is not None or "size" not in root.values,
    )


def _alone(model: type[AnyModel], node: Node | None, context: dict[str, Any]) -> AnyModel | None:
    """One part of the file, or None where it is missing or has a fault."""
    if not isinstance(node, Map):
        return None
    try:
        return model.model_validate(plain_data(node), context=context)
    except ValidationError:
        return None


def _values(node: Node | None) -> dict[str, Node]:
    return node.values if isinstance(node, Map) else {}


def _design(document: DesignModel, root: Map) -> Design:
    strands = document.strands if document.strands else [document.strand] if document.strand else []
    return Design(
        document.name,
        _cord(document.cord),
        tuple(_bead(key, bead) for key, bead in document.beads.items()),
        tuple(_strand(strand) for strand in strands),
        _size(document.size, root),
        document.note,
        _unit(document, root),
    )


def _unit(document: DesignModel, root: Map) -> str:
    """The maker's unit: the file's, else that of its size, else of the first length in it."""
    if document.unit:
        return str(document.unit)
    size = root.values.get("size")
    lengths: list[Any] = []
    if isinstance(size, Map):
        lengths += [size.values.get(kind) for kind in ("length", "wrist", "neck")]
    cord = root.values.get("cord")
    lengths.append(cord.values.get("diameter") if isinstance(cord, Map) else None)
    for node in lengths:
        unit = unit_of(node.value) if isinstance(node, Text) else None
        if unit:
            return {"m": "cm", "ft": "in", "yd": "in"}.get(unit, unit)
    return "mm"


def _size(size: SizeModel | None, root: Map) -> Size | None:
    if size is None:
        return None
    for kind in ("length", "wrist", "neck"):
        body_mm = getattr(size, kind)
        if body_mm is not None:
            typed = f"{kind} {_as_typed(root, kind)}"
            return Size(kind, body_mm, size.ease or 0.0, size.tolerance, typed, size.turns)
    return None


def _as_typed(root: Map, kind: str) -> str:
    size = root.values["size"]
    node = size.values[kind] if isinstance(size, Map) else None
    unit = root.values.get("unit")
    typed = plain(node.value, 40) if isinstance(node, Text) else ""
    bare = unit_of(typed) is None and isinstance(unit, Text)
    return f"{typed} {plain(unit.value, 4)}" if bare and isinstance(unit, Text) else typed


def _cord(cord: CordModel) -> CordDesign:
    knots: list[tuple[KnotKind, KnotNumbers]] = []
    if cord.knots:
        for kind in ("single", "double", "triple"):
            numbers = getattr(cord.knots, kind)
            if numbers:
                knots.append((kind, KnotNumbers(numbers.take_up, numbers.length)))
    return CordDesign(
        cord.name, cord.diameter, cord.layers, cord.material, cord.worked_with, tuple(knots), cord.card
    )  # fmt: skip


def _bead(key: str, bead: BeadModel) -> BeadKind:
    diameter_mm = bead.length if bead.diameter is None else bead.diameter
    return BeadKind(key, bead.name or plain(key), bead.length, diameter_mm, bead.hole, bead.colour, bead.shape)


def _strand(strand: StrandModel) -> Strand:
    layout, start, end = _items(strand.layout, {}), _end(strand.start), _end(strand.end)
    return Strand(layout, start, end, strand.name or "", strand.work, strand.stringing)


def _end(end: EndModel) -> End:
    return End(end.closure, end.length, end.cord, end.tail, end.finding or "", end.size)


def _items(items: list[Any], known: dict[str, Element]) -> tuple[Item, ...]:
    return tuple(_word(item, known) if isinstance(item, str) else _item(item, known) for item in items)


def _word(word: str, known: dict[str, Element]) -> Element:
    """A word's element; the same word gives the same value."""
    if word not in known:
        known[word] = Knot(KNOT_WORDS[word]) if word in KNOT_WORDS else Bead(word)
    return known[word]


def _item(item: Any, known: dict[str, Element]) -> Item:
    match item:
        case SpaceModel(space=length_mm):
            return Space(length_mm)
        case RepeatModel(repeat=count, of=of):
            return Repeat(count, _items(of, known))
        case MirrorModel(mirror=sides):
            return Mirror(_items(sides.side, known), _items(sides.middle or [], known))
        case BeadsModel(beads=key, count=count, knot_every=every):
            return BeadRun(key, count, every)
    raise TypeError(item)
