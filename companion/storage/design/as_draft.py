"""A design file as the design page has it: what was typed, each length as it stands in the file."""

from __future__ import annotations

from companion.core.draft.draft import BY_MATERIAL, BeadDraft, Draft
from companion.core.draft.layout import AS_TYPED
from companion.core.draft.pattern import pattern_text
from companion.core.picture.marks import marks_of
from companion.core.values.design import KNOT_KINDS, Design
from companion.storage.design.yaml_text.strict_yaml import List, Map, Node, Text, parse

WHAT_A_KNOT_TAKES = ("take_up", "length")


def as_draft(design: Design, text: str) -> Draft | None:
    """The draft of a design and the text of its file. None if the design page has no place for something in it: several
    strands, ends that are not alike, or lengths of a closure's cord."""
    if len(design.strands) != 1:
        return None
    root = parse(text)
    strand = design.strands[0]
    written, cord, size = _map(root, "strand"), _map(root, "cord"), _map(root, "size")
    start, end = _map(written, "start"), _map(written, "end")
    if not _alike(start, end) or not size.values:
        return None
    marks = {mark.key: mark.letter for mark in marks_of(design.beads)}
    knots = _map(cord, "knots")
    numbers = {
        f"{kind}_{what}": _text(_map(knots, kind), what) for kind in KNOT_KINDS for what in ("take_up", "length")
    }
    kind = next(kind for kind in ("wrist", "neck", "length") if kind in size.values)
    return Draft(
        name=design.name, note=design.note, unit=_text(root, "unit") or "mm",
        measured=kind, body=_text(size, kind), ease=_text(size, "ease"), turns=_text(size, "turns") or "1",
        tolerance=_text(size, "tolerance"),
        cord=design.cord.name, material=design.cord.material, cord_diameter=_text(cord, "diameter"),
        layers=str(design.cord.layers), tool=design.cord.worked_with, card=design.cord.card or "", **numbers,
        beads=tuple(_bead(_map(_map(root, "beads"), key), key, letter) for key, letter in marks.items()),
        pattern=pattern_text(strand.layout, marks), knots=AS_TYPED, times="1", work=strand.work,
        stringing=strand.stringing or BY_MATERIAL,
        closure=strand.end.closure, finding=strand.end.finding or strand.start.finding,
        finding_size=_text(end, "size") or _text(start, "size"),
        end_length=_text(end, "length"), end_tail=_text(end, "tail"),
    )  # fmt: skip


def _bead(written: Map, key: str, letter: str) -> BeadDraft:
    lengths = {name: _text(written, name) for name in ("length", "diameter", "hole")}
    shape = _text(written, "shape") or "round"
    name = _text(written, "name")
    return BeadDraft(
        letter, key=key, name=name, **lengths, colour=_text(written, "colour") or _text(written, "color"), shape=shape
    )


def _alike(start: Map, end: Map) -> bool:
    same = ("closure", "length", "tail")
    return all(_text(start, key) == _text(end, key) for key in same) and not {"cord"} & {*start.values, *end.values}


def _map(node: Map, key: str) -> Map:
    found = node.values.get(key)
    return found if isinstance(found, Map) else Map({}, {}, 0, 0)


def _text(node: Map, key: str) -> str:
    found: Node | List | None = node.values.get(key)
    return found.value if isinstance(found, Text) else ""
