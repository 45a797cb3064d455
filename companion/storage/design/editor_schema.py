"""The JSON Schema that `tallycord schema` prints: the design file as an editor sees it, with a description of every
key."""

from __future__ import annotations

from typing import Any

from companion.core.closures.table import CLOSURES
from companion.core.values.design import KNOT_KINDS
from companion.core.values.measures.length_grammar import MOST_CHARACTERS
from companion.storage.design.length_patterns import LENGTH, LENGTH_ABOVE_ZERO, WITH_UNIT
from companion.storage.design.schema import DesignModel

_A_LENGTH = "A length with its unit, such as 6 mm or 9 3/8 in; a bare number where the file has a unit."

HELP: dict[str, dict[str, str]] = {
    "DesignModel": {
        "format": "The format of this file.",
        "name": "What the piece is called.",
        "note": "Anything to remember about it.",
        "unit": "The unit of every bare number in the file.",
        "size": "What the piece is made to. Left out: no target, and nothing to fit.",
        "cord": "The cord, and how it is worked.",
        "beads": "Each kind of bead, under a key of your own for the layout.",
        "strand": "The one strand of the piece.",
        "strands": "Several strands, each with a name of its own.",
    },
    "SizeModel": {
        "length": "Finished length, closed, end to end.",
        "wrist": "Measured round the wrist, close.",
        "neck": "Measured round the neck.",
        "ease": "Added to wrist or neck for comfort; 0 where it is left out.",
        "turns": "How often it goes round; 1 where it is left out.",
        "tolerance": "How far off the finished length may be; 3 mm where it is left out.",
    },
    "CordModel": {
        "name": "What the cord is called.",
        "diameter": "Thickness of one cord.",
        "layers": "How many cords run side by side through the beads; doubled cord: 2.",
        "material": "What the cord is made of; never guessed from its name.",
        "worked with": "What the knots are set with.",
        "knots": "What a knot of each kind takes of this cord. Left out: estimated from the diameter.",
        "card": "The cord card that knows this cord; numbers written here come before it.",
    },
    "KnotsModel": {
        "single": "An overhand knot.",
        "double": "An overhand knot with the end passed through once more.",
        "triple": "An overhand knot with the end passed through twice more.",
    },
    "KnotModel": {
        "take_up": "Cord that one knot uses up, of each cord.",
        "length": "Length that one knot takes along the strand.",
    },
    "BeadModel": {
        "length": "Length along the hole.",
        "name": "What the bead is called; its key where it is left out.",
        "diameter": "Thickness across the hole; the length where it is left out.",
        "hole": "Width of the hole. Left out: no check that the cord goes through.",
        "colour": "Any word for the colour.",
        "color": "The same as colour.",
        "shape": "Any word for the shape.",
    },
    "StrandModel": {
        "name": "What the strand is called, where there are several.",
        "stringing": "Whether all beads are strung before the first knot. Left out: by the material.",
        "work": "Along from the start, or from the middle to both ends.",
        "start": "What is made at the start; a plain tail where it is left out.",
        "layout": "Beads and knots in their order.",
        "end": "What is made at the end; a plain tail where it is left out.",
    },
    "EndModel": {
        "closure": "How this end is closed.",
        "length": "What this end adds to the finished length.",
        "cord": "How much of each cord this end needs.",
        "tail": "Tail left at this end, of each cord.",
        "finding": "What closes it, by its own name: hook clasp, toggle, shell button …",
        "size": "How wide the button, closing bead or bore of the cord end is; of a toggle, how long its bar is.",
    },
    "SpaceModel": {"space": "Bare cord."},
    "RepeatModel": {"repeat": "How many times; fit: as many as the size asks for.", "of": "What is repeated."},
    "MirrorModel": {"mirror": "A side, the middle, and the side again the other way round."},
    "SidesModel": {
        "side": "One side, from the outside to the middle.",
        "middle": "What lies between the two sides.",
    },
    "BeadsModel": {
        "beads": "The key of the bead.",
        "count": "How many; fit: as many as the size asks for.",
        "knot every": "A single knot after each so many beads. Left out: no knots.",
    },
}


