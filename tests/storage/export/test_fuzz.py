"""Exports gone wrong: refused whole in clean words, or taken so that everything opens."""

from __future__ import annotations

from pathlib import Path

from tests.harness.imports import mutations, taken_or_refused, valid_export


def test_the_valid_one_is_taken(tmp_path: Path) -> None:
    assert taken_or_refused(valid_export().encode(), tmp_path)


def test_a_few_hundred_that_are_not(tmp_path: Path) -> None:
    taken = 0
    for data in mutations(5, 300):
        folder = tmp_path / f"{taken}"
        folder.mkdir(exist_ok=True)
        taken += taken_or_refused(data, folder)
    assert taken < 100  # most of what is done to one does harm
