"""The JSON Schema refuses what the loader refuses, as far as a schema can see: sizes, bead keys, names of strands."""

from __future__ import annotations

import re
from typing import Any

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from companion.core.closures.table import CLOSURES
from companion.core.values.design import KNOT_WORDS, LAYOUT_WORDS
from companion.core.values.measures.lengths import LengthError, read_length_mm
from companion.storage.design import length_patterns
from companion.storage.design.editor_schema import HELP
from companion.storage.design.files import design_schema, read_design_text
from tests.storage.design.json_schema import accepts

HEAD = "format: 1\nname: Editor light\ncord: {name: c, diameter: 1 mm}\n"
STRAND = "strand: {layout: [knot]}\n"


def fits_one(rules: list[dict[str, Any]], value: dict[str, Any]) -> bool:
    """Exactly one of rules made of required keys and forbidden ones."""
    kept = [
        rule
        for rule in rules
        if all(key in value for key in rule["required"])
        and not any(allowed is False and key in value for key, allowed in rule.get("properties", {}).items())
    ]
    return len(kept) == 1


@pytest.mark.parametrize(
    ("size", "taken"),
    [
        ("{length: 20 cm}", True),
        ("{wrist: 16 cm}", True),
        ("{wrist: 16 cm, ease: 1 cm}", True),
        ("{neck: 40 cm, ease: 1 cm, tolerance: 2 mm}", True),
        ("{length: 20 cm, ease: 1 cm}", False),
        ("{length: 20 cm, wrist: 16 cm}", False),
        ("{wrist: 16 cm, neck: 40 cm, ease: 1 cm}", False),
        ("{tolerance: 2 mm}", False),
    ],
)
def test_exactly_one_size(size, taken) -> None:
    rules = design_schema()["$defs"]["SizeModel"]["oneOf"]
    assert fits_one(rules, yaml.safe_load(size)) is taken
    assert (read_design_text(f"{HEAD}size: {size}\n{STRAND}", "e.yaml").design is not None) is taken


@pytest.mark.parametrize("key", [*KNOT_WORDS, *LAYOUT_WORDS, '""', "glass", "Knot", "knots"])
def test_bead_keys(key) -> None:
    rule = design_schema()["properties"]["beads"]["propertyNames"]
    text = yaml.safe_load(key)
    taken = len(text) >= rule["minLength"] and text not in rule["not"]["enum"]
    assert taken is (key in ("glass", "Knot", "knots"))
    found = read_design_text(f"{HEAD}beads: {{{key}: {{length: 6 mm}}}}\n{STRAND}", "e.yaml")
    assert [problem.code for problem in found.problems] == ([] if taken else ["bead key"])


def test_each_of_several_strands_has_a_name() -> None:
    assert design_schema()["properties"]["strands"]["items"]["required"] == ["name"]
    found = read_design_text(HEAD + "strands: [{layout: [knot]}]\n", "e.yaml")
    assert [problem.code for problem in found.problems] == ["strand name"]


@pytest.mark.parametrize("name", ["a:b", "a/b", "upper/first"])
def test_a_name_of_a_strand_leaves_colon_and_slash_to_steps(name) -> None:
    for text in (f"strand: {{name: '{name}', layout: [knot]}}\n", f"strands: [{{name: '{name}', layout: [knot]}}]\n"):
        found = read_design_text(HEAD + text, "e.yaml")
        assert [problem.code for problem in found.problems] == ["strand name"]


def test_the_words_of_the_schema_are_those_of_the_loader() -> None:
    schema = design_schema()
    assert schema["$defs"]["EndModel"]["properties"]["closure"]["enum"] == list(CLOSURES)
    for closure in CLOSURES:
        end = f"{{closure: {closure}}}"
        found = read_design_text(f"{HEAD}strand: {{start: {end}, layout: [knot], end: {end}}}\n", "e.yaml")
        assert found.design.strands[0].end.closure == closure


def test_only_words_that_may_be_left_empty_may_be_null() -> None:
    def nulls(name: str, node: Any) -> list[str]:
        inside = node.items() if isinstance(node, dict) else ((name, part) for part in node)
        here = [name] if isinstance(node, dict) and "null" in (node.get("type") or []) else []
        return here + [null for key, part in inside if isinstance(part, dict | list) for null in nulls(key, part)]

    assert sorted(nulls("", design_schema())) == ["color", "colour", "note", "shape"]
    for empty in ("note:\n", "beads: {b: {length: 6 mm, colour: , shape: }}\n"):
        assert agreed(HEAD + empty + STRAND) is True


def test_every_key_comes_with_words() -> None:
    schema = design_schema()
    for name, model in {"DesignModel": schema, **schema["$defs"]}.items():
        assert set(model.get("properties", {})) == set(HELP.get(name, {}))
        assert all(len(rule["description"]) > 8 for rule in model.get("properties", {}).values())


def agreed(text: str) -> bool:
    """Whether a design is taken, by the loader and by an editor with the schema alike."""
    schema = design_schema()
    loaded = read_design_text(text, "e.yaml").design is not None
    assert accepts(schema, schema, yaml.safe_load(text)) is loaded, text
    return loaded


