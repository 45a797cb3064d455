"""The questions of the follow screen, with what each typed answer would mean before it is taken."""

from __future__ import annotations

from msgspec import Struct

from companion.core.chart.gauge import Gauge
from companion.core.forecast.counting import Stretch
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import MOST_NOTE, Joined, Measured, ReadingKind
from companion.core.journal.fold import after
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_plus_minus
from companion.core.values.settings import LEAST_SCRAP_MM
from companion.core.values.text import plain
from companion.core.words.finish_words import can_be_right, finish_line, left_words
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.counting_words import off_words, stretch_words, which_is_it
from companion.core.words.measured.expected_words import expected_words, where_leftover
from companion.core.words.measured.join_words import join_advice, joint_words
from companion.core.words.measured.reading_words import (
    expected_reading,
    planned_reading_mm,
    reading_doubt,
    reading_lines,
    where_from,
)
from companion.core.words.measured.verdict_words import Keys
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_name
from companion.tui.dialogs.lengths import TypedLength, length_hint, length_judge
from companion.tui.dialogs.question import ONCE_MORE, Judged, Question, not_yet
from companion.workshop import OpenPiece, Teaching, Workshop

FAR_FROM_PLAN = f"That is far from the plan. {ONCE_MORE}"


# What answers once a reading is taken, or left.
THEN: Keys = {"recount": "r, after Enter", "question tells": "", "jump": "j, after Esc"}


class EndLength(Struct, frozen=True):
    """A length at the end of a piece, mm; None where the maker gave none."""

    mm: float | None


def reading_question(
    workshop: Workshop, opened: OpenPiece, outlook: Outlook, kind: ReadingKind
) -> Question[TypedLength]:
    """What does the ruler say? `outlook`: of the piece without the reading."""
    plan, piece = opened.plan, opened.piece
    expected = expected_reading(plan, piece, outlook, kind)
    when = f"after step {step_name(plan, piece.done)}" if piece.done else "before the first step"
    shown = show_plus_minus(expected.mean_mm, expected.half95_mm, display_unit(plan.unit))
    entry = plan.place(piece.done)[0] if piece.done else 0
    ruler_mm = workshop.ruler_step_mm(plan.unit)
    planned_mm = planned_reading_mm(plan, piece.done, kind)
    how = where_from(plan, entry, piece.done) if kind == "strand" else where_leftover(plan, piece.done)

    def mean(length: TypedLength) -> Judged[TypedLength]:
        reading = Measured(kind, piece.done, length.mm, length.text, ruler_mm)
        supposed = workshop.suppose(opened, after(piece, reading))
        lines = reading_lines(plan, piece, outlook, supposed, kind, length.mm, THEN)
        doubt = reading_doubt(plan, piece, outlook, kind, length.mm, supposed, keys=THEN)
        gauge = None if planned_mm is None else Gauge(length.mm, expected, planned_mm)
        return Judged(length, lines, f"{doubt} {ONCE_MORE}" if doubt else "", gauge)

    prompt = f"{expected_words(plan, kind, shown, when)}\n{how}"
    return Question(prompt, length_judge(plan.unit, mean), hint=length_hint(plan.unit, "what the ruler says; "))


def join_question(workshop: Workshop, opened: OpenPiece, outlook: Outlook) -> Question[TypedLength]:
    """How much cord is joined on?"""
    plan, piece = opened.plan, opened.piece

    def mean(length: TypedLength) -> Judged[TypedLength]:
        if length.mm <= 0:
            return not_yet("Enter a length above zero.")
        joined = after(piece, Joined(piece.done, length.mm, length.text))
        shows = joint_words(plan, outlook)
        lines = (cord_line(plan, workshop.suppose(opened, joined)), *((Notice("watch", shows),) if shows else ()))
        return Judged(length, lines)

    cord_left = outlook.entries[outlook.worst_cord].cord
    shown = show(cord_left.short_mm, display_unit(plan.unit))
    needs = "would leave enough to hold" if cord_left.verdict == "short to hold" else "is what it needs"
    need = f" {shown} more {needs}." if cord_left.short_mm > 0 else ""
    cord = "each cord" if plan.cord.layers > 1 else "the cord"
    prompt = f"How much does {cord} gain? Do not count the overlap.{need}"
    judge = length_judge(plan.unit, mean, blank=not_yet(join_advice(plan, outlook)))
    return Question(prompt, judge, hint=length_hint(plan.unit, "a length; "))


def recount_question(opened: OpenPiece, counted: Stretch) -> Question[int]:
    """How many beads are there really?"""

    def judge(text: str) -> Judged[int]:
        digits = text.strip()
        if not digits:
            return Judged(counted.beads, (Notice("quiet", f"Press Enter if there are {counted.beads}."),))
        if not (digits.isascii() and digits.isdigit() and len(digits) < 7):
            return not_yet("A number of beads.")
        off = int(digits) - counted.beads
        told = Notice("watch" if off else "quiet", off_words(off))
        return Judged(int(digits), (told,), "" if abs(off) <= 2 else FAR_FROM_PLAN)

    asked = stretch_words(opened.plan, counted, opened.piece.done)
    return Question(f"{asked} How many are there?", judge, hint=f"suggested: {counted.beads}")


