"""The search for the count that fits: what it costs. That it finds the right one is looked at in test_planner.py."""

from __future__ import annotations

import pytest

from companion.core.cord.cord import cord_of
from companion.core.plan.fit import Measure, choose_fit
from companion.core.values.design import Bead, BeadKind, BeadRun, CordDesign, Design, Knot, Repeat, Size, Strand


class Looked(tuple):
    """A layout that counts how often it is looked through."""

    times = 0

    def __iter__(self):
        self.times += 1
        return super().__iter__()


@pytest.mark.parametrize(
    ("item", "size"),
    [
        (Repeat(None, (Bead("b"), Knot("single"))), Size("wrist", 900_000.0)),
        (BeadRun("b", None, 3), Size("length", 500_000.0)),
    ],
)
def test_however_long_the_search_each_layout_is_looked_through_but_twice(item, size) -> None:
    """The whole layout was counted anew at every count: two dozen times for a wrist of a kilometre."""
    layout = Looked((item, Bead("b")))
    cord, beads = CordDesign("c", 0.7), (BeadKind("b", "Bead", 8.0, 8.0),)
    measure = Measure(Design("Long light", cord, beads, (Strand(layout),), size), cord_of(cord))
    assert choose_fit(measure) > 40_000
    assert layout.times <= 2
