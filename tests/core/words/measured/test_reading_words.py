"""Ruler readings in words: where to measure from."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Space,
    Strand,
)
from companion.core.words.measured.reading_words import where_from

GLASS = BeadKind("g", "Glass", 6, 6, 1.0)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


USUAL_LAYOUT = (Repeat(30, (Bead("g"), Knot("single"))),)


def plan_of(length_mm=240.0, layout=USUAL_LAYOUT, start="plain tail"):
    return compile_plan(
        Design("Light", CORD, (GLASS,), (Strand(layout, End(start)),), Size("length", length_mm, 0, 2.0))
    )


@pytest.mark.parametrize(
    ("layout", "start", "words"),
    [
        ((Bead("g"), Knot("single")), "plain tail", "Measure from the first Glass to the end of the last one."),
        (
            (Knot("single"), Bead("g")),
            "bead tip and clasp",
            "Measure from the first knot to the end of the last one. Leave the bead tip out.",
        ),
        ((Space(5.0), Bead("g")), "plain tail", "Measure from where the bare cord begins to the end of the last one."),
    ],
)  # fmt: skip
def test_where_the_rulers_nought_lies(layout, start, words) -> None:
    assert where_from(plan_of(layout=layout, start=start), 0) == words
