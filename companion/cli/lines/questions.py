"""What is asked at the prompt, and what the answers do: readings, counts, ways out, the end of the piece."""

from __future__ import annotations

from collections.abc import Iterator

from companion.cli.arguments import Wrong, whole_number
from companion.cli.lines.session import LineSession
from companion.cli.lines.words import ANSWERS
from companion.cli.piece_report import LEAST_JOINED_MM, layer_cut_mm
from companion.cli.printing import say
from companion.cli.typed_lengths import fitting_length_mm
from companion.core.forecast.counting import stretch_to_count
from companion.core.forecast.screen_set import screen_set
from companion.core.journal.events import Measured, ReadingKind
from companion.core.journal.fold import after
from companion.core.plan.leftover import leftover_mm
from companion.core.remedies.remedy_words import best_is_poor, chosen_notice, joins_alone, remedy_line
from companion.core.tying.knot_picture import in_words
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import capitalised, plain, sentences
from companion.core.words.finish_words import TAILS_TRIMMED, can_be_right, finish_line, left_words
from companion.core.words.measured.counting_words import (
    count_words,
    screen_set_words,
    stretch_words,
    which_is_it,
)
from companion.core.words.measured.expected_words import expected_between, where_leftover
from companion.core.words.measured.join_words import join_advice, joint_words, more_cord
from companion.core.words.measured.reading_list_words import NONE_YET, reading_line
from companion.core.words.measured.reading_words import (
    expected_reading,
    planned_reading_mm,
    reading_doubt,
    reading_lines,
    where_from,
)
from companion.core.words.measured.ways_words import ways_lines
from companion.core.words.step_words import step_name, step_sentence, stringing_words
from companion.core.words.trade.asked_for import asked_for, closure_shown
from companion.core.words.trade.knot_lore import lore_at
from companion.workshop import OpenPiece, Teaching

FAR_FROM_PLAN = "That is far from the plan."
NOT_COUNTED = "The count was not taken."
ONE_OR_TWO = "Type 1 or 2; anything else takes no count."
COUNT = "count"  # what is ahead or behind where there is no screen
FAR_BEADS = 2  # a count further off than so many is asked about once more


def ask_reading(session: LineSession, kind: ReadingKind, text: str) -> None:
    """Take a reading: what was typed, or the answer. One that can hardly be right is asked about first."""
    opened, workshop = session.opened, session.workshop
    plan, piece, outlook = opened.plan, opened.piece, workshop.outlook(opened)
    if kind == "free" and workshop.is_trimmed(opened):
        say(TAILS_TRIMMED)
        return
    text = text or session.ask(*_expected_words(session, kind))
    if not text:
        say("No reading was taken.")
        return
    mm = fitting_length_mm(text, plan, lambda mm: reading_doubt(plan, piece, outlook, kind, mm) is None)
    reading = Measured(kind, piece.done, mm, plain(text, 40), workshop.ruler_step_mm(plan.unit))
    supposed = workshop.suppose(opened, after(piece, reading))
    doubt = reading_doubt(plan, piece, outlook, kind, mm, supposed, COUNT, ANSWERS)
    if doubt and not session.agrees(doubt):
        say("The reading was not taken.")
        return
    session.opened = workshop.take_readings(opened, [reading])
    what = "The strand measures" if kind == "strand" else "The leftover cord measures"
    at = f"after step {step_name(plan, piece.done)}" if piece.done else "before the first step"
    say(f"{what} {show(mm, display_unit(plan.unit))} {at}.")
    say(str(reading_lines(plan, piece, outlook, supposed, kind, mm, ANSWERS, COUNT)[0]))
    session.say_after_reading(of_cord=kind == "free")


def _expected_words(session: LineSession, kind: ReadingKind) -> tuple[str, str]:
    opened = session.opened
    plan, piece = opened.plan, opened.piece
    expected = expected_reading(plan, piece, session.workshop.outlook(opened), kind)
    between = expected_between(plan, kind, expected, planned_reading_mm(plan, piece.done, kind))
    if kind == "free":
        return f"{between} {where_leftover(plan, piece.done)}", "What does the ruler say?"
    where = where_from(plan, plan.place(piece.done)[0] if piece.done else 0, piece.done)
    return f"{between} {where}", "What does the ruler say?"


