"""What is typed on the command line: designs, steps, numbers. Faults are `Wrong`, with a sentence and exit code 2."""

from __future__ import annotations

import argparse

from companion.core.plan.plan import Plan
from companion.core.values.text import join_words, plain


class Wrong(Exception):
    """The command can't be taken as it was typed; the text is a sentence, the exit code 2."""


def add_design(command: argparse.ArgumentParser, card: bool = True) -> None:
    """A design file, as the command's first word; `card`: and by which cord card."""
    command.add_argument("design", metavar="DESIGN", help="a design file")
    if card:
        command.add_argument("--card", metavar="NAME", help="use that cord card, whatever the design says of its cord")


def whole_number(text: str, what: str) -> int:
    """A whole number from 0 up; `what` it is, for the sentence that refuses anything else."""
    if not (text.isascii() and text.isdigit() and len(text) < 8):
        raise Wrong(f"Found {plain(text, 40) or 'nothing'}; expected {what}, in digits.")
    return int(text)


def step_of(plan: Plan, text: str) -> int:
    """The piece's step for what was typed: NUMBER in the whole piece, or ENTRY:NUMBER where the design has several.

    Number 0 is before the first step.
    """
    label, colon, digits = text.rpartition(":")
    if not digits.isascii() or not digits.isdigit() or len(digits) > 7:
        raise Wrong(f"Found {plain(text, 40) or 'nothing'}; expected the number of a step.")
    if not colon:
        return _of_the_piece(plan, int(digits))
    labels = [strand.label for strand in plan.strands]
    if label not in labels:
        raise Wrong(f"There is no strand or side named {plain(label, 40)}; this design has {join_words(labels)}.")
    entry, number = labels.index(label), int(digits)
    if number > len(plan.strands[entry].steps):
        raise Wrong(f"There is no step {plain(text, 40)}. The last one is {len(plan.strands[entry].steps)}.")
    return plan.piece_step(entry, number)


def _of_the_piece(plan: Plan, number: int) -> int:
    if number > plan.total_steps:
        raise Wrong(f"There is no step {number}. The last one is {plan.total_steps}.")
    return number
