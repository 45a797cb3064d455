"""So many repeats more or fewer."""

from __future__ import annotations

from companion.core.values.design import (
    Repeat,
)
from tests.core.remedies.off_plan import G, K, S, aimed, family, planned, what_to_do


def test_two_and_three_more_when_it_is_far_off() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    for more, word in ((2, "Two"), (3, "Three")):
        _, _, found = what_to_do(aimed(plan, 200.0 + 8 * more), 10)
        assert family(found, "repeats").text.startswith(f"{word} more of «glass, then a single knot»")


def test_a_repeat_of_several_steps_changes_as_a_whole() -> None:
    plan = planned((Repeat(8, (G, K, G, K, S, K)),), 160.0)
    _, _, found = what_to_do(aimed(plan, 180.0), 7)
    one = family(found, "repeats")
    assert len(one.rests[0].elements) - len(plan.strands[0].elements) + one.rests[0].made == 6
    assert one.rests[0].elements[:6] in {(G, K, G, K, S, K), (G, K, S, K, G, K), (S, K, G, K, G, K)}
