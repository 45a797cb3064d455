"""The help: keys by the names on a keyboard, marks, and the letters of a piece's beads."""

from __future__ import annotations

from companion.tui.commands import FOLLOW, HELP, UNDO, grouped
from companion.tui.dialogs.help import KEYS_COLUMN, key_text, marks_text


def test_keys_are_called_as_on_a_keyboard_and_at_most_two_are_named() -> None:
    assert key_text(UNDO).startswith("u, Backspace ")
    assert key_text(HELP).startswith("?, F1 ")
    assert all(key_text(command)[KEYS_COLUMN:] == command.text for command in FOLLOW)


def test_the_beads_of_the_piece_have_their_letters(workshop, skerry) -> None:
    plan = workshop.start(skerry).plan
    without, told = ([line.text for line in marks_text(one)] for one in (None, plan))
    assert told[: len(without)] == without
    assert "Sea-glass round" in " ".join(told)


def test_the_help_is_grouped_and_names_every_command_once() -> None:
    groups = grouped(FOLLOW)
    assert [title for title, _ in groups] == ["Making", "Measuring", "Trouble", "Looking", "Leaving"]
    listed = [command for _, some in groups for command in some]
    assert sorted(command.keys for command in listed) == sorted(command.keys for command in FOLLOW)
