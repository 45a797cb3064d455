"""From what the schema has read to a design."""

from __future__ import annotations

from typing import Any

from companion.core.values.design import (
    KNOT_KINDS,
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
from companion.core.values.measures.lengths import unit_of
from companion.core.values.text import plain
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
from companion.storage.design.yaml_text.strict_yaml import Map, Text


def design_from(document: DesignModel, root: Map) -> Design:
    """The whole design."""
    strands = document.strands if document.strands else [document.strand] if document.strand else []
    return Design(
        document.name,
        cord_from(document.cord),
        tuple(bead_from(key, bead) for key, bead in document.beads.items()),
        tuple(strand_from(strand) for strand in strands),
        size_from(document.size, root),
        document.note,
        _unit(document, root),
    )


def _unit(document: DesignModel, root: Map) -> str:
    """The maker's unit: that of the file, else of its size, else of the first length in it."""
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


def size_from(size: SizeModel | None, root: Map) -> Size | None:
    """What the piece is made to."""
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


def cord_from(cord: CordModel) -> CordDesign:
    """The cord as the design writes it."""
    knots: list[tuple[KnotKind, KnotNumbers]] = []
    if cord.knots:
        for kind in KNOT_KINDS:
            numbers = getattr(cord.knots, kind)
            if numbers:
                knots.append((kind, KnotNumbers(numbers.take_up, numbers.length)))
    return CordDesign(
        cord.name, cord.diameter, cord.layers, cord.material, cord.worked_with, tuple(knots), cord.card
    )  # fmt: skip


def bead_from(key: str, bead: BeadModel) -> BeadKind:
    """A kind of bead. If no diameter is given, it is as thick as it is long."""
    diameter_mm = bead.length if bead.diameter is None else bead.diameter
    return BeadKind(
        key, bead.name or plain(key), bead.length, diameter_mm, bead.hole, bead.colour or bead.color, bead.shape
    )


def strand_from(strand: StrandModel) -> Strand:
    """A strand with its layout and its ends."""
    layout, start, end = _items(strand.layout, {}), _end(strand.start), _end(strand.end)
    return Strand(layout, start, end, strand.name or "", strand.work, strand.stringing)


def _end(end: EndModel) -> End:
    return End(end.closure, end.length, end.cord, end.tail, end.finding or "", end.size)


def _items(items: list[Any], known: dict[str, Element]) -> tuple[Item, ...]:
    return tuple(_word(item, known) if isinstance(item, str) else _item(item, known) for item in items)


def _word(word: str, known: dict[str, Element]) -> Element:
    """The element that a word stands for; the same word gives the same object."""
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