@pytest.mark.parametrize(
    ("text", "taken"),
    [
        (HEAD.replace("1 mm", "0.6"), False),
        (HEAD.replace("1 mm", "0.6") + "unit: mm\n", True),
        (HEAD.replace("1 mm", "'0.6'") + "unit: mm\n", True),
        (HEAD.replace("1 mm", "0") + "unit: mm\n", False),
        (HEAD.replace("1 mm", "0 mm"), False),
        (HEAD.replace("1 mm", "-1 mm"), False),
        (HEAD.replace("1 mm", "1 mm, layers: '2'"), True),
        (HEAD.replace("1 mm", "1 mm, layers: 0"), False),
        (HEAD.replace("1 mm", "1 mm, knots: {single: {take_up: 6 mm, length: 2}}"), False),
        (HEAD.replace("1 mm", "1 mm, knots: {double: {take_up: 6 mm, length: 0 mm}}"), True),
        (HEAD + "size: {wrist: 16 cm, ease: 0}\n", False),
        (HEAD + "beads: {b: {length: 6 mm, hole: 1}}\n", False),
        (HEAD + "unit: inch\n", False),
        (HEAD.replace("format: 1", "format: '1'"), True),
        (HEAD.replace("format: 1", "format: 1.1"), False),
        (HEAD.replace("name: c", "name: true"), True),
        (HEAD.replace("name: c", "name: ''"), False),
    ],
)
def test_loader_and_schema_agree(text, taken) -> None:
    assert agreed(text + STRAND) is taken


@pytest.mark.parametrize(
    ("strand", "taken"),
    [
        ("{layout: [knot, {space: 3 mm}, {repeat: 3, of: [knot]}, {mirror: {side: [knot], middle: []}}]}", True),
        ("{layout: [{repeat: '3', of: [{repeat: 2, of: [knot]}]}]}", True),
        ("{layout: [{repeat: 0, of: [knot]}]}", False),
        ("{layout: [{repeat: 100001, of: [knot]}]}", False),
        ("{layout: [{repeat: 2.5, of: [knot]}]}", False),
        ("{layout: [{repeat: Fit, of: [knot]}]}", False),
        ("{layout: [{space: 3 smoots}]}", False),
        ("{layout: [{mirror: {side: []}}]}", False),
        ("{layout: [knot], start: {closure: endless}, end: {closure: endless, length: 0 mm}}", True),
        ("{layout: [knot], start: {closure: endless}}", False),
        ("{layout: [knot], start: {tail: 9 cm}, end: {closure: sliding knot}}", False),
        ("{layout: [knot], start: {closure: loop and bead}, end: {closure: loop and button}}", False),
        ("{layout: [knot], end: {tail: 9}}", False),
        ("{layout: [knot], work: from the middel}", False),
        ("{name: a/b, layout: [knot]}", False),
    ],
)
def test_loader_and_schema_agree_on_strands(strand, taken) -> None:
    assert agreed(f"{HEAD}strand: {strand}\n") is taken


@given(st.text("0123456789.,/ ¼⅝mcinftyd\"'′”-", max_size=12))
@example("1,000 mm")
@example("2 ft 6 1/2 in")
@example("23,8 cm")
@example("9⅜”")
@example("2-5/16 in")
@example("2 5/16 inches")
@example("2-⅜")
def test_the_schema_takes_every_length_that_the_loader_takes(text) -> None:
    for default in (None, "mm"):
        try:
            read_length_mm(text, default)
        except LengthError:
            continue
        assert re.search(length_patterns.LENGTH, text)
        assert default or re.search(length_patterns.WITH_UNIT, text)


@given(
    st.from_regex(r"[0-9]{1,3}([.,][0-9]{1,2})?|[0-9]{0,2}[¼⅝]|([0-9]{1,2} )?[0-9]{1,2}/[1-9]", fullmatch=True),
    st.sampled_from(
        [
            "mm",
            "cm",
            "m",
            "in",
            "ft",
            "yd",
            '"',
            "′",
            "",
            "  mm",
            "\u00a0cm",
            "km",
            "inch",
            "inches",
            "feet",
            "metres",
            "MM",
        ]
    ),
)
def test_lengths_near_right_ones_are_told_apart_alike(number, unit) -> None:
    """But for what only arithmetic can see: a fraction that isn't below 1, nothing where something has to be."""
    text = f"{number}{unit}" if unit else number
    for default, zero_too, pattern in (
        ("mm", True, length_patterns.LENGTH),
        ("mm", False, length_patterns.LENGTH_ABOVE_ZERO),
        (None, True, length_patterns.WITH_UNIT),
    ):
        expected = ""
        try:
            read_length_mm(text, default, above_zero=not zero_too)
        except LengthError as error:
            expected = error.expected
        matched = re.search(pattern, text) is not None
        assert matched is not bool(expected) or "1 km" in expected or "/" in number
