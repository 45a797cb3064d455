"""The shipped designs on the design page: opened and saved again, they make the very same plan."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.draft.file_text import file_text
from companion.core.plan.plan_json import plan_json
from companion.core.plan.planner import compile_plan
from companion.storage.design.as_draft import as_draft
from companion.storage.design.files import read_design, read_design_text

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))
OF_SEVERAL_STRANDS = {"inner-farne-strands"}


@pytest.mark.parametrize("path", [p for p in PATTERNS if p.stem not in OF_SEVERAL_STRANDS], ids=lambda path: path.stem)
def test_opened_and_saved_it_is_the_same_plan(path: Path) -> None:
    reading = read_design(path)
    draft = as_draft(reading.design, reading.text)
    again = read_design_text(file_text(draft).text, "again")
    assert again.problems == reading.problems == ()
    assert plan_json(compile_plan(again.design)) == plan_json(compile_plan(reading.design))


@pytest.mark.parametrize("name", sorted(OF_SEVERAL_STRANDS))
def test_what_the_page_has_no_place_for(name: str) -> None:
    (path,) = [path for path in PATTERNS if path.stem == name]
    reading = read_design(path)
    assert as_draft(reading.design, reading.text) is None
