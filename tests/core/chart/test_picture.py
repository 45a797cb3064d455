"""The chart as characters: every mark in the place of its number, read back from the picture alone."""

from __future__ import annotations

import os
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.chart.drift import Drift, Foretold, Gate, ReadStrand, Suspected
from companion.core.chart.picture import ASIDE, BAND, CAME_OUT, READING, chart
from companion.core.chart.scale import column_of, row_scale, ruler_numbers
from companion.core.values.expected import Expected
from companion.core.values.measures.units import MM_PER_INCH
from tests.core.hand_plans import GOLDEN

UNITS = ("mm", "cm", "in")
LENGTH_MM = 180.0


def drift(
    *offs: tuple[float, float], aside: tuple[tuple[float, float], ...] = (), gate: tuple[float, float] | None = (-3, 4),
    ends: tuple[float, float] | None = (2.0, 3.0), suspected: str = "", now_mm: float = 90.0,
) -> Drift:  # fmt: skip
    """A strand of 180 mm. `offs`, `aside`: place and off of readings; `ends`: mean off and sd at its end."""
    read = [ReadStrand(1, place, place + off) for place, off in offs]
    read += [ReadStrand(1, place, place + off, True) for place, off in aside]
    coming = ()
    if ends:
        places = ((now_mm, (1.0, 0.5)), (LENGTH_MM, ends))
        coming = tuple(Foretold(2, place, Expected(mean, sd)) for place, (mean, sd) in places)
    fault = Suspected("bead missed", 0.8, 60.0) if suspected else None
    return Drift(0, LENGTH_MM, now_mm, tuple(read), coming, Gate(*gate) if gate else None, fault)


def where(drawn: str, mark: str) -> set[tuple[int, int]]:
    return {(row, column) for row, line in enumerate(drawn.splitlines()) for column, c in enumerate(line) if c == mark}


offs = st.tuples(st.floats(0, LENGTH_MM), st.floats(-60, 60))


@given(
    st.lists(offs, max_size=6), st.lists(offs, max_size=2), st.sampled_from(UNITS), st.integers(30, 160),
    st.integers(8, 30), st.booleans(),
)  # fmt: skip
def test_a_reading_stands_within_half_a_row_and_half_a_column(reads, aside, unit, columns, rows, suspected) -> None:
    made = drift(*reads, aside=tuple(aside), suspected="?" if suspected else "")
    drawn = str(chart(made, unit, columns, rows, "a bead missed?" if suspected else ""))
    lines = drawn.splitlines()
    assert len(lines) == rows
    assert max(map(len, lines)) <= columns
    first = 1 if suspected else 0
    scale = row_scale(made, unit, rows - 2 - first)
    nought = first + scale.highest
    left = lines[rows - 2].index("0")  # of the ruler
    width = columns - left - 1
    found, wanted = where(drawn, READING), set()
    for one in made.readings:
        if not one.set_aside:
            row, column = nought - scale.row(one.off_mm), left + column_of(one.planned_mm, LENGTH_MM, width)
            assert abs((nought - row) * scale.row_mm - one.off_mm) <= scale.row_mm / 2 + 1e-9
            assert abs((column - left) / (width - 1) * LENGTH_MM - one.planned_mm) <= LENGTH_MM / (width - 1) / 2 + 1e-9
            wanted.add((row, column))
    assert found == wanted  # none that is believed lies outside
    arrows = len(where(drawn, "↑") | where(drawn, "↓"))
    assert len(where(drawn, ASIDE)) + arrows <= len(aside)
    assert bool(where(drawn, ASIDE) or arrows) or not aside or found


@pytest.mark.parametrize("unit", UNITS)
def test_the_band_opens_to_the_right_between_its_limits(unit) -> None:
    drawn = str(chart(drift((30, 0.4)), unit, 80, 20))
    cells = where(drawn, BAND)
    columns = sorted({column for _, column in cells})
    heights = [sum(column == one for _, column in cells) for one in columns]
    assert all(one <= other for one, other in pairwise(heights))
    assert heights[-1] > heights[0]
    scale = row_scale(drift((30, 0.4)), unit, 18)
    low, high = (scale.row(2.0 + side * 1.959963984540054 * 3.0) for side in (-1, 1))
    rows = {scale.highest - row for row, column in cells if column == columns[-1]}
    assert rows | {0} == set(range(low, high + 1))  # nought keeps its line