def design_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a design file, as editors see it."""
    schema = DesignModel.model_json_schema(by_alias=True)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["oneOf"] = [{"required": ["strand"]}, {"required": ["strands"]}]
    schema["allOf"] = [{"if": {"not": {"required": ["unit"]}}, "then": _lengths_with_units()}]
    _without_null(schema)
    for name, model in {"DesignModel": schema, **schema["$defs"]}.items():
        _described(model, HELP[name])
    schema["properties"]["strands"]["items"]["required"] = ["name"]
    schema["$defs"]["StrandModel"]["allOf"] = _closures_of_both_ends()
    schema["$defs"].update(_LENGTHS)
    return schema


_TEXT = {"maxLength": MOST_CHARACTERS}
_LENGTHS: dict[str, dict[str, Any]] = {
    "Length": {**_TEXT, "type": ["string", "number"], "pattern": LENGTH, "minimum": 0},
    "LengthAboveZero": {**_TEXT, "type": ["string", "number"], "pattern": LENGTH_ABOVE_ZERO, "exclusiveMinimum": 0},
    "LengthWithUnit": {**_TEXT, "type": "string", "pattern": WITH_UNIT},
}


def _described(model: dict[str, Any], words: dict[str, str]) -> None:
    """Give each key a description in place of the title made from its name, and put apart what all lengths have in
    common."""
    if model.get("title", "").endswith("Model"):
        del model["title"]
    for key, rule in model["properties"].items():
        rule.pop("title", None)
        length = rule.pop("length", None)
        if length:
            rule["$ref"] = f"#/$defs/{length}"
        if isinstance(rule.get("default"), float):
            rule["default"] = f"{rule['default']:g} mm"
        rule["description"] = f"{words[key]} {_A_LENGTH if length else ''}".strip()


def _lengths_with_units() -> dict[str, Any]:
    """Rules for a file without a unit of its own: every length brings one. For lengths in layouts only the loader can
    check."""

    def lengths(*keys: str) -> dict[str, Any]:
        return {"properties": {key: {"$ref": "#/$defs/LengthWithUnit"} for key in keys}}

    def inside(**rules: Any) -> dict[str, Any]:
        return {"properties": rules}

    knot, end = lengths("take_up", "length"), lengths("length", "cord", "tail", "size")
    cord = lengths("diameter")
    cord["properties"]["knots"] = inside(**dict.fromkeys(KNOT_KINDS, knot))
    strand = inside(start=end, end=end)
    return inside(
        size=lengths("length", "wrist", "neck", "ease", "tolerance"),
        cord=cord,
        beads={"additionalProperties": lengths("length", "diameter", "hole")},
        strand=strand,
        strands={"items": strand},
    )


def _closures_of_both_ends() -> list[dict[str, Any]]:
    """Rules that require the other end where a closure takes both."""

    def has(end: str, closure: str) -> dict[str, Any]:
        closed = {"required": ["closure"], "properties": {"closure": {"const": closure}}}
        return {"required": [end], "properties": {end: closed}}

    both = [name for name, closure in CLOSURES.items() if closure.both_ends]
    pairs = (("start", "end"), ("end", "start"))
    return [{"if": has(one, name), "then": has(other, name)} for name in both for one, other in pairs]


def _without_null(node: Any) -> None:
    """Optional keys are left out, never written as null. The schema says so too."""
    if isinstance(node, dict):
        options = node.get("anyOf")
        if isinstance(options, list) and {"type": "null"} in options:
            rest = [option for option in options if option != {"type": "null"}]
            del node["anyOf"]
            node.pop("default", None)
            node.update(rest[0] if len(rest) == 1 else {"anyOf": rest})
        for value in node.values():
            _without_null(value)
    elif isinstance(node, list):
        for value in node:
            _without_null(value)