def ask_join(session: LineSession, text: str = "") -> None:
    """New cord is joined on: where, and how much."""
    opened, workshop = session.opened, session.workshop
    text = text or session.ask(
        join_advice(opened.plan, workshop.outlook(opened)),
        "How much longer is each cord now? Do not count the overlap.",
    )
    if not text:
        say("No cord was joined on.")
        return
    most_mm = layer_cut_mm(opened)
    added_mm = fitting_length_mm(text, opened.plan, lambda mm: LEAST_JOINED_MM <= mm <= most_mm, above_zero=True)
    shows = joint_words(opened.plan, workshop.outlook(opened))
    session.opened = workshop.join(opened, added_mm, plain(text, 40))
    say(sentences(more_cord(opened.plan, added_mm), shows, "u undoes it."))
    session.say_verdicts(of_cord=True)


def ask_count(session: LineSession) -> None:
    """How many beads are there really? Another number than planned may be the screen's fault: that is asked too."""
    opened, workshop = session.opened, session.workshop
    plan, piece = opened.plan, opened.piece
    counted = stretch_to_count(plan, piece, workshop.outlook(opened))
    text = session.ask(
        f"{stretch_words(plan, counted, piece.done)} How many are there? Press Enter for {counted.beads}."
    )
    beads = whole_number(text, "a number of beads") if text else counted.beads
    off = beads - counted.beads
    if abs(off) > FAR_BEADS and not session.agrees(FAR_FROM_PLAN):
        say(NOT_COUNTED)
        return
    right = screen_set(plan, piece, counted, off) if off else None
    which = session.ask(*which_is_it(plan, off, piece.done, right.to, COUNT), ONE_OR_TWO) if right else "2"
    if right and which == "1":
        session.opened = workshop.set_screen(opened, right)
        left_out = len(piece.readings) - len(session.opened.piece.readings)
        say(f"{screen_set_words(plan, piece.done, right.to, left_out, COUNT)} {session.stands()} u undoes it.")
        session.say_next()
    elif which == "2":
        session.opened = workshop.recount(opened, counted.step, counted.since, beads)
        say(count_words(off))
        session.say_verdicts()
    else:
        say(NOT_COUNTED)


def ask_readings(session: LineSession, text: str = "") -> None:
    """All readings; the one of the number that is typed is taken out, or put back."""
    opened, workshop = session.opened, session.workshop
    if not text:
        for one in workshop.readings(opened):
            say(reading_line(opened.plan, one.listed, f"{one.at.astimezone():%Y-%m-%d %H:%M}"))
        if not opened.piece.all_readings:
            say(NONE_YET)
            return
        text = session.ask("Which number is to be taken out, or put back? Press Enter to change nothing.")
    if not text:
        say("Nothing is changed.")
        return
    session.opened = workshop.turn_reading(opened, whole_number(text, "the number of a reading"))
    session.say_reading_turned()


def ask_ways_out(session: LineSession) -> None:
    """What would help; one of it is chosen by its number."""
    opened, workshop = session.opened, session.workshop
    found = workshop.remedies(opened, nearer=True)
    outlook, alone = workshop.outlook(opened), joins_alone(found)
    for line in ways_lines(opened.plan, opened.piece, outlook, bool(found), ANSWERS, COUNT, alone):
        say(line)
    if not found:
        return
    for number, remedy in enumerate(found, start=1):
        say(f"{number}: {remedy_line(opened.plan, remedy)}")
    if best_is_poor(found):
        say(best_is_poor(found))
    text = session.ask("Which number? Press Enter to change nothing.")
    if not text:
        say("Nothing is changed.")
        return
    number = whole_number(text, "the number of a way out")
    if not 1 <= number <= len(found):
        raise Wrong(f"There is no number {number}; there are {len(found)}. Nothing is changed.")
    chosen = found[number - 1]
    if chosen.join:
        ask_join(session)
        return
    session.opened = workshop.choose(opened, chosen)
    say(chosen_notice(chosen, "u").text)
    session.say_next()


