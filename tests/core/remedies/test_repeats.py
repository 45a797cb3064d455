"""So many repeats more or fewer."""

from __future__ import annotations

from companion.core.values.design import (
    Repeat,
)
from tests.core.remedies.off_plan import D, G, K, S, aimed, family, planned, what_to_do


def test_two_and_three_more_when_it_is_far_off() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    for more, word in ((2, "Two"), (3, "Three")):
        _, _, found = what_to_do(aimed(plan, 200.0 + 8 * more), 10)
        assert family(found, "repeats").text.startswith(f'{word} more "glass, single knot"')


def test_a_repeat_of_several_steps_changes_as_a_whole() -> None:
    plan = planned((Repeat(8, (G, K, G, K, S, K)),), 160.0)
    _, _, found = what_to_do(aimed(plan, 180.0), 7)
    one = family(found, "repeats")
    assert len(one.rests[0].elements) - len(plan.strands[0].elements) + one.rests[0].made == 6
    assert one.rests[0].elements[:6] in {(G, K, G, K, S, K), (G, K, S, K, G, K), (S, K, G, K, G, K)}


def test_a_repeat_is_named_thing_by_thing_with_every_knot() -> None:
    """A repeat named by its last knot alone would leave the first one out."""
    plan = planned((Repeat(9, (G, D, S, K)),), 160.0)
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm + 13), 6)
    assert '"glass, double knot, silver, single knot"' in family(found, "repeats").what.replace(
        '"silver, single knot, glass, double knot"', '"glass, double knot, silver, single knot"'
    )


def test_two_alike_beside_each_other_are_said_to_break_the_pattern() -> None:
    plan = planned((Repeat(9, (G, K, S, K)),), 160.0)
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm - 8), 6)
    told = [one.what for one in found if one.family[0] == "repeats"]
    assert '"glass, single knot" from here on. Two silvers then lie together: this breaks the pattern' in "; ".join(
        told
    )
    assert not any("breaks" in what for what in told if '"glass, single knot, silver, single knot"' in what)
