"""A key that is held or bounces counts once; a digit begins a reading; each step says what was marked."""

from __future__ import annotations

import pytest

from companion.core.values.settings import BOUNCE_SECONDS
from companion.tui.follow.bounce import KeyBounce
from companion.tui.follow.screen import FollowScreen
from companion.workshop.key_bounce import bounce_seconds
from tests.tui.screens import until, until_seen


class Watch:
    def __init__(self) -> None:
        self.at = 0.0

    def __call__(self) -> float:
        return self.at


def test_a_held_key_counts_once_however_long_it_is_held() -> None:
    watch = Watch()
    bounce = KeyBounce(BOUNCE_SECONDS, watch)
    counted = []
    for press in range(60):  # two seconds of a key that repeats every 33 ms
        watch.at = 1 + press * 0.033
        counted.append(bounce.counts("space"))
    assert counted == [True] + [False] * 59
    watch.at += BOUNCE_SECONDS
    assert bounce.counts("space")


def test_another_key_has_a_time_of_its_own() -> None:
    bounce = KeyBounce(BOUNCE_SECONDS, Watch())
    assert bounce.counts("space")
    assert bounce.counts("pagedown")
    assert not bounce.counts("space")


@pytest.mark.parametrize(
    ("typed", "seconds"), [("", BOUNCE_SECONDS), ("0", 0.0), ("1.5", 1.5), ("soon", BOUNCE_SECONDS)]
)
def test_the_time_can_be_set(monkeypatch, typed, seconds) -> None:
    monkeypatch.setenv("TALLYCORD_KEY_BOUNCE", typed)
    assert bounce_seconds(BOUNCE_SECONDS) == seconds


async def test_a_bouncing_space_makes_one_step(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        app.screen.bounce = KeyBounce(BOUNCE_SECONDS, Watch())
        await pilot.press("space", "space", "space", "space")
        await until_seen(pilot, "Step 1 done.")
        assert app.screen.opened.piece.done == 1


async def test_a_digit_begins_a_reading_and_a_step_says_what_was_marked(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        steps = app.screen.session.plan.strands[0].steps
        first = next(step.number for step in steps if step.kind == "string" and step.beads)
        await pilot.press(*["space"] * first)
        await until_seen(pilot, f"Step {first} done: G knot.")
        await pilot.press("1", "0", "space", "m", "m")
        await until_seen(pilot, "10 mm")
        await pilot.press("enter")
        await until(pilot, lambda: [one.length_mm for one in app.screen.opened.piece.readings] == [10.0])


@pytest.mark.parametrize("dialog", [("m", "enter"), ("k", "escape"), ("question_mark", "escape")])
async def test_a_key_right_after_a_dialog_closed_marks_nothing(app, monkeypatch, dialog) -> None:
    opens, closes = dialog
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        follow = app.screen
        await pilot.press("space")
        await until_seen(pilot, "Step 1 done.")
        follow.bounce.seconds = 600.0  # so that a slow machine makes no difference
        await pilot.press(opens)
        await until(pilot, lambda: app.screen is not follow)
        await pilot.press(*(["1", "space", "m", "m"] if opens == "m" else []), closes)
        await until(pilot, lambda: app.screen is follow)
        await pilot.press("space", "enter", "pagedown", "n")
        await until(pilot, lambda: app.screen is not follow)
        assert follow.opened.piece.done == 1
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is follow)
        follow.bounce.seconds = 0.0
        await pilot.press("space")
        await until(pilot, lambda: follow.opened.piece.done == 2)