def test_the_gate_stands_open_at_its_two_offs() -> None:
    lines = str(chart(drift((30, 0.4), gate=(-4.0, 6.0)), "mm", 60, 14)).splitlines()
    scale = row_scale(drift((30, 0.4), gate=(-4.0, 6.0)), "mm", 12)
    posts = [line[59] if len(line) > 59 else " " for line in lines[:12]]
    assert posts[scale.highest - scale.row(6.0)] == "┻"
    assert posts[scale.highest - scale.row(-4.0)] == "┳"
    opening = posts[posts.index("┻") + 1 : posts.index("┳")]
    assert set(opening) <= {" "}
    assert set(posts[: posts.index("┻")] + posts[posts.index("┳") + 1 :]) <= {"┃"}


def test_a_gate_much_wider_than_all_else_flattens_nothing() -> None:
    narrow = row_scale(drift((30, 1.0), ends=(0.5, 0.5), gate=(-3, 3)), "mm", 8)
    wide = row_scale(drift((30, 1.0), ends=(0.5, 0.5), gate=(-300, 300)), "mm", 8)
    assert wide.row_mm <= narrow.row_mm
    drawn = str(chart(drift((30, 1.0), ends=(0.5, 0.5), gate=(-300, 300)), "mm", 60, 10))
    assert not set(drawn) & set("┻┳┃")


def test_a_wild_reading_that_is_set_aside_is_an_arrow_and_flattens_nothing() -> None:
    tame, wild = drift((30, 1.0)), drift((30, 1.0), aside=((50, 400.0), (70, -400.0)))
    assert row_scale(tame, "mm", 8) == row_scale(wild, "mm", 8)
    drawn = str(chart(wild, "mm", 60, 10))
    assert [len(where(drawn, arrow)) for arrow in "↑↓"] == [1, 1]
    assert where(drawn, ASIDE) == set()


@given(st.floats(10, 5000), st.sampled_from(UNITS), st.integers(20, 160))
def test_the_rulers_numbers_are_in_their_columns_and_apart(length_mm, unit, columns) -> None:
    found = list(ruler_numbers(length_mm, unit, columns))
    unit_mm = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH}[unit]
    assert found[0] == (0, "0")
    for column, number in found:
        assert abs(column - float(number) * unit_mm / length_mm * (columns - 1)) <= 0.5 + 1e-6
    for (column, number), (after, _) in pairwise(found):
        assert column + len(number) < after


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("rows", [6, 8, 20])
def test_a_row_is_a_mark_of_the_makers_ruler_and_nought_is_one(unit, rows) -> None:
    for far_mm in (0.1, 0.9, 4.0, 33.0, 250.0):
        scale = row_scale(drift((30, far_mm), gate=None, ends=None), unit, rows)
        marks = scale.row_mm / (MM_PER_INCH / 16 if unit == "in" else 0.5)
        assert marks == pytest.approx(round(marks))
        assert scale.lowest <= 0 <= scale.highest
        assert scale.highest - scale.lowest + 1 == rows
        assert scale.lowest * scale.row_mm <= far_mm <= scale.highest * scale.row_mm


CHARTS = {
    "chart-on-plan": (drift((30, 0.4), (60, 0.9), (90, 1.1)), "in", 57, 10),
    "chart-bead-missed": (
        drift((30, 0.4), (60, 0.5), (75, -7.0), (90, -7.4), aside=((45, 9.0),), ends=(-8.0, 2.0), suspected="?"),
        "in", 57, 10,
    ),
    "chart-came-out": (drift((30, 0.4), (60, 0.9), (150, 3.1), ends=None), "cm", 57, 10),
}  # fmt: skip


@pytest.mark.parametrize("name", CHARTS)
def test_golden(name) -> None:
    """As they are meant to look: read the diff after UPDATE_GOLDEN=1."""
    made, unit, columns, rows = CHARTS[name]
    drawn = str(chart(made, unit, columns, rows, "a bead missed?")) + "\n"
    path = GOLDEN / f"{name}.txt"
    if os.environ.get("UPDATE_GOLDEN"):
        path.write_text(drawn, encoding="utf-8")
    assert path.read_text(encoding="utf-8") == drawn


def test_told_apart_without_colour() -> None:
    """Each kind of mark is made of characters of its own, but for the quiet ones and the arrows."""
    made = drift((30, 0.4), (60, -7.0), aside=((45, 6.0),), ends=(-5.0, 2.0), suspected="?")
    picture = chart(replace(made, finished_off_mm=3.0), "mm", 80, 24, "")
    chars: dict[str, set[str]] = {}
    for row in picture.rows:
        for run in row:
            chars.setdefault(run.kind, set()).update(run.text.replace(" ", ""))
    assert chars["reading"] == {READING}
    assert chars["aside"] == {ASIDE}
    assert chars["end"] == {CAME_OUT}
    marks = [chars[kind] for kind in ("reading", "aside", "end", "band", "gate", "suspected")]
    assert sum(map(len, marks)) == len(set().union(*marks))
