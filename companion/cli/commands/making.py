"""next, back, jump and note: one line a hand's move."""

from __future__ import annotations

import argparse

from companion.cli.arguments import Wrong, add_piece, step_of
from companion.cli.piece_report import say_next
from companion.cli.printing import say
from companion.core.journal.events import MOST_NOTE
from companion.core.values.text import plain
from companion.core.words.cord_words import cord_line
from companion.core.words.step_words import step_line, step_name
from companion.core.words.undo_words import redone_words, undone_words
from companion.core.words.verdict_words import verdict_line
from companion.workshop import Workshop

declare_undo = declare_redo = declare_back = add_piece


def declare_next(command: argparse.ArgumentParser) -> None:
    """What `next` takes."""
    add_piece(command)
    command.add_argument(
        "--step", metavar="STEP", help="the step that is made: refused where it is not the present one"
    )


def run_next(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The present step is made."""
    opened = workshop.open(arguments.piece)
    opened = workshop.confirm(opened, None if arguments.step is None else step_of(opened.plan, arguments.step))
    say(f"Made: {step_line(opened.plan, opened.piece.done)}")
    say_next(opened)
    outlook = workshop.outlook(opened)
    line = verdict_line(opened.plan, opened.piece, outlook)
    if line.level != "quiet" or outlook.next_reading_step == opened.piece.done:
        say(str(line))
    cord = cord_line(opened.plan, outlook)
    if cord.level != "quiet":
        say(str(cord))
    return 0


def run_undo(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Undo the latest act."""
    before = workshop.open(arguments.piece)
    opened = workshop.undo(before)
    say(undone_words(before.plan, before.piece.act, opened.piece))
    say_next(opened)
    return 0


def run_redo(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Do the act again that was undone last."""
    opened = workshop.redo(workshop.open(arguments.piece))
    say(redone_words(opened.plan, opened.piece))
    say_next(opened)
    return 0


run_back = run_undo  # the same by its earlier name


def declare_jump(command: argparse.ArgumentParser) -> None:
    """What `jump` takes."""
    add_piece(command)
    command.add_argument("step", metavar="STEP", help="NUMBER, or ENTRY:NUMBER where the design has several entries")


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


def declare_note(command: argparse.ArgumentParser) -> None:
    """What `note` takes."""
    add_piece(command)
    command.add_argument("text", metavar="TEXT", nargs="+", help="any words")


def run_note(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write a note."""
    text = plain(" ".join(arguments.text), MOST_NOTE)
    if not text:
        raise Wrong("A note needs at least a word.")
    opened = workshop.note(workshop.open(arguments.piece), text)
    say(f"Noted at step {step_name(opened.plan, opened.piece.done) if opened.piece.done else 0}.")
    return 0
