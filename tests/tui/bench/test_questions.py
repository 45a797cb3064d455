"""What the bench asks about a piece: a name is judged while it is typed."""

from __future__ import annotations

import pytest

from companion.tui.bench.questions import put_away_question, rename_question
from tests.tui.bench.pieces import piece

HERS, OTHER = piece("skerry-bracelet", 9, 28), piece("For Bea", 3, 28, number=2)


@pytest.mark.parametrize(
    ("typed", "name", "said"),
    [
        ("For Anna", "For Anna", 'Commands find it as "for-anna" too.'),
        ("  For Anna ", "For Anna", 'Commands find it as "for-anna" too.'),
        ("for bea", None, "Another piece is named For Bea. Give this one a name of its own."),
        ("skerry-bracelet", None, "Type another name, or press Esc to keep this one."),
        ("", None, "Type another name, or press Esc to keep this one."),
        ("a/b", None, "A name has no slash in it: it would look like a file."),
        ("46 cm", None, "46 cm would be read as a length. Add a word to it."),
    ],
)
def test_a_new_name(typed, name, said) -> None:
    judged = rename_question(HERS, (HERS, OTHER)).judge(typed)
    assert judged.value == name
    assert " ".join(map(str, judged.lines)) in (said, f"▲ {said}", f"△ {said}")


def test_the_question_begins_with_the_name_it_has() -> None:
    question = rename_question(HERS, (HERS, OTHER))
    assert question.begin_with == "skerry-bracelet"
    assert question.prompt == "A new name for skerry-bracelet:"


def test_putting_away_asks_for_no_reason_and_takes_any() -> None:
    question = put_away_question(HERS)
    assert question.prompt.startswith("Put skerry-bracelet away?")
    assert [question.judge(text).value for text in ("", " no more\x1b teal ")] == ["", "no more teal"]
