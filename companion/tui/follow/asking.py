"""What the maker is asked about a piece, and what the answers do to it. The questions come in when they are asked."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING, Protocol, TypeVar

from msgspec.structs import replace

from companion.core.journal.events import ReadingKind
from companion.core.values.text import sentences
from companion.core.words.finish_words import TAILS_TRIMMED
from companion.core.words.notices import Notice
from companion.tui.follow.session import MOVED_ON, NOBODY_ELSE, PieceSession

if TYPE_CHECKING:
    from companion.tui.dialogs.question import Question

T = TypeVar("T")


class Ask(Protocol):
    """Puts a question; gives back the answer, None where the maker leaves it."""

    async def __call__(self, question: Question[T], /) -> T | None: ...


async def ask_strand(session: PieceSession, ask: Ask, begin_with: str = "") -> None:
    """How long is the strand? `begin_with`: what is typed of it already."""
    await _ask_reading(session, ask, "strand", begin_with)


async def ask_free_cord(session: PieceSession, ask: Ask) -> None:
    """How long is the free cord? Nobody can say once the tails are trimmed."""
    if session.workshop.is_trimmed(session.opened):
        session.said = Notice("quiet", TAILS_TRIMMED)
        return
    await _ask_reading(session, ask, "free")


async def _ask_reading(session: PieceSession, ask: Ask, kind: ReadingKind, begin_with: str = "") -> None:
    from companion.tui.follow.questions import reading_question

    outlook, asked = await session.outlook(), session.opened
    question = reading_question(session.workshop, asked, outlook, kind)
    length = await ask(replace(question, begin_with=begin_with))
    if length is not None:
        session.measure(kind, length, asked.piece.done)  # the strand that lies on the ruler, whatever others do


async def ask_note(session: PieceSession, ask: Ask) -> None:
    """What is there to note?"""
    from companion.tui.follow.questions import note_question

    step = session.piece.done  # the one that the question names
    text = await ask(note_question(session.opened, session.note_kept))
    session.note_kept = ""
    if text is not None:
        session.note(text, step)


async def ask_jump(session: PieceSession, ask: Ask) -> None:
    """Up to which step is it really made?"""
    from companion.tui.follow.questions import jump_question

    to = await ask(jump_question(session.opened))
    if to is not None:
        session.change(lambda opened: session.workshop.jump(opened, to), "Jumped; u undoes it.")


async def ask_join(session: PieceSession, ask: Ask) -> None:
    """How much cord is joined on?"""
    from companion.core.words.measured.join_words import joint_words, more_cord
    from companion.tui.follow.questions import join_question

    outlook, asked = await session.outlook(), session.opened
    length = await ask(join_question(session.workshop, asked, outlook))
    if length is not None and session.piece != asked.piece:  # what it would reach was said of another place
        session.said = MOVED_ON
    elif length is not None:
        mm, text = length.mm, length.text
        said = sentences(more_cord(asked.plan, mm), joint_words(asked.plan, outlook), "u undoes it.")
        session.change(lambda opened: session.workshop.join(opened, mm, text), said)


async def ask_count(session: PieceSession, ask: Ask) -> None:
    """How many beads are there really?"""
    from companion.core.forecast.counting import stretch_to_count
    from companion.core.forecast.screen_set import screen_set
    from companion.core.words.measured.counting_words import count_notice, screen_set_words
    from companion.tui.follow.questions import recount_question, screen_or_beads_question

    plan, asked = session.plan, session.piece
    counted = stretch_to_count(plan, asked, await session.outlook())
    beads = await ask(recount_question(session.opened, counted))
    if beads is None:
        return
    off = beads - counted.beads
    right = screen_set(plan, asked, counted, off) if off else None
    which = await ask(screen_or_beads_question(plan, off, asked.done, right.to)) if right else 2
    if which is None:
        return
    if right and which == 1 and session.piece != asked:  # where the screen would be set was said of another place
        session.said = MOVED_ON
    elif right and which == 1:
        if session.change(lambda opened: session.workshop.set_screen(opened, right)):
            left_out = len(asked.readings) - len(session.piece.readings)
            session.said = Notice(
                "quiet", screen_set_words(plan, asked.done, right.to, left_out), action="u undoes it."
            )
    elif session.change(lambda opened: session.workshop.recount(opened, counted.step, counted.since, beads)):
        session.said = count_notice(off)


async def ask_take_over(session: PieceSession, ask: Ask) -> None:
    """Is the piece to be taken from the window that has it open?"""
    from companion.tui.follow.questions import take_over_question

    if not session.open_elsewhere:
        session.said = NOBODY_ELSE
    elif await ask(take_over_question()):
        session.take_over()


async def ask_ending(session: PieceSession, ask: Ask, begin_with: str = "") -> str:
    """How long did it come out, how much cord is left, and is the card to learn from it? Closes the piece, and gives
    back what is to be said of it; "" where it is not closed. `begin_with`: what is typed of the length already."""
    from companion.core.plan.leftover import leftover_mm
    from companion.core.values.measures.show_lengths import display_unit
    from companion.core.words.finish_words import left_words
    from companion.tui.follow.questions import EndLength, finish_question, learn_question, left_question

    plan, said = session.plan, [f"{session.plan.design} is finished."]
    scrap_mm = session.workshop.settings.scrap_mm
    length = await ask(replace(finish_question(session.opened), begin_with=begin_with))
    measured_mm = leftover_mm(plan, session.piece)  # before the tails were trimmed: not asked for again
    known = None if measured_mm is None else EndLength(measured_mm)
    left = None if length is None else known or await ask(left_question(session.opened, scrap_mm))
    if length is None or left is None:
        return ""
    await session.outlook()  # what the card would learn is told from it, at once
    taught = session.workshop.teaching(session.opened, length.mm, left.mm)
    learns = await ask(learn_question(taught)) if taught and taught.lessons else False
    if learns is None:
        return ""
    learnt = taught if learns else None
    if learnt:
        said.append(f"The card {learnt.card} is updated.")
    elif taught and taught.why_not:
        said.append(f"The card {taught.card} is not updated. {taught.why_not}")
    if left.mm is not None:
        said.append(left_words(left.mm, plan.strands[-1].layers, display_unit(plan.unit), scrap_mm))
    done = session.change(lambda opened: session.workshop.finish(opened, length.mm, left.mm, learnt))
    return " ".join(said) if done else ""


# Those that a key asks while the piece is open here, by the name that the key has for it.
QUESTIONS: dict[str, Callable[[PieceSession, Ask], Awaitable[None]]] = {
    "strand": ask_strand,
    "free cord": ask_free_cord,
    "note": ask_note,
    "jump": ask_jump,
    "join": ask_join,
    "count": ask_count,
}
