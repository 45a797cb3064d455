"""The sheet as plain text."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.journal.piece import Piece
from companion.core.sheet.sheet import step_sheet
from companion.core.sheet.sheet_text import BOX, COLUMNS, TICKED, sheet_lines
from tests.core.sheet.shipped_plans import NAMES, shipped

GOLDEN = Path(__file__).parent / "golden"


@pytest.mark.parametrize("name", ["inner-farne-strands", "skerry-bracelet"])
def test_as_it_reads(name: str) -> None:
    golden, text = GOLDEN / f"{name}.txt", "\n".join(sheet_lines(step_sheet(shipped(name)))) + "\n"
    if "UPDATE_GOLDEN" in os.environ:
        golden.write_text(text, encoding="utf-8")
    assert golden.read_text(encoding="utf-8") == text


@pytest.mark.parametrize("name", NAMES)
def test_there_is_a_box_for_every_step_and_no_line_runs_over(name: str) -> None:
    plan = shipped(name)
    text = "\n".join(sheet_lines(step_sheet(plan)))
    assert text.count(BOX) == plan.total_steps
    assert max(map(len, text.splitlines())) <= COLUMNS


def test_what_is_made_is_ticked() -> None:
    plan = shipped("skerry-bracelet")
    text = "\n".join(sheet_lines(step_sheet(plan, "One", Piece(plan.total_steps, 12))))
    assert (text.count(TICKED), text.count(BOX)) == (12, plan.total_steps - 12)


def test_a_name_without_a_space_is_broken_not_run_over() -> None:
    plan = replace(shipped("skerry-bracelet"), design="x" * 500)
    assert max(map(len, "\n".join(sheet_lines(step_sheet(plan))).splitlines())) <= COLUMNS
