"""The parts of a design file in words: what each is called, and how it is written."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from companion.core.values.text import plain
from companion.storage.design.findings import quoted

KNOT = "`single: {take_up: 6 mm, length: 2 mm}`"
BEAD = "`glass: {length: 6 mm}`"
IN_ORDER = "Write its beads and knots in their order, each on a line of its own that begins with `- `."

# What each part is called in a sentence, and how it is written. Those in «» are the kinds of line of a layout.
_PARTS: dict[str, tuple[str, str]] = {
    "size": ("the size", "Write it like `size: {wrist: 6 1/2 in}`, or with neck or length."),
    "cord": ("the cord", "Write it like `cord: {name: silk, diameter: 0.5 mm}`."),
    "knots": ("the part `knots:`", f"Write what a knot takes under the kind of knot, like {KNOT}."),
    "single": ("the single knot", f"Write it like {KNOT}."),
    "double": ("the double knot", f"Write it like {KNOT.replace('single', 'double')}."),
    "triple": ("the triple knot", f"Write it like {KNOT.replace('single', 'triple')}."),
    "beads": ("the part `beads:`", f"Write each bead under a name of its own, like {BEAD}."),
    "strand": ("the strand", "Under `strand:` write `layout:`, and below that its beads and knots."),
    "strands": ("the part `strands:`", "Begin each strand with `- name:`, and give it a `layout:`."),
    "start": ("the start", "Write it like `start: {closure: plain tail}`."),
    "end": ("the end", "Write it like `end: {closure: plain tail}`."),
    "layout": ("the layout", IN_ORDER),
    "of": ("what is repeated", "Write it like `of: [glass, knot]`."),
    "mirror": ("the mirror", "Under `mirror:` write `side:`, and `middle:` where there is one."),
    "side": ("the side of the mirror", IN_ORDER),
    "middle": ("the middle of the mirror", IN_ORDER),
    "«space»": ("the space", "Write it like `space: 10 mm`."),
    "«repeat»": ("the repeat", "Write `repeat: 4` and, below it, `of: [glass, knot]`."),
    "«mirror»": ("the mirror", "Under `mirror:` write `side:`, and `middle:` where there is one."),
    "«beads»": ("the run of beads", "Write it like `{beads: glass, count: 30}`."),
}
# What to add where a word that must be there is not.
_TO_ADD = {
    "format": "Begin the file with `format: 1`.",
    "name": "Add one, like `name: Evening strand`.",
    "cord": "Add one, like `cord: {name: silk, diameter: 0.5 mm}`.",
    "diameter": "Add how thick it is, like `diameter: 0.5 mm`.",
    "length": "Add how long it is, like `length: 6 mm`.",
    "take_up": "Add how much cord it uses up, like `take_up: 6 mm`.",
    "layout": "Add `layout:`, and below it the beads and knots in their order.",
    "repeat": "Add how often, like `repeat: 4` or `repeat: fit`.",
    "of": "Add what is repeated, like `of: [glass, knot]`.",
    "side": "Add one side, like `side: [glass, knot]`.",
    "beads": "Add which bead, like `beads: glass`.",
    "count": "Add how many, like `count: 30` or `count: fit`.",
}


def part_at(path: Sequence[Any]) -> str:
    """What the part at a path is called in a sentence: "the cord", "the bead «glass»", "strand 2"."""
    words = [part for part in path if not (isinstance(part, str) and part == "«word»")]
    if len(words) == 2 and words[0] == "beads":
        return f"the bead {quoted(str(words[1]))}"
    for place in range(len(words) - 1, -1, -1):
        part = words[place]
        if isinstance(part, int) and words[place - 1 : place] == ["strands"]:
            return f"strand {part + 1}"
        if part in _PARTS:
            return _PARTS[part][0]
    return "the design"


def how_written(path: Sequence[Any]) -> str:
    """How the part at a path is written, as a sentence; "" where nothing is known of it."""
    if len(path) == 2 and path[0] == "beads":
        return f"Write it like {BEAD}."
    if len(path) == 2 and path[0] == "strands":
        return _PARTS["strands"][1]
    return next((_PARTS[part][1] for part in reversed(path) if part in _PARTS), "")


def to_add(key: str) -> str:
    """What to write where that word is missing, as a sentence."""
    return _TO_ADD.get(key, f"Add `{plain(key, 40)}:`.")
