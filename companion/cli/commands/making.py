"""next, undo, redo, back, jump and note: one line a hand's move."""

from __future__ import annotations

import argparse

from companion.cli.arguments import Wrong, step_of
from companion.cli.piece_report import say_news, say_next
from companion.cli.printing import say
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.journal.events import MOST_NOTE
from companion.core.values.text import plain
from companion.core.words.step_words import step_line, step_name
from companion.core.words.undo_words import redone_words, undone_words
from companion.workshop import Workshop


def declare_undo(command: argparse.ArgumentParser) -> None:
    """What `undo` takes."""
    add_piece(command)


declare_redo = declare_back = declare_undo


def declare_next(command: argparse.ArgumentParser) -> None:
    """What `next` takes."""
    add_piece(command)
    command.add_argument("--step", metavar="STEP", help="the step that is done; refused if it is not the present one")


def run_next(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The present step is made."""
    meant = meant_piece(arguments, workshop)
    before = meant.opened
    opened = workshop.confirm(before, None if arguments.step is None else step_of(before.plan, arguments.step))
    meant.say()
    say(f"Done: {step_line(opened.plan, opened.piece.done, opened.piece)}")
    say_next(opened)
    say_news(before if before.piece.done else None, opened, workshop)
    return 0


def run_undo(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Undo the latest act."""
    meant = meant_piece(arguments, workshop, ended=True)
    before = meant.opened
    opened = workshop.undo(before)
    meant.say()
    say(undone_words(before.plan, before.piece.act, opened.piece, "`tallycord redo`"))
    say_next(opened)
    say_news(before, opened, workshop)
    return 0


def run_redo(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Do the act again that was undone last."""
    meant = meant_piece(arguments, workshop, ended=True)
    opened = workshop.redo(meant.opened)
    meant.say()
    say(redone_words(opened.plan, opened.piece))
    say_next(opened)
    say_news(meant.opened, opened, workshop)
    return 0


run_back = run_undo  # the same by its earlier name


def declare_jump(command: argparse.ArgumentParser) -> None:
    """What `jump` takes."""
    add_piece(command, "STEP", "the number of a step", "step", needed=True)


def run_jump(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Move the count."""
    meant = meant_piece(arguments, workshop)
    before = meant.opened.piece.done
    opened = workshop.jump(meant.opened, step_of(meant.opened.plan, meant.text))
    meant.say()
    done, plan = opened.piece.done, opened.plan
    if done > before:
        moved = f"Steps {step_name(plan, before + 1)} to {step_name(plan, done)} count as done"
    else:
        moved = f"Steps {step_name(plan, done + 1)} and later are undone" if done < before else "Nothing moved"
    say(f"{moved}. {done} of {plan.total_steps} are done.")
    say_next(opened)
    say_news(meant.opened, opened, workshop)
    return 0


def declare_note(command: argparse.ArgumentParser) -> None:
    """What `note` takes."""
    add_piece(command, "TEXT", "any words; in quotes if you name no piece", "text", needed=True)


def run_note(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write a note."""
    meant = meant_piece(arguments, workshop)
    text = plain(meant.text, MOST_NOTE)
    if not text:
        raise Wrong("Found no text; expected at least a word.")
    opened = workshop.note(meant.opened, text)
    meant.say()
    say(f"Noted at step {step_name(opened.plan, opened.piece.done) if opened.piece.done else 0}.")
    return 0
