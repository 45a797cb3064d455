"""A piece from start to finish, a line at a time: for screen readers, foot-pedal scripts and slow connections."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from companion.cli.designs import tell_problems
from companion.cli.printing import complain, say, say_json
from companion.cli.typed import cuts_of, length_mm, step_of
from companion.core.events import (
    Abandoned,
    Confirmed,
    CutEntered,
    Event,
    Finished,
    Jumped,
    Measured,
    Noted,
    ReadingKind,
    Started,
    Undone,
    Withdrawn,
)
from companion.core.plan import Plan
from companion.core.recap import recap
from companion.core.sentences import heading
from companion.core.show_lengths import display_unit, show, show_both, show_plus_minus
from companion.core.text import plain
from companion.core.words import (
    cord_line,
    cut_lines,
    cut_questioned,
    expected_reading,
    reading_doubt,
    reading_lines,
    step_line,
    step_name,
    verdict_line,
)
from companion.workshop import WorkPiece, Workshop

READING_KINDS: tuple[ReadingKind, ...] = ("strand", "free")
Commands = argparse._SubParsersAction


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    start = _command(commands, "start", run_start, "begin a piece; prints its name", piece=False)
    start.add_argument("design", metavar="DESIGN", help="a design file")
    start.add_argument(
        "--cut",
        metavar="LENGTH",
        action="append",
        default=[],
        help="the length really cut (whole, all layers); with several cords once for each, or NAME=LENGTH",
    )
    pieces = _command(commands, "pieces", run_pieces, "all pieces, the latest first", piece=False)
    pieces.add_argument("--json", action="store_true", help="as JSON")
    status = _command(commands, "status", run_status, "where a piece stands, and what comes next")
    status.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")
    following = _command(commands, "next", run_next, "the present step is made; says the next one")
    following.add_argument(
        "--step", metavar="STEP", help="the step that is made: refused where it is not the present one"
    )
    _command(commands, "back", run_back, "take the last step or jump back, or open an ended piece again")
    measure = _command(commands, "measure", run_measure, "a ruler reading, and what it means")
    measure.add_argument("length", metavar="LENGTH", nargs="?", help="the strand, from its first element to here")
    measure.add_argument("--free", metavar="LENGTH", help="free cord beyond the last knot, per layer, tail included")
    measure.add_argument("--at", metavar="STEP", help="the step after which it was read (the last one made)")
    measure.add_argument("--ruler", metavar="LENGTH", default="1 mm", help="the ruler's least division (1 mm)")
    measure.add_argument("--withdraw", action="store_true", help="take the latest reading back instead")
    note = _command(commands, "note", run_note, "write a note at the present step")
    note.add_argument("text", metavar="TEXT", nargs="+")
    jump = _command(commands, "jump", run_jump, "steps up to STEP count as made, later ones as taken back")
    jump.add_argument("step", metavar="STEP", help="NUMBER, or ENTRY:NUMBER where the design has several entries")
    finish = _command(commands, "finish", run_finish, "the piece is finished")
    finish.add_argument("length", metavar="LENGTH", nargs="?", help="its real finished length")
    abandon = _command(commands, "abandon", run_abandon, "give a piece up; its journal stays")
    abandon.add_argument("reason", metavar="REASON", nargs="*")
    _command(commands, "journal", run_journal, "the story of a piece, every event with its time")


def _command(commands: Commands[Any], name: str, run: Any, words: str, piece: bool = True) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name, help=words, description=words[:1].upper() + words[1:] + "."
    )
    if piece:
        parser.add_argument("piece", metavar="PIECE", help="a piece's name, or how it begins")
    parser.set_defaults(run=run)
    return parser


def run_start(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Begin a piece."""
    path = Path(arguments.design)
    planned = workshop.plan(path)
    tell_problems(planned)
    if planned.plan is None:
        return 1
    cuts = cuts_of(planned.plan, arguments.cut)
    for cut in cuts:
        if cut_questioned(planned.plan, cut.cord, cut.length_mm):
            for line in cut_lines(planned.plan, cut.cord, cut.length_mm):
                complain(str(line))
    say(workshop.start(path, cuts, planned).name)
    return 0


