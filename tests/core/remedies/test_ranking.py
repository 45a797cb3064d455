"""Which remedies are listed, and in what order."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.remedies.ranking import ranked
from companion.core.remedies.remedy import Remedy


def offer(name, p, effort, **more):
    return Remedy(name, name, 200.0, 3.0, p, 0.0, 0.0, family=(name,), effort=effort, **more)


def test_chances_about_equal_go_by_what_changes_least() -> None:
    found = [offer("much", 0.90, 5), offer("little", 0.87, 1), offer("worse", 0.80, 0.5), offer("none", 0.02, 0)]
    assert [one.what for one in ranked(found)] == ["little", "much", "worse"]


def test_sides_that_differ_and_going_back_come_after_what_is_nearly_as_good() -> None:
    found = [offer("uneven", 0.9, 1, uneven=True), offer("back", 0.9, 1, back_to=3), offer("even", 0.8, 4)]
    assert ranked(found)[0].what == "even"


def test_a_length_is_put_right_before_cord_that_can_still_be_joined_on() -> None:
    right = replace(offer("repeats", 0.9, 1), p_run_out=0.6)
    joined = replace(offer("join", 0.1, 4), join=True, p_run_out=0.01)
    assert ranked([joined, right]) == (right, joined)
    assert ranked([replace(joined, p_in_tolerance=0.9), right])[0].join


def test_what_hardly_helps_is_listed_only_where_nothing_is_better() -> None:
    poor, poorer, good = offer("poor", 0.15, 1), offer("poorer", 0.12, 1), offer("good", 0.3, 5)
    assert ranked([poor, good]) == (good,)
    assert set(ranked([poor, poorer])) == {poor, poorer}


def test_new_cord_has_nothing_to_do_with_the_length() -> None:
    joined = replace(offer("join", 0.05, 4), join=True)
    assert joined in ranked([joined, offer("good", 0.9, 1)])
    assert set(ranked([joined, offer("poor", 0.15, 1)])) == {joined, offer("poor", 0.15, 1)}


def test_another_tension_comes_first() -> None:
    tension = replace(offer("tension", 0.5, 1), advice=True)
    assert ranked([offer("repeats", 0.9, 1), tension])[0] == tension


def test_of_the_same_thing_done_more_or_less_the_better_one_is_listed() -> None:
    one, other = offer("repeats", 0.5, 1), replace(offer("repeats", 0.9, 2), text="two")
    assert ranked([one, other]) == (other,)
