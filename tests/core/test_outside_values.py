"""The table of values from outside the program: how many there are, from where, and that a test really uses each.

Only such values are in it as the program comes to another way: a source whose own figure stands in the program proves
nothing, and is listed apart (tests/core/outside/kept.py). What is common practice or remembered is not in the table.
"""

from __future__ import annotations

from collections import Counter
from importlib import import_module
from typing import Any

import pytest

from tests.core.outside import cords, lengths, pieces, screens, statistics
from tests.core.outside.kept import KEPT
from tests.core.outside.outside import Outside

TABLE: tuple[Outside, ...] = (*statistics.ALL, *lengths.ALL, *cords.ALL, *pieces.ALL, *screens.ALL)
LEAST, MOST_OF_ONE, LEAST_FUNCTIONS = 60, 12, 15


def attribute(path: str) -> Any:
    """What a dotted path names in the program."""
    module, _, name = path.rpartition(".")
    return getattr(import_module(module), name)


def named_test(used_by: str) -> Any:
    """The test that "tests/x/test_y.py::test_z" names."""
    file, _, name = used_by.partition("::")
    return attribute(f"{file.removesuffix('.py').replace('/', '.')}.{name}")


def given_to(test: Any) -> list[Any]:
    """Every value that a test is parametrised with."""
    marks = [mark for mark in getattr(test, "pytestmark", []) if mark.name == "parametrize"]
    return [row for mark in marks for row in mark.args[1]]


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.source[:40])
def test_each_is_what_its_test_is_given(one: Outside) -> None:
    """The same objects, not equal ones: a copy in the test could drift away from the table."""
    given = {id(row) for row in given_to(named_test(one.used_by))}
    assert one.values
    assert all(id(row) in given for row in one.values)


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.source[:40])
def test_each_says_where_it_is_from_and_what_it_checks(one: Outside) -> None:
    assert attribute(one.checks)
    assert len(one.source.split()) >= 4
    assert one.otherwise
    assert not any(word in one.source.lower() for word in ("from memory", "unverified", "no source", "our own"))


def test_there_are_sixty_and_more() -> None:
    """Those that are known to be weak are checked all the same, and left out here."""
    assert sum(len(one.values) for one in TABLE if not one.weak) >= LEAST


def test_what_is_weak_says_why() -> None:
    assert [one for one in TABLE if one.weak]
    assert all(len(one.weak.split()) >= 4 for one in TABLE if one.weak)


def test_no_value_is_counted_twice() -> None:
    assert len({id(one) for one in TABLE}) == len(TABLE)
    for one in TABLE:
        others = [row for other in TABLE if other is not one and other.used_by == one.used_by for row in other.values]
        assert not [row for row in one.values if row in others]
        assert len(set(one.values)) == len(one.values)


def test_they_are_spread_over_the_program() -> None:
    """Sixty quantiles of one distribution would be one check."""
    counts = Counter(one.checks for one in TABLE for _ in one.values)
    assert max(counts.values()) <= MOST_OF_ONE
    assert len(counts) >= LEAST_FUNCTIONS


@pytest.mark.parametrize(("what", "source", "kept_by"), KEPT, ids=[kept[0] for kept in KEPT])
def test_what_stands_in_the_program_is_kept_by_a_test_and_not_counted(what: str, source: str, kept_by: str) -> None:
    assert what
    assert source
    assert named_test(kept_by)
    assert source not in {one.source for one in TABLE}
