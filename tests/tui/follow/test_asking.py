"""What the answers to the questions do to a piece, without an app: a maker who has them ready."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Recounted
from companion.tui.commands import FOLLOW
from companion.tui.dialogs.question import Question
from companion.tui.follow import asking
from companion.tui.follow.session import PieceSession


@pytest.fixture
def session(workshop, skerry) -> PieceSession:
    """Of a piece with twelve steps done."""
    session = PieceSession(workshop, workshop.jump(workshop.start(skerry), 15), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    return session


class Maker:
    """Answers one question after another: what is typed, or None to leave it. `meanwhile`: done before the answer."""

    def __init__(self, *answers: str | None, meanwhile=lambda: None) -> None:
        self.answers, self.meanwhile = list(answers), meanwhile
        self.asked: list[str] = []

    async def __call__(self, question: Question, /):
        self.asked.append(question.prompt)
        self.meanwhile()
        answer = self.answers.pop(0)
        return None if answer is None else question.judge(answer).value


async def test_a_reading_is_of_the_step_that_was_asked_about(session, other_window) -> None:
    maker = Maker("82 mm", meanwhile=lambda: other_window.confirm(session.opened))
    await asking.ask_strand(session, maker)
    assert maker.asked[0].startswith("After step 15 the strand should measure ")
    assert [(one.step, one.length_mm, one.typed) for one in session.piece.readings] == [(15, 82.0, "82 mm")]
    assert session.piece.done == 16


async def test_the_free_cord_is_measured_a_layer(session) -> None:
    maker = Maker("14 in")
    await asking.ask_free_cord(session, maker)
    assert maker.asked[0].startswith("After step 15 the leftover cord should measure")
    assert [(one.kind, one.length_mm) for one in session.piece.readings] == [("free", pytest.approx(14 * 25.4))]


@pytest.mark.parametrize(
    "ask", [asking.ask_strand, asking.ask_note, asking.ask_jump, asking.ask_join, asking.ask_count, asking.ask_ending]
)
async def test_a_question_that_is_left_changes_nothing(session, ask) -> None:
    before = session.opened
    await ask(session, Maker(None))
    assert session.opened is before


async def test_a_jump_to_the_first_step_is_one(session) -> None:
    await asking.ask_jump(session, Maker("0"))
    assert session.piece.done == 0
    assert str(session.said) == "Jumped; u undoes it."


async def test_cord_is_not_joined_on_a_piece_that_has_moved_on(session) -> None:
    await asking.ask_join(session, Maker("20 cm", meanwhile=session.confirm))
    assert session.piece.joins == ()
    assert "changed while you typed" in str(session.said)
    await asking.ask_join(session, Maker("20 cm"))
    assert [join.added_mm for join in session.piece.joins] == [200.0]


@pytest.mark.parametrize(("typed", "off", "words"), [("", 0, "Count agrees"), ("9", -1, "One fewer than")])
async def test_beads_are_counted_as_many_as_there_should_be_or_others(session, typed, off, words) -> None:
    maker = Maker(typed, *["2"] * abs(off))
    await asking.ask_count(session, maker)
    assert maker.asked[0] == (
        "Steps 1 to 15 should hold 10 beads. Back from the last bead done: 10 Sea-glass rounds, to the start. "
        "How many are there?"
    )
    assert [one.beads for one in session.piece.counted] == [off]
    assert str(session.said).startswith(words)


async def test_a_bead_that_is_missing_further_back_takes_back_no_more_steps_than_it(session) -> None:
    """The beads of steps 11 to 15 are counted at step 19: the screen may be one ahead, and then 18 steps are done."""
    workshop = session.workshop
    session.change(lambda opened: workshop.measure(opened, "strand", 42.0, "42 mm", 10))
    session.change(lambda opened: workshop.measure(opened, "strand", 74.0, "74 mm", 15))
    session.change(lambda opened: workshop.jump(opened, 19))
    maker = Maker("4", "1")
    await asking.ask_count(session, maker)
    assert maker.asked[0].startswith("Steps 11 to 15 should hold 5 beads.")
    assert "1  The screen is ahead: set it back from step 19 to 18." in maker.asked[1]
    assert session.piece.done == 18
    assert str(session.said) == "The screen is set back from step 19 to 18. u undoes it."
    assert [one.step for one in session.piece.readings] == [10, 14]  # what was read since belongs a step earlier
    assert session.piece.counted == (Recounted(14, 10),)
    assert session.workshop.outlook(session.opened).verdict == "on plan"
    session.undo()
    assert (session.piece.done, [one.step for one in session.piece.readings]) == (19, [10, 15])


async def test_the_screen_is_not_set_from_where_it_stood_before(session, other_window) -> None:
    """Another window went on while the question was there."""
    maker = Maker("9", "1", meanwhile=lambda: other_window.confirm(other_window.open(session.opened.name)))
    await asking.ask_count(session, maker)
    assert session.piece.counted == ()
    assert session.workshop.refresh(session.opened).piece.done == 17


async def test_a_note_that_was_kept_begins_the_next_question(session) -> None:
    session.note_kept = "tight"
    begins = []

    async def maker(question: Question, /):
        begins.append(question.begin_with)
        return question.judge(question.begin_with).value

    await asking.ask_note(session, maker)
    assert begins == ["tight"]
    assert (session.note_kept, [note.text for note in session.piece.notes]) == ("", ["tight"])


async def test_nobody_to_take_the_piece_from(session) -> None:
    await asking.ask_take_over(session, Maker())
    assert str(session.said) == "This piece is open in no other window."


async def test_a_piece_is_closed_with_or_without_its_lengths(session) -> None:
    assert session.change(lambda opened: session.workshop.jump(opened, 33))
    assert await asking.ask_ending(session, Maker("", "")) == "Skerry bracelet is finished."
    assert (session.piece.state, session.piece.finished_mm) == ("finished", None)
    session.undo()
    said = await asking.ask_ending(session, Maker("202 mm", "23 cm"))
    assert said.startswith("Skerry bracelet is finished. 9 1/16 in of each cord left")
    assert session.piece.finished_mm == 202.0


def test_every_key_that_asks_has_its_question_and_the_reverse() -> None:
    asked = [command.action for command in FOLLOW if command.action.startswith("ask(")]
    assert sorted(asked) == sorted(f"ask('{name}')" for name in asking.QUESTIONS)


async def test_no_leftover_is_asked_for_once_the_tails_are_trimmed(session) -> None:
    session.change(lambda opened: session.workshop.jump(opened, 33))
    maker = Maker()
    await asking.ask_free_cord(session, maker)
    assert maker.asked == []
    assert session.said is not None
    assert "The tails are trimmed" in session.said.text
