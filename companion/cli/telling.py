"""What several commands say of a piece: its steps, and whether length and cord will do."""

from __future__ import annotations

from companion.cli.printing import say
from companion.core.plan import Plan
from companion.core.words import cord_line, step_line, step_name, verdict_line
from companion.workshop import WorkPiece, Workshop

MOST_SAID = 3  # remedies after a reading; more than that nobody listens to


def step_said(plan: Plan, step: int) -> str:
    """A step for the ear; where the design has several entries, also as the other commands take it: ENTRY:NUMBER."""
    line = step_line(plan, step)
    return f"{line.removesuffix('.')}, {step_name(plan, step)}." if len(plan.strands) > 1 else line


def say_next(work: WorkPiece) -> None:
    """The step that comes next, or how the piece is closed."""
    if work.piece.done < work.plan.total_steps:
        say(f"Next: {step_said(work.plan, work.piece.done + 1)}")
    else:
        say(f"Every step is made. `companion finish {work.name}` closes the piece.")


def say_verdicts(work: WorkPiece, workshop: Workshop) -> None:
    """Length, cord, and what would put it right."""
    outlook = workshop.outlook(work)
    say(str(verdict_line(work.plan, work.piece, outlook)))
    say(str(cord_line(work.plan, work.piece, outlook)))
    found = workshop.remedies(work)
    for number, remedy in enumerate(found[:MOST_SAID], start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy.text}")
    if len(found) > MOST_SAID:
        say(f"More ways out: `companion remedy {work.name}`.")


def aimed_at(work: WorkPiece) -> tuple[str, float]:
    """What a finished length is held against, mm: the target, or the length that was planned when the piece began."""
    first = work.first_plan or work.plan
    if first.target_mm is not None:
        return "the target is", first.target_mm
    return "planned", first.finished_length_mm
