"""What is typed at the prompt: what each line is taken for."""

from __future__ import annotations

import pytest

from companion.cli.lines.follower import ACTS
from companion.cli.lines.words import HELP, TYPED, understood


@pytest.mark.parametrize(
    ("typed", "taken"),
    [
        ("", ("", "")),
        ("3 3/8", ("length", "3 3/8")),
        ("86 mm", ("length", "86 mm")),
        ("⅜ in", ("length", "⅜ in")),
        (".5 in", ("length", ".5 in")),
        ("-3", ("length", "-3")),
        ("u", ("u", "")),
        ("U", ("U", "")),
        ("undo", ("u", "")),
        ("Redo", ("U", "")),
        ("UNDO", ("u", "")),
        ("c 14 1/2 in", ("c", "14 1/2 in")),
        ("c14 1/2", ("c", "14 1/2")),
        ("C 37 cm", ("c", "37 cm")),
        ("cord 37 cm", ("c", "37 cm")),
        ("n knots a little loose", ("n", "knots a little loose")),
        ("note 3 beads are chipped", ("n", "3 beads are chipped")),
        ("j 14", ("j", "14")),
        ("j14", ("j", "14")),
        ("jump middle:3", ("j", "middle:3")),
        ("o30cm", ("o", "30cm")),
        ("M", ("M", "")),
        ("M 2", ("M", "2")),
        ("readings", ("M", "")),
        ("?", ("?", "")),
        ("help", ("?", "")),
        ("q", ("q", "")),
        ("exit", ("q", "")),
        ("y", ("unknown", "y")),
        ("under", ("unknown", "under")),
        ("corduroy", ("unknown", "corduroy")),
        ("next", ("unknown", "next")),
        ("u14", ("unknown", "u14")),
        ("\x1b[A", ("unknown", "\x1b[A")),
    ],
)
def test_what_a_line_is_taken_for(typed, taken) -> None:
    assert understood(typed) == taken


def test_everything_that_can_be_typed_does_something_and_is_in_the_help() -> None:
    letters = {letter for letter, _, _ in TYPED}
    assert letters - {"q"} == set(ACTS) - {"", "length", "unknown"}
    names = [name for letter, others, _ in TYPED for name in (letter, *others)]
    assert len(names) == len(set(names))
    assert [line[0] for line in HELP[2:]] == [letter for letter, _, words in TYPED if words]