def how_lines(opened: OpenPiece, left_handed: bool = False) -> Iterator[str]:
    """How the present step is done, and how its knot is tied; what the drawing of it shows is said."""
    plan, done = opened.plan, opened.piece.done
    if done == plan.total_steps:
        yield "Every step is done."
        return
    entry, number = plan.place(done + 1)
    strand = plan.strands[entry]
    step = strand.steps[number - 1]
    yield step_sentence(step)
    if order := stringing_words(plan, strand, number):
        yield order
    for asked in asked_for(plan, entry, step, left_handed):
        yield f"{capitalised(asked.name)}:"
        yield from (text for _, texts in asked.parts[:1] for text in texts)
    if step.knot is None:
        if closure := closure_shown(plan, entry, step, left_handed):
            yield f"{capitalised(closure.name)}: {in_words(closure)}"
        return
    told = lore_at(plan, entry, step, left_handed)
    yield f"{told.title}: {in_words(told.shown)}"
    yield from (f"{place}: {text}" for place, text in enumerate(told.steps, start=1))
    yield "What goes wrong:"
    yield from told.mistakes


def ask_ending(session: LineSession, text: str = "") -> None:
    """How long it came out, how much cord is left, whether the card is to learn from it; then the piece is finished.
    `text`: the length, where it is typed already."""
    opened, workshop = session.opened, session.workshop
    plan, first_plan, unit = opened.plan, opened.first_plan or opened.plan, display_unit(opened.plan.unit)
    text = text or session.ask(
        "How long did it come out, end to end when closed? Press Enter if you have not measured it."
    )
    finished_mm = None
    if text:
        finished_mm = fitting_length_mm(text, first_plan, lambda mm: can_be_right(first_plan, mm), above_zero=True)
        if not can_be_right(first_plan, finished_mm) and not session.agrees(FAR_FROM_PLAN):
            say("The piece is not finished yet. Press Enter to be asked again.")
            session.enter_is_told = True
            return
        say(finish_line(first_plan, finished_mm))
    left_mm = leftover_mm(plan, opened.piece)  # measured before the tails were trimmed: not asked for again
    if left_mm is None:
        left_mm = _left_mm(session)
    taught = workshop.teaching(opened, finished_mm, left_mm)
    learns = taught if taught and taught.lessons and _learns(session, taught) else None
    session.opened = workshop.finish(opened, finished_mm, left_mm, learns)
    if left_mm is not None:
        say(left_words(left_mm, plan.strands[-1].layers, unit, workshop.settings.scrap_mm))
    if learns:
        say(f"The cord card {plain(learns.card, 60)} is updated.")
    elif taught and taught.why_not:
        say(f"The cord card {plain(taught.card, 60)} is not updated. {taught.why_not}")
    say(f"{plan.design} is finished. `tallycord undo` opens it again.")


def _left_mm(session: LineSession) -> float | None:
    """How much cord is left, None where it was not measured."""
    opened = session.opened
    each = "each cord" if opened.plan.strands[-1].layers > 1 else "the cord"
    question = f"How much of {each} is left past the closure, with what was trimmed off?"
    while text := session.ask(f"{question} Press Enter if you have not measured it."):
        try:
            return fitting_length_mm(text, opened.plan, lambda mm: mm < layer_cut_mm(opened))
        except Wrong as wrong:
            say(str(wrong))
    return None


def _learns(session: LineSession, taught: Teaching) -> bool:
    question = f"Update the cord card {plain(taught.card, 60)} from this piece?"
    text = session.ask(question, *taught.lines, "Press Enter to update it; anything but y leaves it as it is.")
    if text[:1] in ("", "y", "Y"):
        return True
    say(f"The cord card {plain(taught.card, 60)} is left as it is.")
    return False