def screen_or_beads_question(plan: Plan, beads: int, done: int, to: int) -> Question[int]:
    """Is the screen ahead or behind, or are the beads really missing or too many?"""
    found, first, second = which_is_it(plan, beads, done, to)

    def judge(text: str) -> Judged[int]:
        which = {"1": 1, "2": 2}.get(text.strip())
        return Judged(which) if which else not_yet("1 or 2.")

    return Question(f"{found}\n{first}\n{second}", judge, hint="1 or 2")


def note_question(opened: OpenPiece, begin_with: str = "") -> Question[str]:
    """What is there to note?"""

    def judge(text: str) -> Judged[str]:
        return Judged(plain(text, MOST_NOTE) or None)

    return Question(f"A note at step {opened.piece.done}.", judge, begin_with)


def take_over_question() -> Question[bool]:
    """Is the piece to be taken from another window?"""
    prompt = "Take over the piece here?\nThe other window can then only watch."
    return Question(prompt, lambda text: Judged(True), hint="Enter takes over")


def jump_question(opened: OpenPiece) -> Question[int]:
    """Up to which step is it really made?"""
    done, there_are = opened.piece.done, _steps_there_are(opened.plan)

    def judge(text: str) -> Judged[int]:
        to = jump_target(opened.plan, text)
        if to is None:
            return not_yet(there_are if text.strip() else "")
        if to == done:
            return not_yet(f"{done} steps are done already.")
        if to > done:
            said = f"Steps {done + 1} to {to} count as done." if to > done + 1 else f"Step {to} counts as done."
        else:
            said = f"Steps {to + 1} to {done} are undone." if to + 1 < done else f"Step {done} is undone."
        return Judged(to, (Notice("watch", f"{said} u undoes it."),))

    return Question("Up to which step is the piece really done?", judge, hint=there_are)


def _steps_there_are(plan: Plan) -> str:
    return f"a number from 0 to {plan.total_steps}"


def jump_target(plan: Plan, text: str) -> int | None:
    """The piece's step for a typed NUMBER, or NAME:NUMBER of a strand; None where there is none."""
    label, colon, digits = text.strip().rpartition(":")
    if not (digits.isascii() and digits.isdigit() and len(digits) < 8):
        return None
    if not colon:
        return int(digits) if int(digits) <= plan.total_steps else None
    labels = [strand.label for strand in plan.strands]
    if label not in labels or int(digits) > len(plan.strands[labels.index(label)].steps):
        return None
    return plan.piece_step(labels.index(label), int(digits))


def finish_question(opened: OpenPiece) -> Question[EndLength]:
    """How long did it come out?"""
    first_plan = opened.first_plan or opened.plan

    def mean(length: TypedLength) -> Judged[EndLength]:
        told = Notice("quiet", finish_line(first_plan, length.mm))
        return Judged(EndLength(length.mm), (told,), "" if can_be_right(first_plan, length.mm) else FAR_FROM_PLAN)

    blank = Judged(EndLength(None), (Notice("quiet", "Press Enter to finish without a length."),))
    judge = length_judge(first_plan.unit, mean, blank)
    return Question("How long did it come out, end to end when closed?", judge, hint=length_hint(first_plan.unit))


def left_question(opened: OpenPiece, scrap_mm: float = LEAST_SCRAP_MM) -> Question[EndLength]:
    """How much cord is left? From `scrap_mm` on it is worth keeping."""
    unit, layers = opened.plan.unit, opened.plan.strands[-1].layers

    def mean(length: TypedLength) -> Judged[EndLength]:
        told = left_words(length.mm, layers, display_unit(unit), scrap_mm)
        return Judged(EndLength(length.mm), (Notice("quiet", told),))

    blank = Judged(EndLength(None), (Notice("quiet", "Press Enter if you have not measured it."),))
    each = "each cord" if layers > 1 else "the cord"
    prompt = f"How much of {each} is left past the closure, with what was trimmed off?"
    return Question(prompt, length_judge(unit, mean, blank), hint=length_hint(unit))


def learn_question(taught: Teaching) -> Question[bool]:
    """Is the card to learn from the piece? Yes is nothing typed, or a word that begins with y."""

    def judge(text: str) -> Judged[bool]:
        learns = text.strip().lower()[:1] in ("", "y")
        return Judged(learns, (Notice("quiet", "Press Enter to update it." if learns else "The card stays as it is."),))

    lines = "\n".join(taught.lines)
    return Question(f"Update the cord card {plain(taught.card, 60)} from this piece?\n{lines}", judge, hint="n: no")
