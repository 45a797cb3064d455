"""One piece, made at a prompt: Enter is a step, a number a reading. What is said is on disk by then."""

from __future__ import annotations

from collections.abc import Callable

from companion.cli.arguments import Wrong, step_of
from companion.cli.lines import questions
from companion.cli.lines.prompt import Left
from companion.cli.lines.session import LineSession
from companion.cli.lines.words import HELP, understood
from companion.cli.plan_text import plan_lines
from companion.cli.printing import is_told_in_sentences, say
from companion.core.journal.events import MOST_NOTE
from companion.core.values.errors import NotConfirmed, OpenElsewhere, Stale, WorkshopError
from companion.core.values.text import plain
from companion.core.words.step_words import step_name
from companion.core.words.undo_words import redone_words, undone_words

ELSEWHERE = "This piece is open in another window, so nothing can be saved here. Type h to take it over."
QUESTION_LEFT = (
    "That question is left. Enter marks the next step again; to be asked once more, type the same as before."
)
NOT_UNDERSTOOD = "That was not understood, and nothing was saved. Type ? for all that can be typed."


def follow(session: LineSession) -> int:
    """Follow the piece until it is finished or left; the exit code."""
    code = 0
    try:
        if session.workshop.take_lock(session.opened) == "elsewhere":
            say(ELSEWHERE)
        while session.opened.piece.state == "under way":
            letter, text = understood(session.prompt.next_act())
            if letter == "q":
                break
            if not letter and session.may_be_an_answer():
                session.asked = False
                session.say_nothing_is_marked()
            else:
                _act(session, letter, text)
    except Left:
        pass
    except KeyboardInterrupt:
        code = 130
    _say_left(session)
    return code


def _act(session: LineSession, letter: str, text: str) -> None:
    """Do what was typed. What can't be done is said, and the prompt comes again; so is that a question is left."""
    session.asked = session.enter_is_told = False
    try:
        ACTS[letter](session, text)
    except Stale as error:
        session.opened = session.workshop.refresh(session.opened)
        say(str(error))
        session.say_next()
    except OpenElsewhere:
        say(ELSEWHERE)
    except NotConfirmed as error:
        say(str(error))
        session.opened = session.workshop.refresh(session.opened)
        say(f"Saved so far: {session.stands()}")
    except (Wrong, WorkshopError) as error:
        say(str(error))
        if session.asked:
            say(QUESTION_LEFT)
            session.enter_is_told = True


def _say_left(session: LineSession) -> None:
    try:  # read anew: an act may have been cut short once it was written
        session.opened = session.workshop.open(session.opened.name)
    except WorkshopError as error:
        say(str(error))
        return
    if session.opened.piece.state == "under way":
        say(f"Left: {session.stands()} `tallycord follow --lines` goes on.")


# -- what can be typed ------------------------------------------------------------------------------------------------


def _step_done(session: LineSession, _: str) -> None:
    plan, done = session.opened.plan, session.opened.piece.done
    if done == plan.total_steps:
        questions.ask_ending(session)
        return
    session.opened = session.workshop.confirm(session.opened)
    say(f"Step {step_name(plan, done + 1)} done.")
    session.say_next()


def _length(session: LineSession, text: str) -> None:
    """A length by itself is what the strand measures; once every step is done, how long it came out."""
    if session.opened.piece.done == session.opened.plan.total_steps:
        questions.ask_ending(session, text)
    else:
        questions.ask_reading(session, "strand", text)


def _undo(session: LineSession, _: str) -> None:
    plan, act = session.opened.plan, session.opened.piece.act
    session.opened = session.workshop.undo(session.opened)
    say(undone_words(plan, act, session.opened.piece))
    session.say_next()


def _redo(session: LineSession, _: str) -> None:
    session.opened = session.workshop.redo(session.opened)
    say(redone_words(session.opened.plan, session.opened.piece))
    session.say_next()


def _withdraw(session: LineSession, _: str) -> None:
    session.opened = session.workshop.withdraw(session.opened)
    session.say_reading_turned()


def _note(session: LineSession, text: str) -> None:
    text = plain(text or session.ask("What is the note?"), MOST_NOTE)
    if not text:
        say("No note was saved.")
        return
    session.opened = session.workshop.note(session.opened, text)
    say("Noted.")


def _jump(session: LineSession, text: str) -> None:
    text = text or session.ask("Up to which step is the piece really done? Press Enter to leave the count as it is.")
    before = session.opened.piece.done
    if text:
        session.opened = session.workshop.jump(session.opened, step_of(session.opened.plan, text))
    moved = session.opened.piece.done != before
    say(f"Moved: {session.stands()} u undoes it." if moved else "Nothing moved.")
    session.say_next()


def _take_over(session: LineSession, _: str) -> None:
    if session.workshop.take_lock(session.opened, anyway=True) == "elsewhere":
        say("The piece could not be taken over. Check the permissions of the data folder.")
        return
    session.opened = session.workshop.refresh(session.opened)
    say("The piece is open here; another window can only watch it.")
    session.say_next()


def _say_all(*lines: str) -> None:
    for line in lines:
        say(line)


def _say_how(session: LineSession) -> None:
    _say_all(*questions.how_lines(session.opened, session.workshop.settings.hand == "left"))


ACTS: dict[str, Callable[[LineSession, str], object]] = {
    "": _step_done,
    "length": lambda session, text: _length(session, text),
    "m": lambda session, text: questions.ask_reading(session, "strand", text),
    "c": lambda session, text: questions.ask_reading(session, "free", text),
    "u": _undo,
    "U": _redo,
    "r": lambda session, _: questions.ask_count(session),
    "w": lambda session, _: questions.ask_ways_out(session),
    "s": lambda session, _: session.say_where_it_stands(),
    "k": lambda session, _: _say_how(session),
    "n": _note,
    "j": _jump,
    "o": lambda session, text: questions.ask_join(session, text),
    "x": _withdraw,
    "M": questions.ask_readings,
    "p": lambda session, _: _say_all(*plan_lines(session.opened.plan, for_the_ear=is_told_in_sentences())),
    "h": _take_over,
    "?": lambda *_: _say_all(*HELP),
    "unknown": lambda *_: say(NOT_UNDERSTOOD),
}
