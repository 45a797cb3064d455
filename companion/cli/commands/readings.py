"""measure, recount and join: what is found out or added along the way, and what it means for the piece."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from companion.cli.arguments import Wrong, step_of, whole_number
from companion.cli.piece_report import COMMANDS, LEAST_JOINED_MM, layer_cut_mm
from companion.cli.printing import GIVE_AGAIN, complain, say
from companion.cli.typed_lengths import fitting_length_mm, ruler_step_mm
from companion.cli.verdict_report import say_verdicts
from companion.cli.which_piece import Meant, add_piece, meant_piece
from companion.core.forecast.counting import stretch
from companion.core.forecast.outlook import Outlook
from companion.core.forecast.screen_set import screen_set
from companion.core.journal.events import Jumped, Measured, ReadingKind, TakenOut
from companion.core.journal.fold import after
from companion.core.journal.names import alike
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.text import plain
from companion.core.words.measured.counting_words import count_words, screen_set_words, which_is_it
from companion.core.words.measured.expected_words import expected_between, where_leftover
from companion.core.words.measured.reading_words import (
    expected_reading,
    planned_reading_mm,
    reading_doubt,
    reading_lines,
    where_from,
)
from companion.core.words.measured.reason_words import finishes_at
from companion.core.words.step_words import step_name
from companion.core.words.undo_words import reading_turned
from companion.workshop import OpenPiece, Workshop

READING_KINDS: tuple[ReadingKind, ...] = ("strand", "free")


def declare_measure(command: argparse.ArgumentParser) -> None:
    """What `measure` takes."""
    add_piece(command, "LENGTH", "the length of the strand so far", "length")
    free = "the leftover cord: one cord, from last knot to end"
    command.add_argument("--free", metavar="LENGTH", help=free)
    command.add_argument("--at", metavar="STEP", help="the step after which you measured (the last one done)")
    command.add_argument(
        "--ruler",
        metavar="LENGTH",
        help="the smallest mark on the ruler (as in the settings)",
    )
    command.add_argument("--anyway", action="store_true", help="take a length that looks wrong")
    command.add_argument("--withdraw", action="store_true", help="take the latest reading out instead")


def run_measure(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Ruler readings, and what they mean."""
    typed_mm = None if arguments.ruler is None else ruler_step_mm(arguments.ruler)
    meant = meant_piece(arguments, workshop)
    if arguments.withdraw and (meant.text or arguments.free is not None):
        raise Wrong("--withdraw takes the latest reading out: give it no length.")
    opened = meant.opened
    if arguments.withdraw:
        opened = workshop.withdraw(opened)
        meant.say()
        assert isinstance(opened.piece.act, TakenOut)
        say(reading_turned(opened.plan, opened.piece.act))
    elif meant.text or arguments.free is not None:
        return _take(arguments, workshop, meant, typed_mm or workshop.ruler_step_mm(opened.plan.unit))
    else:
        meant.say()
        return _say_expected(opened, workshop)
    say_verdicts(opened, workshop)
    return 0


def _take(arguments: argparse.Namespace, workshop: Workshop, meant: Meant, ruler_mm: float) -> int:
    """Take what was typed, unless it looks wrong; then what it means."""
    readings = _readings(arguments, workshop, meant, ruler_mm)
    refused = any(one.kind == "free" and workshop.is_trimmed(meant.opened, one.step) for one in readings)
    weighed = [] if refused else list(_weighed(workshop, meant.opened, readings))
    doubt = "" if arguments.anyway else _doubt(meant.opened.plan, weighed)
    if doubt:
        complain(f"▲ {doubt} Nothing was saved. {GIVE_AGAIN}")
        return 1
    opened = workshop.take_readings(meant.opened, readings)
    meant.say()
    _say_meanings(opened.plan, weighed)
    say(f"It would finish at {finishes_at(opened.plan, opened.piece, workshop.outlook(opened))}.")
    say_verdicts(opened, workshop, before=meant.opened)
    return 0


def _readings(arguments: argparse.Namespace, workshop: Workshop, meant: Meant, ruler_mm: float) -> list[Measured]:
    """What was typed, as readings. Raises Wrong where one of them can't be taken."""
    opened, plan = meant.opened, meant.opened.plan
    step = opened.piece.done if arguments.at is None else step_of(plan, arguments.at)
    there = replace(opened.piece, done=min(step, opened.piece.done))
    texts: tuple[tuple[ReadingKind, str | None], ...] = (("strand", meant.text or None), ("free", arguments.free))
    readings = []
    for kind, text in texts:
        if text is not None:
            expected = workshop.suppose(opened, there)
            fits = partial(_can_be_right, plan, there, expected, kind)
            readings.append(Measured(kind, step, fitting_length_mm(text, plan, fits), plain(text, 40), ruler_mm))
    return readings


def _can_be_right(plan: Plan, there: Piece, expected: Outlook, kind: ReadingKind, length_mm: float) -> bool:
    return reading_doubt(plan, there, expected, kind, length_mm) is None


class _Weighed(Struct, frozen=True):
    """A reading, the piece as it stood there, and what is expected of it without the reading and with it."""

    reading: Measured
    there: Piece
    expected: Outlook
    now: Outlook


def _weighed(workshop: Workshop, opened: OpenPiece, readings: Sequence[Measured]) -> Iterator[_Weighed]:
    """Each reading against what the ones before it lead one to expect."""
    piece = opened.piece
    for reading in readings:
        if reading.step <= piece.done:  # else it is refused for that
            there, piece = replace(piece, done=reading.step), after(piece, reading)
            yield _Weighed(reading, there, workshop.suppose(opened, there), workshop.suppose(opened, piece))


