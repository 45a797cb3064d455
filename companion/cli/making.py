"""Steps made and taken back, notes, and the end of a piece: one line a hand's move."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.arguments import length_mm, step_of, whole_number
from companion.cli.declare import Commands, declare_for_piece
from companion.cli.piece_report import aimed_at, say_next, say_verdicts, step_said
from companion.cli.printing import complain, say
from companion.cli.wrong import Wrong
from companion.core.journal.events import MOST_NOTE
from companion.core.journal.piece import STATE_WORDS
from companion.core.remedies.remedy_words import meaning
from companion.core.values.errors import NotPossible
from companion.core.values.show_lengths import display_unit, show
from companion.core.values.text import plain
from companion.core.words.counting_words import count_words
from companion.core.words.lesson_words import left_words
from companion.core.words.verdict_words import cord_line, step_name, verdict_line
from companion.workshop import OpenPiece, Teaching, Workshop

# A finished length this far from the plan is more likely a slip of the pen; taken, but asked about. As on the screen.
LIKELY_SHARE = (0.7, 1.3)


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    following = declare_for_piece(
        commands,
        "next",
        run_next,
        "the present step is made; says the next one",
        ("next skerry-bracelet", "next skerry-bracelet --step 14    counts once only, for pedals"),
    )
    following.add_argument(
        "--step", metavar="STEP", help="the step that is made: refused where it is not the present one"
    )
    recount = declare_for_piece(
        commands,
        "recount",
        run_recount,
        "the beads are counted: as many as the plan says, or another number",
        ("recount skerry-bracelet", "recount skerry-bracelet 13 --from 7 --beads 6    6 beads there"),
    )
    recount.add_argument("step", metavar="STEP", nargs="?", help="up to which step (the last one made)")
    recount.add_argument("--from", dest="first", metavar="STEP", help="from which step on (the first)")
    recount.add_argument("--beads", metavar="NUMBER", help="how many beads there are (as many as the plan says)")
    declare_for_piece(
        commands,
        "back",
        run_back,
        "take the last step or jump back, or open an ended piece again",
        ("back skerry-bracelet",),
    )
    remedy = declare_for_piece(
        commands,
        "remedy",
        run_remedy,
        "what would bring a piece back to its length, or let its cord reach; with NUMBER, go on so",
        ("remedy skerry-bracelet", "remedy skerry-bracelet 1    the first of them; `back` undoes it"),
    )
    remedy.add_argument("number", metavar="NUMBER", nargs="?", help="which of them to go on with")
    join = declare_for_piece(
        commands,
        "join",
        run_join,
        "new cord is joined on here, so much more a layer",
        ('join skerry-bracelet "30 cm"',),
    )
    join.add_argument("length", metavar="LENGTH", help="how much more a layer there is than before, overlap apart")
    jump = declare_for_piece(
        commands,
        "jump",
        run_jump,
        "steps up to STEP count as made, later ones as taken back",
        ("jump skerry-bracelet 13", 'jump inner-farne-strands "middle:3"    of several entries'),
    )
    jump.add_argument("step", metavar="STEP", help="NUMBER, or ENTRY:NUMBER where the design has several entries")
    note = declare_for_piece(
        commands,
        "note",
        run_note,
        "write a note at the present step",
        ("note skerry-bracelet knots a little looser tonight",),
    )
    note.add_argument("text", metavar="TEXT", nargs="+", help="any words")
    finish = declare_for_piece(
        commands,
        "finish",
        run_finish,
        "the piece is finished",
        ("finish skerry-bracelet", 'finish skerry-bracelet "202 mm" --left "21 cm" --learn'),
    )
    finish.add_argument("length", metavar="LENGTH", nargs="?", help="its real length, end to end when closed")
    finish.add_argument("--left", metavar="LENGTH", help="cord left of one layer past the closure, before trimming")
    finish.add_argument("--learn", action="store_true", help="the cord card learns from the piece")
    abandon = declare_for_piece(
        commands,
        "abandon",
        run_abandon,
        "give a piece up; its journal stays",
        ("abandon skerry-bracelet the cord frayed",),
    )
    abandon.add_argument("reason", metavar="REASON", nargs="*", help="why, for the journal")


def run_next(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The present step is made."""
    opened = workshop.open(arguments.piece)
    opened = workshop.confirm(opened, None if arguments.step is None else step_of(opened.plan, arguments.step))
    say(f"Made: {step_said(opened.plan, opened.piece.done)}")
    say_next(opened)
    outlook = workshop.outlook(opened)
    line = verdict_line(opened.plan, opened.piece, outlook)
    if line.level != "quiet" or outlook.next_reading_step == opened.piece.done:
        say(str(line))
    cord = cord_line(opened.plan, opened.piece, outlook)
    if cord.level != "quiet":
        say(str(cord))
    return 0


