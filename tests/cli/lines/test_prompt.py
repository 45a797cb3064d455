"""The prompt: a held Enter counts once, a pipe counts every line, nothing that is typed ends it."""

from __future__ import annotations

import io
import sys

import pytest

from companion.cli.lines.prompt import MOST_BYTES, Left, Prompt, prompt_on_input


class Hand(io.BytesIO):
    """Lines that are typed, each so many seconds after the prompt was there."""

    def __init__(self, *typed: tuple[str, float]) -> None:
        super().__init__("".join(f"{line}\n" for line, _ in typed).encode())
        self.now = 0.0
        self._after = [seconds for _, seconds in typed]

    def readline(self, size: int | None = -1, /) -> bytes:
        self.now += self._after.pop(0) if self._after else 0.0
        return super().readline(size)


def acts(hand: Hand, by_hand: bool = True, mark: str = "") -> list[str]:
    prompt = Prompt(hand, "utf-8", by_hand, 0.25, mark, clock=lambda: hand.now)
    done = []
    while True:
        try:
            done.append(prompt.next_act())
        except Left:
            return done


def test_enter_that_is_held_counts_once(capsys) -> None:
    held = [("", 2.0), *[("", 0.03)] * 30, ("", 1.5), ("", 0.1)]
    assert acts(Hand(*held)) == ["", ""]
    assert capsys.readouterr().out.count("It counts once") == 2  # once for each time that it was held


def test_two_steps_one_after_the_other_count_twice() -> None:
    assert acts(Hand(("", 2.0), ("", 0.3), ("", 0.26))) == ["", "", ""]


def test_what_is_typed_is_never_passed_over() -> None:
    assert acts(Hand(("3 3/8", 0.0), ("u", 0.01), ("", 0.01))) == ["3 3/8", "u"]


def test_a_pipe_counts_every_line() -> None:
    assert acts(Hand(*[("", 0.0)] * 5), by_hand=False) == [""] * 5


def test_the_mark_stands_where_a_line_is_typed_and_once_for_a_held_key(capsys) -> None:
    acts(Hand(("", 1.0)), by_hand=False)
    assert capsys.readouterr().out == ""
    acts(Hand(("", 1.0), ("", 1.0), ("u", 1.0)), mark="> ")
    assert capsys.readouterr().out == "> > > > \n"  # and the end of the input
    acts(Hand(("", 1.0), ("", 0.1), ("", 0.1), ("u", 0.1)), mark="> ")
    assert capsys.readouterr().out == "> > Enter came twice. It counts once.\n> \n"


@pytest.mark.parametrize(
    ("raw", "lines"),
    [
        (b"u", ["u"]),
        (b"  u \r\n", ["u"]),
        (b"\xff\xfe\n", ["��"]),
        (b"x" * (MOST_BYTES * 2 + 7) + b"\nu\n", ["x" * MOST_BYTES, "u"]),
        (b"", []),
    ],
)
def test_lines_of_any_kind(raw, lines) -> None:
    prompt, found = Prompt(io.BytesIO(raw), "utf-8", False, 0.0), []
    for _ in lines:
        found.append(prompt.answer())
    assert found == lines
    with pytest.raises(Left):
        prompt.answer()


class TypedIn(io.TextIOWrapper):
    """A terminal in which lines are typed at once."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("setting", "first"), [(5.0, "3 3/8"), (0.0, "")])
def test_a_held_enter_counts_once_for_as_long_as_it_is_set(monkeypatch, setting, first) -> None:
    monkeypatch.delenv("TALLYCORD_KEY_BOUNCE", raising=False)
    monkeypatch.setattr(sys, "stdin", TypedIn(io.BytesIO(b"\n3 3/8\n"), "utf-8"))
    assert prompt_on_input(setting).next_act() == first
