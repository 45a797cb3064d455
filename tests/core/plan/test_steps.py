"""Cutting a strand into steps: the rules of product words, each with a case of its own."""

from __future__ import annotations

import pytest

from companion.core.plan.steps import cut_into_steps
from companion.core.values.design import Bead, Knot, Space

B, K, S = Bead("b"), Knot("single"), Space(5.0)


@pytest.mark.parametrize(
    ("elements", "stops"),
    [
        ([B, K, B, K], [2, 4]),
        ([K, K, B, K], [1, 2, 4]),  # two in a row are two knots
        ([B] * 10 + [K], [11]),
        ([B] * 11 + [K], [10, 12]),
        ([B] * 30 + [K], [10, 20, 31]),
        ([B] * 25, [10, 20, 25]),
        ([B] * 20, [10, 20]),
        ([B] * 10 + [S, K], [12]),  # bare cord belongs to the step that follows
        ([B] * 10 + [S, B, K], [10, 13]),
        ([B, K, S], [2, 3]),  # what comes after the last knot makes the last step
        ([B, K, S, B, K], [2, 5]),
        ([S], [1]),
        ([], []),
    ],
)
def test_where_steps_end(elements, stops) -> None:
    assert cut_into_steps(elements) == stops