def run_back(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Take back the last step or jump."""
    before = workshop.open(arguments.piece)
    opened = workshop.undo(before)
    say(f"Taken back. {opened.piece.done} of {opened.plan.total_steps} steps are made.")
    gone = len(before.piece.readings) - len(opened.piece.readings)
    if gone > 0:
        say("The reading taken after it no longer counts." if gone == 1 else f"{gone} readings no longer count.")
    say_next(opened)
    return 0


def run_jump(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Move the count."""
    opened = workshop.open(arguments.piece)
    before = opened.piece.done
    opened = workshop.jump(opened, step_of(opened.plan, arguments.step))
    done, plan = opened.piece.done, opened.plan
    if done > before:
        moved = f"Steps {step_name(plan, before + 1)} to {step_name(plan, done)} count as made"
    else:
        moved = f"Steps {step_name(plan, done + 1)} on are taken back" if done < before else "Nothing moved"
    say(f"{moved}. {done} of {plan.total_steps} are made.")
    say_next(opened)
    return 0


def run_remedy(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List what would help, or go on with one of it."""
    opened = workshop.open(arguments.piece)
    if opened.piece.state != "under way":
        raise NotPossible(f"This piece is {STATE_WORDS[opened.piece.state]}: going back opens it again.")
    found = workshop.remedies(opened)
    if arguments.number is None:
        for number, remedy in enumerate(found, start=1):
            say(f"{number}  {remedy.text} {meaning(opened.plan, remedy)}")
        if not found:
            say("Nothing needs doing, or nothing is left to change.")
        return 0
    if arguments.number not in [str(number) for number in range(1, len(found) + 1)]:
        raise Wrong(f"There is no remedy {plain(arguments.number, 20)}; there are {len(found)}.")
    chosen = found[int(arguments.number) - 1]
    if chosen.join:
        raise Wrong(f"How much new cord there is only you know: `companion join {opened.name} LENGTH` joins it on.")
    opened = workshop.choose(opened, chosen)
    say(
        f"Going on so: {chosen.what}. {opened.piece.done} of {opened.plan.total_steps} steps are made. "
        "`companion back` undoes it."
    )
    say_next(opened)
    say_verdicts(opened, workshop)
    return 0


def run_join(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """New cord is joined on."""
    added_mm = length_mm(arguments.length, above_zero=True)
    opened = workshop.join(workshop.open(arguments.piece), added_mm, plain(arguments.length, 40))
    say(f"Joined on after step {step_name(opened.plan, opened.piece.done) if opened.piece.done else '0'}.")
    say_verdicts(opened, workshop)
    return 0


def run_recount(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The beads are counted."""
    opened = workshop.open(arguments.piece)
    step = None if arguments.step is None else step_of(opened.plan, arguments.step)
    first = 1 if arguments.first is None else step_of(opened.plan, arguments.first)
    beads = None if arguments.beads is None else whole_number(arguments.beads, "a number of beads")
    opened = workshop.recount(opened, step, max(0, first - 1), beads)
    say(count_words(opened.piece.counted[-1].beads))
    say_verdicts(opened, workshop)
    return 0


def run_note(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write a note."""
    text = plain(" ".join(arguments.text), MOST_NOTE)
    if not text:
        raise Wrong("A note needs at least a word.")
    opened = workshop.note(workshop.open(arguments.piece), text)
    say(f"Noted at step {step_name(opened.plan, opened.piece.done) if opened.piece.done else 0}.")
    return 0


def run_finish(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Close a piece."""
    finished_mm = None if arguments.length is None else length_mm(arguments.length, above_zero=True)
    left_mm = None if arguments.left is None else length_mm(arguments.left)
    opened = workshop.open(arguments.piece)
    taught = workshop.teaching(opened, finished_mm, left_mm)
    opened = workshop.finish(opened, finished_mm, left_mm, taught if arguments.learn else None)
    say(f"{opened.plan.design} is finished.")
    if left_mm is not None:
        say(left_words(left_mm, opened.plan.strands[-1].layers, display_unit(opened.plan.unit)))
    _say_lesson(opened, taught, arguments.learn)
    if finished_mm is not None:
        unit = display_unit(opened.plan.unit)
        word, planned_mm = aimed_at(opened)
        say(f"{show(finished_mm, unit)} end to end; {word} {show(planned_mm, unit)}.")
        if not LIKELY_SHARE[0] * planned_mm < finished_mm < LIKELY_SHARE[1] * planned_mm:
            complain(f"▲ That is far from the plan. `companion back {opened.name}` opens the piece again.")
    return 0


def _say_lesson(opened: OpenPiece, taught: Teaching | None, learn: bool) -> None:
    """What the card learnt, or would have learnt."""
    if taught is None or taught.why_not:
        if learn:
            complain(f"▲ No card learnt from it. {taught.why_not if taught else 'It was planned with none.'}".strip())
        return
    for line in taught.lines:
        say(f"{plain(taught.card, 60)}: {line}")
    if taught.lines and not learn:
        say(f"The card has not learnt it: `companion back {opened.name}`, then finish with --learn, and it does.")


def run_abandon(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Give a piece up."""
    opened = workshop.abandon(workshop.open(arguments.piece), plain(" ".join(arguments.reason), MOST_NOTE))
    say(f"{opened.plan.design} is given up at step {opened.piece.done}. `companion back {opened.name}` opens it again.")
    return 0
