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


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_opened_and_saved_it_is_the_same_plan(path: Path) -> None:
    reading = read_design(path)
    draft = as_draft(reading.design, reading.text)
    again = read_design_text(file_text(draft).text, "again")
    assert again.problems == reading.problems == ()
    assert plan_json(compile_plan(again.design)) == plan_json(compile_plan(reading.design))


def test_what_the_page_has_no_place_for() -> None:
    text = PATTERNS[0].read_text(encoding="utf-8").replace("end: {closure: endless}", "end: {closure: plain tail}")
    reading = read_design_text(text.replace("start: {closure: endless}", "start: {closure: crimp and clasp}"), "x")
    assert reading.design is not None, reading.problems
    assert as_draft(reading.design, reading.text) is None
