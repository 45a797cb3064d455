"""A design file as the design page has it: what was typed, each length as it stands in the file."""

from __future__ import annotations

from companion.core.draft.draft import BY_MATERIAL, BeadDraft, Draft, StrandDraft
from companion.core.draft.layout import AS_TYPED
from companion.core.draft.pattern import pattern_text
from companion.core.picture.marks import marks_of
from companion.core.values.design import KNOT_KINDS, Design, Strand
from companion.storage.design.yaml_text.strict_yaml import List, Map, Node, Text, parse

WHAT_A_KNOT_TAKES = ("take_up", "length")


def as_draft(design: Design, text: str) -> Draft | None:
    """The draft of a design and the text of its file. None if the design page has no place for something in it: ends
    that are not alike, lengths of a closure's cord, or strands that are worked in different ways."""
    root = parse(text)
    written = _strands(root)
    first, *more = design.strands
    if not _page_has_place(design, written) or not _map(root, "size").values:
        return None
    cord, size = _map(root, "cord"), _map(root, "size")
    marks = {mark.key: mark.letter for mark in marks_of(design.beads)}
    knots = _map(cord, "knots")
    numbers = {f"{kind}_{what}": _text(_map(knots, kind), what) for kind in KNOT_KINDS for what in WHAT_A_KNOT_TAKES}
    kind = next(kind for kind in ("wrist", "neck", "length") if kind in size.values)
    start, end = _map(written[0], "start"), _map(written[0], "end")
    return Draft(
        name=design.name, note=design.note, unit=_text(root, "unit") or "mm",
        measured=kind, body=_text(size, kind), ease=_text(size, "ease"), turns=_text(size, "turns") or "1",
        tolerance=_text(size, "tolerance"),
        cord=design.cord.name, material=design.cord.material, cord_diameter=_text(cord, "diameter"),
        layers=str(design.cord.layers), tool=design.cord.worked_with, card=design.cord.card or "", **numbers,
        beads=tuple(_bead(_map(_map(root, "beads"), key), key, letter) for key, letter in marks.items()),
        strand=first.name if more else "", pattern=pattern_text(first.layout, marks), knots=AS_TYPED, times="1",
        others=tuple(StrandDraft(one.name, pattern_text(one.layout, marks), AS_TYPED, "1") for one in more),
        work=first.work, stringing=first.stringing or BY_MATERIAL,
        closure=first.end.closure, finding=first.end.finding or first.start.finding,
        finding_size=_text(end, "size") or _text(start, "size"),
        end_length=_text(end, "length"), end_tail=_text(end, "tail"),
    )  # fmt: skip


def _strands(root: Map) -> list[Map]:
    found = root.values.get("strands")
    if isinstance(found, List):
        return [one for one in found.items if isinstance(one, Map)]
    return [_map(root, "strand")]


def _page_has_place(design: Design, written: list[Map]) -> bool:
    """Whether all strands are worked, strung and closed alike, each alike at both ends."""
    alike = {(one.work, one.stringing, _finding(one)) for one in design.strands}
    ends = [(_map(one, "start"), _map(one, "end")) for one in written]
    same_ends = {tuple(_text(end, key) for key in ("closure", "size", "length", "tail")) for _, end in ends}
    return len(alike) == len(same_ends) == 1 and all(_alike(start, end) for start, end in ends)


def _finding(strand: Strand) -> str:
    return strand.end.finding or strand.start.finding


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
