"""The JSON Schema refuses what the loader refuses, as far as a schema can see: sizes, bead keys, names of strands."""

from __future__ import annotations

from typing import Any

import pytest
import yaml

from companion.core.closures import CLOSURES
from companion.core.design import KNOT_WORDS, LAYOUT_WORDS
from companion.storage.design.files import design_schema, read_design_text

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


def test_no_value_may_be_null() -> None:
    def nulls(node: Any) -> list[Any]:
        inside = node.values() if isinstance(node, dict) else node if isinstance(node, list) else []
        here = [node] if isinstance(node, dict) and "null" in (node.get("type"), *(node.get("enum") or [])) else []
        return here + [null for part in inside for null in nulls(part)]

    assert nulls(design_schema()) == []