def run_pieces(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List all pieces."""
    rows = workshop.pieces()
    if arguments.json:
        listed = [
            {
                "piece": row.name,
                "name": row.design_name,
                "steps_done": row.steps_done,
                "steps_total": row.steps_total,
                "state": row.state,
            }
            for row in rows
        ]
        say_json({"format": 1, "pieces": listed})
        return 0
    if not rows:
        say("No pieces yet. `companion start DESIGN` begins one.")
    for row in rows:
        trouble = f"  ▲ {row.trouble}" if row.trouble and row.state == "under way" else ""
        say(f"{row.name}: {row.design_name}, step {row.steps_done} of {row.steps_total}, {row.state}{trouble}")
    return 0


def run_status(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Where a piece stands."""
    work = workshop.open(arguments.piece)
    outlook = workshop.outlook(work)
    if arguments.json:
        say_json(_status_json(work, workshop))
        return 0
    plan, piece = work.plan, work.piece
    say(heading(plan))
    if piece.state != "under way":
        say(f"This piece is {piece.state}.")
    for line in recap(plan, piece).lines:
        say(line)
    unit = display_unit(plan.unit)
    say(f"Finishes at {show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, unit)}.")
    own, other = show_both(expected_reading(plan, piece, outlook, "free").mean_mm, unit)
    say(f"Free cord should be about {own} ({other}) a layer.")
    _say_verdicts(work, workshop)
    if workshop.design_differs(work):
        say("The design file has changed since this piece began; the piece goes by its own copy.")
    return 0


def _status_json(work: WorkPiece, workshop: Workshop) -> dict[str, Any]:
    outlook, piece, plan = workshop.outlook(work), work.piece, work.plan
    cord = outlook.entries[outlook.worst_cord].cord
    entry, number = plan.place(piece.done + 1) if piece.done < plan.total_steps else (None, None)
    coming = None if entry is None or number is None else plan.strands[entry].steps[number - 1].text
    return {
        "piece": work.name,
        "name": plan.design,
        "state": piece.state,
        "steps_done": piece.done,
        "steps_total": plan.total_steps,
        "next": coming,
        "strand_mm": expected_reading(plan, piece, outlook, "strand").mean_mm,
        "free_cord_mm": expected_reading(plan, piece, outlook, "free").mean_mm,
        "finished_mean_mm": outlook.finished.mean_mm,
        "finished_low95_mm": outlook.finished.low95_mm,
        "finished_high95_mm": outlook.finished.high95_mm,
        "p_in_tolerance": outlook.p_in_tolerance,
        "verdict": outlook.verdict,
        "cord": {"verdict": cord.verdict, "p_run_out": cord.p_run_out, "step": cord.step, "short_mm": cord.short_mm},
        "next_reading_step": outlook.next_reading_step,
    }


def run_next(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The present step is made."""
    work = workshop.open(arguments.piece)
    work = workshop.confirm(work, None if arguments.step is None else step_of(work.plan, arguments.step))
    say(f"Made: {step_line(work.plan, work.piece.done)}")
    _say_next(work)
    outlook = workshop.outlook(work)
    line = verdict_line(work.plan, work.piece, outlook)
    if line.loudness != "quiet" or outlook.next_reading_step == work.piece.done:
        say(str(line))
    cord = cord_line(work.plan, work.piece, outlook)
    if cord.loudness != "quiet":
        say(str(cord))
    return 0


def _say_next(work: WorkPiece) -> None:
    if work.piece.done < work.plan.total_steps:
        say(f"Next: {step_line(work.plan, work.piece.done + 1)}")
    else:
        say(f"Every step is made. `companion finish {work.name}` closes the piece.")


def _say_verdicts(work: WorkPiece, workshop: Workshop) -> None:
    outlook = workshop.outlook(work)
    say(str(verdict_line(work.plan, work.piece, outlook)))
    say(str(cord_line(work.plan, work.piece, outlook)))
    from companion.core.remedy import remedies

    for number, remedy in enumerate(remedies(work.plan, work.piece, outlook), start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy.text}")


def run_back(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Take back the last step or jump."""
    before = workshop.open(arguments.piece)
    work = workshop.undo(before)
    say(f"Taken back. {work.piece.done} of {work.plan.total_steps} steps are made.")
    gone = len(before.piece.readings) - len(work.piece.readings)
    if gone > 0:
        say("The reading taken after it no longer counts." if gone == 1 else f"{gone} readings no longer count.")
    _say_next(work)
    return 0


def run_measure(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Ruler readings, and what they mean."""
    work = workshop.open(arguments.piece)
    if arguments.withdraw:
        work = workshop.withdraw(work)
        say("The latest reading no longer counts.")
        _say_verdicts(work, workshop)
        return 0
    if arguments.length is None and arguments.free is None:
        return _say_expected(work, workshop)
    step = work.piece.done if arguments.at is None else step_of(work.plan, arguments.at)
    ruler_mm = length_mm(arguments.ruler)
    typed: tuple[tuple[ReadingKind, str | None], ...] = (("strand", arguments.length), ("free", arguments.free))
    lengths = [(kind, text, length_mm(text)) for kind, text in typed if text is not None]
    for kind, text, mm in lengths:
        before = workshop.outlook(work)
        doubt = reading_doubt(work.plan, work.piece, before, kind, mm) if step == work.piece.done else None
        taken = workshop.measure(work, kind, mm, plain(text, 40), step, ruler_mm)
        if step == work.piece.done:
            after = workshop.outlook(taken)
            say(str(reading_lines(work.plan, taken.piece, before, after, kind, mm)[0]))
        if doubt:
            complain(f"▲ {doubt} `companion measure {work.name} --withdraw` takes it back.")
        work = taken
    outlook = workshop.outlook(work)
    unit = display_unit(work.plan.unit)
    say(f"It would finish at {show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, unit)}.")
    _say_verdicts(work, workshop)
    return 0


def _say_expected(work: WorkPiece, workshop: Workshop) -> int:
    """What the ruler should say now."""
    outlook, unit = workshop.outlook(work), display_unit(work.plan.unit)
    strand, free = (expected_reading(work.plan, work.piece, outlook, kind) for kind in READING_KINDS)
    say(f"Strand, from the first element to here: {show_plus_minus(strand.mean_mm, strand.half95_mm, unit)}.")
    say(f"Free cord a layer, tail included: {show_plus_minus(free.mean_mm, free.half95_mm, unit)}.")
    return 0


def run_note(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Write a note."""
    work = workshop.note(workshop.open(arguments.piece), plain(" ".join(arguments.text), 500))
    say(f"Noted at step {work.piece.done}.")
    return 0


def run_jump(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Move the count."""
    work = workshop.open(arguments.piece)
    before = work.piece.done
    work = workshop.jump(work, step_of(work.plan, arguments.step))
    done = work.piece.done
    moved = f"Steps {before + 1} to {done} count as made" if done > before else f"Steps {done + 1} on are taken back"
    say(f"{moved if done != before else 'Nothing moved'}. {done} of {work.plan.total_steps} are made.")
    _say_next(work)
    return 0


def run_finish(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Close a piece."""
    finished_mm = None if arguments.length is None else length_mm(arguments.length)
    work = workshop.finish(workshop.open(arguments.piece), finished_mm)
    say(f"{work.plan.design} is finished.")
    if finished_mm is not None:
        unit = display_unit(work.plan.unit)
        say(f"{show(finished_mm, unit)} end to end; planned {show(work.plan.finished_length_mm, unit)}.")
    return 0


def run_abandon(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Give a piece up."""
    work = workshop.abandon(workshop.open(arguments.piece), plain(" ".join(arguments.reason), 500))
    say(f"{work.plan.design} is given up at step {work.piece.done}. `companion back {work.name}` opens it again.")
    return 0


def run_journal(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell the story of a piece."""
    work = workshop.open(arguments.piece)
    for entry in workshop.journal(work):
        say(f"{entry.at.astimezone():%Y-%m-%d %H:%M:%S}  {event_words(work.plan, entry.event)}")
    return 0


def event_words(plan: Plan, event: Event) -> str:
    """One event in words."""
    unit = display_unit(plan.unit)
    match event:
        case Started(total_steps=total):
            return f"Begun: {plan.design}, {total} steps."
        case CutEntered(cord=cord, length_mm=mm):
            return f"Cut {show(mm, unit)} ({plan.cuts[cord].name}; planned {show(plan.cuts[cord].cut_mm, unit)})."
        case Confirmed(step=step):
            return f"Made: {step_line(plan, step)}"
        case Undone(back_to=back_to):
            return f"Taken back: {back_to} steps are made."
        case Jumped(to=to):
            return f"Jumped: {to} steps count as made."
        case Measured(kind=kind, step=step, length_mm=mm):
            what = "Strand" if kind == "strand" else "Free cord"
            after = step_name(plan, step) if step else "0"
            return f"{what} measured {show(mm, unit)} after step {after}."
        case Withdrawn():
            return "The latest reading was withdrawn."
        case Noted(text=text):
            return f"Note: {text}"
        case Finished(length_mm=finished_mm):
            return "Finished." if finished_mm is None else f"Finished at {show(finished_mm, unit)}."
        case Abandoned(reason=reason):
            return f"Given up. {reason}".strip()
