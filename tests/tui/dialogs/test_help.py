"""The help: keys by the names on a keyboard, marks, and the letters of a piece's beads."""

from __future__ import annotations

import pytest

from companion.tui.commands import FOLLOW, HELP, UNDO, grouped
from companion.tui.dialogs.help import KEYS_COLUMN, key_text, marks_text
from companion.tui.moving import TextScroll
from tests.tui.screens import until, until_seen


def test_keys_are_called_as_on_a_keyboard_and_at_most_two_are_named() -> None:
    assert key_text(UNDO).startswith("u, Backspace ")
    assert key_text(HELP).startswith("?, F1 ")
    assert all(key_text(command)[KEYS_COLUMN:] == command.text for command in FOLLOW)


def test_the_beads_of_the_piece_have_their_letters(workshop, skerry) -> None:
    plan = workshop.start(skerry).plan
    without, told = (" ".join(line.text for line in marks_text(one)) for one in (None, plan))
    assert "Sea-glass round" in told
    assert "Sea-glass round" not in without


def test_the_help_is_grouped_and_names_every_command_once() -> None:
    groups = grouped(FOLLOW)
    assert [title for title, _ in groups] == ["Making", "Measuring", "Trouble", "Looking", "Leaving"]
    listed = [command for _, some in groups for command in some]
    assert sorted(command.keys for command in listed) == sorted(command.keys for command in FOLLOW)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_help_of_the_steps_is_in_sight_at_once_with_all_its_keys(app, size) -> None:
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "question_mark")
        text = " ".join((await until_seen(pilot, "Leaving")).split())
        assert app.screen.query_one(TextScroll).max_scroll_y == 0
        for command in FOLLOW:
            words = command.in_brief if size[0] < 120 else command.text
            assert all(word in text for word in (command.shown, *words.split())), command
        for words in ("of this step", "ways out", "needs attention now", "Sea-glass round", "Silver daisy"):
            assert words in text
        assert "more below" not in text


async def test_a_help_that_is_longer_than_the_screen_says_so(app) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "question_mark")
        await until_seen(pilot, "Page Down more below")
        await pilot.press("pagedown")
        await until(pilot, lambda: app.screen.query_one(TextScroll).scroll_y > 0)


def test_the_marks_of_the_bench_are_those_it_has() -> None:
    told = " ".join(line.text for line in marks_text())
    assert "● ○" in told
    assert "▲" in told
    assert "of this step" not in told
