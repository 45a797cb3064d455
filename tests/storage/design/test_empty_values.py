"""Values left empty mean the same with either of yaml's two parsers, and are never taken for an answer."""

from __future__ import annotations

import pytest
import yaml

from companion.storage.design.files import read_design_text
from companion.storage.design.yaml_text import strict_yaml

HEAD = "format: 1\nname: Empty light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"
LAYOUT = "strand: {layout: [b]}\n"
LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]


@pytest.fixture(params=LOADERS, ids=lambda loader: loader.__name__)
def read(request, monkeypatch):
    monkeypatch.setattr(strict_yaml, "_LOADER", request.param)
    return lambda text: read_design_text(text, "empty.yaml")


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        # in block style: inside braces the two parsers place an empty value one column apart
        (HEAD + "size:\n" + LAYOUT, "no mapping", (5, 6)),
        (HEAD + "strand:\n", "no mapping", (5, 8)),
        (HEAD + "strands:\n", "no list", (5, 9)),
        (HEAD + "size:\n  wrist:\n" + LAYOUT, "no length", (6, 9)),
        (HEAD + "size:\n  wrist: 16 cm\n  ease:\n" + LAYOUT, "no length", (7, 8)),
        (HEAD + "unit:\n" + LAYOUT, "no such word", (5, 6)),
        (HEAD + "strand:\n  layout:\n    - beads: b\n      count: 3\n      knot every:\n", "no count", (9, 18)),
        (HEAD + "strand:\n  layout:\n    - b\n    -\n", "undefined bead", (8, 6)),
        (HEAD.replace("b: {", '"": {') + "strand: {layout: [knot]}\n", "bead key", (4, 9)),
    ],
)
def test_nothing_is_no_answer(read, text, code, place) -> None:
    reading = read(text)
    assert [(one.code, (one.line, one.column)) for one in reading.problems] == [(code, place)]
    assert reading.design is None
    assert "«»" not in str(reading.problems[0])


def test_an_empty_note_is_no_note(read) -> None:
    assert read(HEAD + "note:\n" + LAYOUT).design.note == ""


@pytest.mark.parametrize("text", ["", "\n", "---\n", "# only a remark\n", "---\n...\n"])
def test_an_empty_file(read, text) -> None:
    (problem,) = read(text).problems
    assert (problem.code, problem.line) == ("empty", 0)
