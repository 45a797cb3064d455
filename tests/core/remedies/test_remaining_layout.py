"""A strand with what is made of it: its mirror, and changes in pairs."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from companion.core.journal.piece import Piece
from companion.core.plan.replan import changed_plan
from companion.core.remedies.remaining_layout import RemainingLayout, longest_palindrome
from companion.core.values.design import (
    Repeat,
)
from tests.core.remedies.off_plan import G, K, S, aimed, mirror_plan, planned, what_to_do, whole


@given(st.lists(st.sampled_from("ab"), max_size=25))
def test_the_longest_part_that_reads_alike(items) -> None:
    """Against every part, one by one."""
    begin, end = longest_palindrome(items)
    assert items[begin:end] == items[begin:end][::-1]
    parts = [(b, e) for b in range(len(items)) for e in range(b, len(items) + 1)]
    assert end - begin == max((e - b for b, e in parts if items[b:e] == items[b:e][::-1]), default=0)


def test_before_the_middle_a_mirror_changes_in_pairs() -> None:
    plan = mirror_plan()
    off = aimed(plan, plan.finished_length_mm + 16)
    _, _, found = what_to_do(off, 6)
    one = next(one for one in found if one.family == ("repeats",))
    assert one.text.startswith('One more "glass, single knot" on each side. ')
    assert not one.uneven
    new = changed_plan(off, (one.event(0),)).strands[0].elements
    assert new == new[::-1]
    assert new.count(G) == plan.strands[0].elements.count(G) + 2
    middle = len(new) // 2
    assert new[middle - 2 : middle + 3] == (S, K, G, K, S)  # the middle and what stands beside it are as they were


def test_past_the_middle_it_says_that_the_sides_will_differ() -> None:
    plan = mirror_plan()
    off = aimed(plan, plan.finished_length_mm + 8)
    _, _, found = what_to_do(off, 14)
    number = next(n for n, one in enumerate(found) if one.family == ("repeats",))
    assert found[number].uneven
    assert ". The two sides will then differ. " in found[number].text
    ends = [one for one in found if one.family[0] in ("bare", "spacer")]  # at one end only: they show as well
    assert ends
    assert all(". The two sides will then differ. " in one.text for one in ends)


def test_sides_worked_from_the_middle_change_in_pairs() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm - 16)
    _, _, found = what_to_do(off, 4)
    one = next(one for one in found if one.family == ("repeats",))
    assert one.text.startswith('One fewer "glass, single knot" on each side')
    assert {rest.entry for rest in one.rests} == {0, 1}
    new = changed_plan(off, (one.event(0),))
    elements = whole(new, (0, 1))
    assert elements == elements[::-1]
    assert [len(strand.elements) for strand in new.strands] == [len(s.elements) - 2 for s in plan.strands]


def test_the_second_side_alone_can_change_when_the_first_is_made() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm - 8)
    done = len(plan.strands[0].steps) + 3
    _, _, found = what_to_do(off, done)
    assert all(rest.entry == 1 for one in found for rest in one.rests)
    assert any(one.uneven for one in found)


def test_the_same_beads_over_and_over_promise_no_mirror() -> None:
    plan = planned((Repeat(20, (K, G)), K), 162.0)
    assert RemainingLayout.of(plan, Piece(plan.total_steps, 0), plan.longest).mirror is None
    _, _, found = what_to_do(aimed(plan, 170.0), 12)
    assert not any(one.uneven for one in found)