def _doubt(plan: Plan, weighed: Sequence[_Weighed]) -> str:
    """Why the first of these that can hardly be right can't, "" where all can."""
    doubts = (
        reading_doubt(
            plan, one.there, one.expected, one.reading.kind, one.reading.length_mm, one.now, "count", COMMANDS
        )
        for one in weighed
    )
    return next(filter(None, doubts), "")


def _say_meanings(plan: Plan, weighed: Sequence[_Weighed]) -> None:
    """Each reading compared with what was expected before it."""
    for one in weighed:
        kind, length_mm = one.reading.kind, one.reading.length_mm
        say(str(reading_lines(plan, one.there, one.expected, one.now, kind, length_mm, COMMANDS, "count")[0]))


def _say_expected(opened: OpenPiece, workshop: Workshop) -> int:
    """What the ruler should say now."""
    outlook, plan, done = workshop.outlook(opened), opened.plan, opened.piece.done
    strand, free = (
        expected_between(
            plan, kind, expected_reading(plan, opened.piece, outlook, kind), planned_reading_mm(plan, done, kind)
        )
        for kind in READING_KINDS
    )
    say(f"{strand} {where_from(plan, plan.place(done)[0] if done else 0, done)}")
    if not workshop.is_trimmed(opened):
        say(f"{free} {where_leftover(plan, done)}")
    return 0


def declare_recount(command: argparse.ArgumentParser) -> None:
    """What `recount` takes."""
    add_piece(command, "STEP", "up to which step (the last one done)", "step")
    command.add_argument("--from", dest="first", metavar="STEP", help="from which step on (the first)")
    command.add_argument("--beads", metavar="NUMBER", help="how many beads there are (as many as the plan says)")
    command.add_argument("--screen", action="store_true", help="the count of steps is ahead or behind: set it right")
    really = "the beads really are left out, or too many: reckon with it"
    command.add_argument("--really", action="store_true", help=really)


def run_recount(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The beads are counted."""
    meant = meant_piece(arguments, workshop)
    opened, plan = meant.opened, meant.opened.plan
    step = step_of(plan, meant.text) if meant.text else opened.piece.done
    since = 0 if arguments.first is None else max(0, step_of(plan, arguments.first) - 1)
    beads = None if arguments.beads is None else whole_number(arguments.beads, "a number of beads")
    if arguments.screen and (arguments.really or beads is None):
        raise Wrong("--screen goes with --beads, and without --really.")
    off = 0 if beads is None else beads - stretch(plan, since, step).beads
    right = None if arguments.really or not since < step <= opened.piece.done else _set_right(opened, since, step, off)
    if right is not None and not arguments.screen:
        _ask_which_it_is(arguments, meant, off, right.to)
        return 1
    if arguments.screen and right is None:
        raise Wrong("It cannot be the count of steps: no step ends there. Nothing is changed.")
    after_it = workshop.set_screen(opened, right) if right else workshop.recount(opened, step, since, beads)
    meant.say()
    if right:
        left_out = len(opened.piece.readings) - len(after_it.piece.readings)
        say(screen_set_words(plan, opened.piece.done, right.to, left_out, "count"))
    else:
        say(count_words(after_it.piece.counted[-1].beads))
    opened = after_it
    say_verdicts(opened, workshop)
    return 0


def _set_right(opened: OpenPiece, since: int, step: int, off: int) -> Jumped | None:
    """How the count of steps is set right if not the beads but the count is so many off; None where that can't be."""
    if opened.piece.state != "under way" or not off:
        return None
    return screen_set(opened.plan, opened.piece, stretch(opened.plan, since, step), off)


def _ask_which_it_is(arguments: argparse.Namespace, meant: Meant, off: int, to: int) -> None:
    """Beads are missing or too many: is it the count that is off? Each answer with the command that gives it."""
    plan, piece, name = meant.opened.plan, meant.opened.piece, alike(meant.opened.name)
    found, first, second = which_is_it(plan, off, piece.done, to, "count")
    since = "" if arguments.first is None else f" --from {plain(arguments.first, 40)}"
    step = f" {plain(meant.text, 40)}" if meant.text else ""
    again = f"tallycord recount {name}{step}{since} --beads {arguments.beads}"
    meant.say()
    complain(f"{found} Which is it? Nothing was saved yet.")
    complain(f"{first} `{again} --screen`")
    complain(f"{second} `{again} --really`")


def declare_join(command: argparse.ArgumentParser) -> None:
    """What `join` takes."""
    words = "how much each cord gains, without the overlap"
    add_piece(command, "LENGTH", words, "length", needed=True)


def run_join(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """New cord is joined on."""
    meant = meant_piece(arguments, workshop)
    most_mm = layer_cut_mm(meant.opened)
    added_mm = fitting_length_mm(
        meant.text, meant.opened.plan, lambda mm: LEAST_JOINED_MM <= mm <= most_mm, above_zero=True
    )
    from companion.core.words.measured.join_words import joint_words

    shows = joint_words(meant.opened.plan, workshop.outlook(meant.opened))
    opened = workshop.join(meant.opened, added_mm, plain(meant.text, 40))
    meant.say()
    say(f"Joined on after step {step_name(opened.plan, opened.piece.done) if opened.piece.done else '0'}.")
    if shows:
        say(shows)
    say_verdicts(opened, workshop)
    return 0
