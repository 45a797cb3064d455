"""The file that a draft makes: format 1, as a person would write it, and which field each line comes from."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from msgspec import Struct

from companion.core.draft.draft import BY_MATERIAL, MOST_TEXT, BeadDraft, Draft, keys_by_letter, strands_of, with_unit
from companion.core.draft.layout import layout_of
from companion.core.draft.pattern import BareCord, Mirrored, Repeated, Typed
from companion.core.values.design import Bead, BeadRun, Knot
from companion.core.values.text import plain

Part = Literal["what", "size", "cord", "knots", "beads", "pattern", "ends"]
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./()'+²³¼½¾⅛⅜⅝⅞-]*(?<! )")
_KNOT_NAMES = {"single": "knot", "double": "double knot", "triple": "triple knot"}
_FLOW_AT_MOST = 96  # characters of a list on one line


class FileText(Struct, frozen=True):
    """The text, and for each of its lines (from 1) the part of the draft that it comes from."""

    text: str
    parts: tuple[Part, ...]

    def part_of(self, line: int) -> Part:
        """The part that a line comes from."""
        return self.parts[min(max(line, 1), len(self.parts)) - 1]


def file_text(draft: Draft) -> FileText:
    """The file. Raises PatternError where the pattern is none."""
    lines = list(_lines(draft))
    return FileText("\n".join(text for _, text in lines) + "\n", tuple(part for part, _ in lines))


def _lines(draft: Draft) -> Iterator[tuple[Part, str]]:
    yield "what", "format: 1"
    yield "what", f"name: {quoted(draft.name.strip())}"
    if draft.note.strip():
        yield "what", f"note: {quoted(draft.note.strip())}"
    yield "size", f"size: {_size(draft)}"
    yield "cord", "cord:"
    yield from (("cord", f"  {key}: {quoted(value)}") for key, value in _cord(draft))
    yield from (("knots", line) for line in _knot_numbers(draft))
    yield "beads", "beads:"
    yield from (("beads", f"  {quoted(bead.key or bead.letter)}: {_bead(bead, draft.unit)}") for bead in draft.beads)
    yield from _strands(draft)


def _strands(draft: Draft) -> Iterator[tuple[Part, str]]:
    if not draft.others:
        yield "pattern", "strand:"
        yield from ((part, f"  {line}") for part, line in _strand(draft, 0))
        return
    yield "pattern", "strands:"
    for number, strand in enumerate(strands_of(draft)):
        yield "pattern", f"  - name: {quoted(strand.name.strip() or f'strand {number + 1}')}"
        yield from ((part, f"    {line}") for part, line in _strand(draft, number))


def _strand(draft: Draft, number: int) -> Iterator[tuple[Part, str]]:
    if draft.work != "along":
        yield "pattern", f"work: {draft.work}"
    if draft.stringing != BY_MATERIAL:
        yield "pattern", f"stringing: {draft.stringing}"
    yield "ends", f"start: {_end(draft, last=False)}"
    yield "pattern", "layout:"
    writing = _Layout(draft.unit, keys_by_letter(draft))
    yield from (("pattern", line) for line in writing.items(layout_of(draft, number), 2))
    yield "ends", f"end: {_end(draft, last=True)}"


def quoted(text: str) -> str:
    """A text as a value of the file: as it is where that is plain, in double quotes elsewhere."""
    text = plain(text, MOST_TEXT)  # one line, nothing in it that only a machine sees
    if _PLAIN.fullmatch(text):
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _flow(pairs: Sequence[tuple[str, str]]) -> str:
    return "{" + ", ".join(f"{key}: {quoted(value)}" for key, value in pairs if value) + "}"


def _size(draft: Draft) -> str:
    pairs = [(draft.measured, with_unit(draft.body, draft.unit))]
    if draft.measured != "length":
        pairs.append(("ease", with_unit(draft.ease, draft.unit)))
    if draft.turns.strip() not in ("", "1"):
        pairs.append(("turns", draft.turns.strip()))
    return _flow([*pairs, ("tolerance", with_unit(draft.tolerance, draft.unit))])


def _cord(draft: Draft) -> Iterator[tuple[str, str]]:
    yield "name", draft.cord.strip() or draft.material
    yield "material", draft.material
    yield "diameter", with_unit(draft.cord_diameter, draft.unit)
    if draft.layers.strip() not in ("", "1"):
        yield "layers", draft.layers.strip()
    if draft.tool != "awl":
        yield "worked with", draft.tool
    if draft.card.strip():
        yield "card", draft.card.strip()


def _knot_numbers(draft: Draft) -> Iterator[str]:
    """What a knot of each kind takes, where the maker has measured it."""
    measured = (
        ("single", draft.single_take_up, draft.single_length),
        ("double", draft.double_take_up, draft.double_length),
        ("triple", draft.triple_take_up, draft.triple_length),
    )
    given = [(kind, take_up, length) for kind, take_up, length in measured if take_up.strip() or length.strip()]
    if given:
        yield "  knots:"
    for kind, take_up, length in given:
        pairs = [("take_up", with_unit(take_up, draft.unit)), ("length", with_unit(length, draft.unit))]
        yield f"    {kind}: {_flow(pairs)}"


def _bead(bead: BeadDraft, unit: str) -> str:
    pairs = [("name", bead.name.strip()), ("length", with_unit(bead.length, unit))]
    pairs += [("diameter", with_unit(bead.diameter, unit)), ("hole", with_unit(bead.hole, unit))]
    pairs.append(("colour", bead.colour.strip()))
    return _flow([*pairs, ("shape", "" if bead.shape == "round" else bead.shape)])


def _end(draft: Draft, last: bool) -> str:
    pairs = [("closure", draft.closure), ("finding", draft.finding.strip() if last else "")]
    pairs.append(("size", with_unit(draft.finding_size, draft.unit)))
    pairs.append(("length", with_unit(draft.end_length, draft.unit)))
    return _flow([*pairs, ("tail", with_unit(draft.end_tail, draft.unit))])


class _Layout(Struct, frozen=True):
    """Writes a layout. `keys`: each bead's key in the file, by its letter."""

    unit: str
    keys: Mapping[str, str]

    def items(self, items: Sequence[Typed], indent: int) -> Iterator[str]:
        """The lines of a list, indented as given."""
        before = " " * indent
        for item in items:
            match item:
                case Bead() | Knot() | BareCord():
                    yield f"{before}- {self.single(item)}"
                case BeadRun(key=letter, count=count, knot_every=every):
                    yield f"{before}- beads: {quoted(self.keys[letter])}"
                    yield f"{before}  count: {'fit' if count is None else count}"
                    if every:
                        yield f"{before}  knot every: {every}"
                case Repeated(count=count, of=of):
                    yield f"{before}- repeat: {'fit' if count is None else count}"
                    yield from self.under("of", of, indent + 2)
                case Mirrored(side=side, middle=middle):
                    yield f"{before}- mirror:"
                    yield from self.under("side", side, indent + 4)
                    if middle:
                        yield from self.under("middle", middle, indent + 4)

    def under(self, key: str, items: Sequence[Typed], indent: int) -> Iterator[str]:
        """A list under its key; on one line if it is short and holds only single things."""
        before = " " * indent
        if all(isinstance(item, Bead | Knot) for item in items):
            line = f"{before}{key}: [{', '.join(self.single(item) for item in items)}]"
            if len(line) <= _FLOW_AT_MOST:
                yield line
                return
        yield f"{before}{key}:"
        yield from self.items(items, indent + 2)

    def single(self, item: Typed) -> str:
        """A bead, a knot or bare cord."""
        match item:
            case Bead(key=letter):
                return quoted(self.keys[letter])
            case Knot(kind=kind):
                return _KNOT_NAMES[kind]
            case BareCord(typed=typed):
                return f"space: {quoted(with_unit(typed, self.unit))}"
            case _:
                raise TypeError(item)
