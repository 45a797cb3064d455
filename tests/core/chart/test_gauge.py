"""The gauge: hers, the band and the plan lie on one line as they lie on the ruler."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.chart.gauge import Gauge, gauge
from companion.core.values.expected import Expected

MILLIMETRES = st.floats(0.0, 2000.0)


def line(
    typed_mm: float, mean_mm: float = 100.0, sd_mm: float = 1.0, planned_mm: float = 100.0, columns: int = 41
) -> str:
    return "".join(run.text for run in gauge(Gauge(typed_mm, Expected(mean_mm, sd_mm), planned_mm), columns))


@pytest.mark.parametrize(
    ("typed_mm", "planned_mm", "drawn"),
    [
        (100.0, 101.0, "──────────░░░░░░░░░░●░░░░┃░░░░░──────────"),
        (97.0, 100.0, "─────●────░░░░░░░░░░┃░░░░░░░░░░──────────"),
        (80.0, 100.0, "◀─────────░░░░░░░░░░┃░░░░░░░░░░──────────"),
        (120.0, 100.0, "──────────░░░░░░░░░░┃░░░░░░░░░░─────────▶"),
        (100.0, 92.0, "──┃─────────────░░░░●░░░░────────────────"),  # the plan is left behind: it stays in sight
    ],
)
def test_where_everything_lies(typed_mm, planned_mm, drawn) -> None:
    assert line(typed_mm, planned_mm=planned_mm) == drawn


@given(MILLIMETRES, MILLIMETRES, st.floats(0.0, 50.0), MILLIMETRES, st.integers(12, 120))
def test_it_fits_and_shows_hers_whatever_the_numbers(typed_mm, mean_mm, sd_mm, planned_mm, columns) -> None:
    drawn = line(typed_mm, mean_mm, sd_mm, planned_mm, columns)
    assert len(drawn) == columns
    assert sum(drawn.count(mark) for mark in "●◀▶") == 1


@given(st.floats(-4.0, 4.0))
def test_hers_is_in_the_band_where_it_is_expected(off_sds) -> None:
    columns = 401
    drawn = line(100.0 + off_sds, planned_mm=103.0, columns=columns)
    at = max(drawn.find(mark) for mark in "●◀▶")
    beside = drawn[max(0, at - 2) : at] + drawn[at + 1 : at + 3]
    if abs(off_sds) < 1.9:
        assert "─" not in beside
    elif abs(off_sds) > 2.05:
        assert "░" not in beside.replace("┃", "")
