"""The tests lie as the product does: a file is tested in the test of its name, or in one that is named here."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

from tests.test_arrows import imported_names

TESTS = Path(__file__).parent
PACKAGE = TESTS.parent / "companion"

# What has no test of its own name, by the test that it is tested through: parts of one thing that is only tested whole.
THROUGH = {
    "test_documents.py": "__main__.py",
    "cli/test_parser.py": "cli/typed_lengths.py",
    "cli/commands/test_status.py": "cli/verdict_report.py core/words/event_words.py",
    "cli/lines/test_follower.py": "cli/lines/beginning.py cli/lines/questions.py cli/lines/session.py",
    "core/chart/test_picture.py": "core/chart/scale.py",
    "core/closures/test_table.py": (
        "core/closures/clasps.py core/closures/closure.py core/closures/joint.py core/closures/loops.py "
        "core/closures/preparing.py core/closures/tied.py core/closures/fitting.py core/closures/toggle.py"
    ),
    "core/draft/test_cures.py": "core/words/drafting/cure_words.py",
    "core/forecast/test_learning.py": "core/cord/lessons.py",
    "core/forecast/test_forecaster.py": "core/forecast/outlook.py core/values/expected.py",
    "core/forecast/test_observations.py": "core/forecast/faults/segment.py",
    "core/forecast/faults/test_posterior.py": "core/forecast/faults/candidates.py",
    "core/plan/checks/test_warnings.py": "core/plan/checks/closure_warnings.py",
    "core/plan/test_by_hand.py": (
        "core/plan/ends.py core/plan/entries.py core/plan/longest.py core/plan/plan.py core/plan/strand_figures.py"
    ),
    "core/plan/test_replan.py": "core/values/element_codes.py",
    "core/remedies/test_joining.py": "core/forecast/join_place.py core/words/measured/join_words.py",
    "core/tying/test_ends.py": "core/tying/knot_cover.py",
    "core/tying/test_knot_picture.py": "core/tying/ways.py",
    "core/values/measures/test_lengths.py": (
        "core/values/measures/length_grammar.py core/values/measures/length_refusals.py"
    ),
    "core/variants/test_variants.py": "core/variants/refitting.py",
    "core/words/measured/test_verdict_words.py": "core/words/measured/reason_words.py",
    "storage/design/test_as_draft.py": "core/plan/plan_json.py",
    "storage/design/test_files.py": "core/values/design_reading.py",
    "storage/design/test_rules.py": (
        "storage/design/build.py storage/design/conversion.py storage/design/findings.py storage/design/part_words.py "
        "storage/design/scalars.py storage/design/schema.py storage/design/schema_findings.py storage/design/sense.py "
        "storage/design/whole_sense.py storage/design/yaml_text/strict_yaml.py"
    ),
    "storage/export/test_export.py": (
        "core/values/merge_result.py core/values/plain_values.py storage/export/document.py "
        "storage/export/json_items.py storage/export/merging.py storage/export/reading.py storage/export/schema.py "
        "storage/export/taking.py storage/export/writing.py workshop/exports.py"
    ),
    "storage/test_pieces.py": "storage/kept.py storage/rows.py",
    "storage/test_damage.py": "storage/files.py storage/folders.py storage/sentences.py",
    "storage/test_rescue.py": "storage/salvage.py",
    "tui/test_app.py": "tui/endings.py tui/handing_over.py tui/routing.py tui/setting_aside.py tui/ground.py",
    "tui/test_golden.py": "tui/widgets/later_drawing.py tui/widgets/piece_lines.py",
    "tui/test_themes.py": "tui/contrast.py tui/widgets/bead_style.py",
    "tui/bench/test_screen.py": "tui/bench/upkeep.py",
    "tui/design/test_screen.py": (
        "core/words/drafting/draft_words.py tui/design/board.py tui/design/comparison.py tui/design/form.py "
        "tui/design/page_rows.py tui/design/preview.py tui/design/saving.py"
    ),
    "tui/design/test_cures.py": "tui/design/further.py",
    "tui/design/test_picture.py": "core/words/drafting/place_words.py",
    "tui/dialogs/test_ask.py": "tui/dialogs/dialog.py tui/dialogs/question.py tui/widgets/gauge.py",
    "tui/dialogs/test_show.py": "tui/widgets/paragraphs.py",
    "tui/follow/test_bounce.py": "workshop/key_bounce.py",
    "tui/follow/test_chart_beside.py": "tui/widgets/chart.py",
    "tui/follow/test_screen.py": "tui/follow/body.py tui/follow/reading.py",
    "tui/start/test_screen.py": "tui/start/card_choices.py tui/start/cut_question.py",
    "tui/trial/test_trial.py": "tui/trial/guide.py",
    "tui/widgets/test_piece_drawing.py": "tui/widgets/letter_strand.py",
    "workshop/test_workshop.py": (
        "workshop/changes.py workshop/cord_cards.py workshop/designs.py workshop/making.py workshop/open_piece.py "
        "workshop/parts.py workshop/pieces.py workshop/teaching.py"
    ),
    "workshop/test_forecasts.py": "workshop/beside.py",
}
FAMILIES = "companion.cli.commands."  # one of them is loaded for a command: by its name, made up as the program runs
TESTED_BY = {file: test for test, files in THROUGH.items() for file in files.split()}


def does_something(file: Path) -> bool:
    """Whether there is a function in it: a file of tables, values or errors is tested by what uses it."""
    return any(isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) for node in ast.walk(_parsed(file)))


@cache
def _parsed(file: Path) -> ast.Module:
    return ast.parse(file.read_text("utf-8"))


def own_test(file: str) -> str:
    """Where the test of a file of the product lies."""
    folder, _, name = file.rpartition("/")
    return f"{folder}/test_{name}".lstrip("/")


FILES = sorted(
    str(file.relative_to(PACKAGE))
    for file in PACKAGE.rglob("*.py")
    if file.name != "__init__.py" and does_something(file)
)


@pytest.mark.parametrize("file", FILES)
def test_a_file_has_its_test(file: str) -> None:
    if file in TESTED_BY:
        assert not (TESTS / own_test(file)).exists(), f"{file} has its own test: take it out of THROUGH"
    test = TESTS / TESTED_BY.get(file, own_test(file))
    assert test.exists(), f"write {own_test(file)}, or name in THROUGH what it is tested through"


@pytest.mark.parametrize("file", sorted(TESTED_BY))
def test_what_is_tested_through_another_test_is_reached_by_it(file: str) -> None:
    assert (PACKAGE / file).exists()
    assert f"companion.{file.removesuffix('.py').replace('/', '.')}" in reached(TESTS / TESTED_BY[file])


@cache
def _named(file: Path) -> frozenset[str]:
    """The modules of the product and of the tests that a file names, those it takes from a package as well."""
    names = set(imported_names(file))
    for node in ast.walk(_parsed(file)):
        if isinstance(node, ast.ImportFrom):
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(name for name in names if name.startswith(("companion.", "tests.")))


def reached(test: Path) -> set[str]:
    """All modules that a test comes to, with what its folders hand to it."""
    handed = [folder / "conftest.py" for folder in test.parents if folder.is_relative_to(TESTS)]
    found: set[str] = set()
    new = {name for file in (test, *handed) if file.exists() for name in _named(file)}
    while new:
        found |= new
        files = [TESTS.parent / f"{name.replace('.', '/')}.py" for name in new]
        files += [TESTS.parent / name.replace(".", "/") / "__init__.py" for name in new]
        files += [file for name in new if name == FAMILIES for file in (PACKAGE / "cli" / "commands").rglob("*.py")]
        new = {name for file in files if file.exists() for name in _named(file)} - found
    return found


def test_the_guard_sees_what_a_test_does_not_reach() -> None:
    there = reached(TESTS / "tui" / "design" / "test_history.py")
    assert "companion.tui.design.history" in there
    assert "companion.storage.rows" in reached(TESTS / "storage" / "test_pieces.py")
    assert "companion.core.forecast.learning" not in reached(TESTS / "core" / "words" / "test_undo_words.py")
