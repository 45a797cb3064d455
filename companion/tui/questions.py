"""The questions of the follow screen, with what each typed answer would mean before it is taken."""

from __future__ import annotations

from collections.abc import Callable

from companion.core.forecast.counting import Stretch
from companion.core.journal.events import Joined, Measured, ReadingKind
from companion.core.journal.fold import after
from companion.core.plan.plan import Plan
from companion.core.remedies.joining import join_place
from companion.core.values.lengths import UNNOTICED_MM, LengthError
from companion.core.values.show_lengths import difference, display_unit, show, show_plus_minus
from companion.core.values.text import plain
from companion.core.words.cord_words import cord_line
from companion.core.words.counting_words import count_words, stretch_words
from companion.core.words.lesson_words import left_words
from companion.core.words.notices import Level, Notice
from companion.core.words.reading_words import expected_reading, reading_doubt, reading_lines, where_from
from companion.core.words.step_words import step_name
from companion.tui.dialogs.ask import Judged, Question
from companion.tui.typed import ruler_step_mm, typed_mm
from companion.workshop import OpenPiece, Teaching, Workshop

UNIT_WORDS = {"mm": "millimetres", "cm": "centimetres", "in": "inches"}


def reading_question(workshop: Workshop, opened: OpenPiece, kind: ReadingKind) -> Question:
    """What does the ruler say?"""
    unit = display_unit(opened.plan.unit)
    expected = expected_reading(opened.plan, opened.piece, workshop.outlook(opened), kind)
    at = f"after step {step_name(opened.plan, opened.piece.done)}" if opened.piece.done else "before the first step"
    shown = show_plus_minus(expected.mean_mm, expected.half95_mm, unit)
    layer = ", one layer" if opened.plan.strands[0].layers > 1 else ""
    what = {"strand": "Strand", "free": f"Free cord{layer}"}[kind]
    entry = opened.plan.place(opened.piece.done)[0] if opened.piece.done else 0
    how = where_from(opened.plan, entry) if kind == "strand" else "From the last knot to the tail's end."
    prompt = f"{what} {at}: expected {shown}.\n{how}"
    return Question(
        prompt,
        _judge_reading(workshop, opened, kind),
        hint=f"what the ruler says; a bare number is in {UNIT_WORDS[unit]}",
    )


def _judge_reading(workshop: Workshop, opened: OpenPiece, kind: ReadingKind) -> Callable[[str], Judged]:
    before = workshop.outlook(opened)

    def judge(text: str) -> Judged:
        if not text.strip():
            return Judged(takes=False)
        try:
            length_mm = typed_mm(text, opened.plan.unit)
        except LengthError as error:
            return Judged((Notice("quiet", str(error)),), takes=False)
        reading = Measured(kind, opened.piece.done, length_mm, plain(text, 40), ruler_step_mm(opened.plan.unit))
        supposed = workshop.suppose(opened, after(opened.piece, reading))
        lines = reading_lines(opened.plan, opened.piece, before, supposed, kind, length_mm)
        doubt = reading_doubt(opened.plan, opened.piece, before, kind, length_mm)
        return Judged(lines, doubt=f"{doubt} Enter once more takes it all the same." if doubt else "")

    return judge


def join_question(workshop: Workshop, opened: OpenPiece) -> Question:
    """How much cord is joined on?"""
    unit = display_unit(opened.plan.unit)
    outlook = workshop.outlook(opened)
    place = f"{join_place(opened.plan, outlook)}."

    def judge(text: str) -> Judged:
        if not text.strip():
            return Judged((Notice("quiet", place),), takes=False)
        try:
            added_mm = typed_mm(text, opened.plan.unit)
        except LengthError as error:
            return Judged((Notice("quiet", str(error)),), takes=False)
        if added_mm <= 0:
            return Judged((Notice("quiet", "Joined cord is longer than nothing."),), takes=False)
        joined = after(opened.piece, Joined(opened.piece.done, added_mm, plain(text, 40)))
        return Judged((cord_line(opened.plan, workshop.suppose(opened, joined)),))

    missing = outlook.entries[outlook.worst_cord].cord.short_mm
    need = f" To be sure, {show(missing, unit)} more is needed." if missing > 0 else ""
    prompt = f"New cord joined on: how much more a layer, overlap apart?{need}"
    return Question(prompt, judge, hint=f"a length; a bare number is in {UNIT_WORDS[unit]}")


def recount_question(opened: OpenPiece, counted: Stretch) -> Question:
    """How many beads are there really?"""

    def judge(text: str) -> Judged:
        if not text.strip():
            return Judged((Notice("quiet", "Enter alone: as many as that."),))
        beads = beads_typed(text)
        if beads is None:
            return Judged((Notice("quiet", "A number of beads."),), takes=False)
        off = beads - counted.beads
        level: Level = "watch" if off else "quiet"
        doubt = "" if abs(off) <= 2 else "That is far from the plan. Enter once more takes it all the same."
        return Judged((Notice(level, count_words(off)),), doubt=doubt)

    return Question(f"{stretch_words(opened.plan, counted)} How many are there?", judge, hint=str(counted.beads))


def beads_typed(text: str) -> int | None:
    """A typed number of beads, None where it is none."""
    digits = text.strip()
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) < 7 else None


def note_question(opened: OpenPiece, begin_with: str = "") -> Question:
    """What is there to note?"""
    return Question(f"A note at step {opened.piece.done}.", lambda text: Judged(takes=bool(plain(text))), begin_with)


def in_hand_question() -> Question:
    """Is the piece to be taken from another window?"""
    prompt = "Take the piece in hand here?\nThe other window then follows along."
    return Question(prompt, lambda text: Judged(), hint="Enter takes it in hand")


def jump_question(opened: OpenPiece) -> Question:
    """Up to which step is it really made?"""

    def judge(text: str) -> Judged:
        to = jump_target(opened.plan, text)
        if to is None:
            return Judged((Notice("quiet", _steps_there_are(opened.plan)),) if text.strip() else (), takes=False)
        done = opened.piece.done
        if to == done:
            return Judged((Notice("quiet", f"{done} steps are made already."),), takes=False)
        if to > done:
            said = f"Steps {done + 1} to {to} count as made." if to > done + 1 else f"Step {to} counts as made."
        else:
            said = f"Steps {to + 1} to {done} are taken back." if to + 1 < done else f"Step {done} is taken back."
        return Judged((Notice("watch", f"{said} One «take back» undoes it."),))

    return Question("Up to which step is the piece really made?", judge, hint=_steps_there_are(opened.plan))


def _steps_there_are(plan: Plan) -> str:
    if len(plan.strands) == 1:
        return f"a number from 0 to {plan.total_steps}"
    return "ENTRY:NUMBER, such as " + ", ".join(f"{s.label}:{len(s.steps)}" for s in plan.strands[:3])


def jump_target(plan: Plan, text: str) -> int | None:
    """The piece's step for a typed NUMBER or ENTRY:NUMBER, None where there is none."""
    label, colon, digits = text.strip().rpartition(":")
    if not (digits.isascii() and digits.isdigit() and len(digits) < 8):
        return None
    labels = [strand.label for strand in plan.strands]
    if len(labels) == 1 and not colon:
        label = labels[0]
    if label not in labels or int(digits) > len(plan.strands[labels.index(label)].steps):
        return None
    return plan.piece_step(labels.index(label), int(digits))


def finish_question(opened: OpenPiece) -> Question:
    """How long did it come out?"""
    unit = display_unit(opened.plan.unit)

    def judge(text: str) -> Judged:
        if not text.strip():
            return Judged((Notice("quiet", "Enter alone closes the piece without a length."),))
        try:
            length_mm = typed_mm(text, opened.plan.unit)
        except LengthError as error:
            return Judged((Notice("quiet", str(error)),), takes=False)
        off = length_mm / opened.plan.finished_length_mm if opened.plan.finished_length_mm else 1
        doubt = "" if 0.7 < off < 1.3 else "That is far from the plan. Enter once more takes it all the same."
        aim_mm = opened.plan.finished_length_mm if opened.plan.target_mm is None else opened.plan.target_mm
        over_mm = length_mm - aim_mm
        side = "over" if over_mm > 0 else "short of"
        held = f"{difference(abs(over_mm), unit)} {side} {show(aim_mm, unit)}"
        held = "as it should be" if abs(over_mm) < UNNOTICED_MM else held
        return Judged((Notice("quiet", f"{show(length_mm, unit)}: {held}."),), doubt=doubt)

    return Question(
        "How long did it come out, end to end when closed?", judge, hint=f"a bare number is in {UNIT_WORDS[unit]}"
    )


def left_question(opened: OpenPiece) -> Question:
    """How much cord is left?"""
    unit = display_unit(opened.plan.unit)

    def judge(text: str) -> Judged:
        if not text.strip():
            return Judged((Notice("quiet", "Enter alone goes on without it."),))
        try:
            left_mm = typed_mm(text, opened.plan.unit)
        except LengthError as error:
            return Judged((Notice("quiet", str(error)),), takes=False)
        return Judged((Notice("quiet", left_words(left_mm, opened.plan.strands[-1].layers, unit)),))

    layer = "One layer of the cord" if opened.plan.strands[-1].layers > 1 else "The cord"
    prompt = f"{layer} that was left over past the closure, with what was trimmed off: how long?"
    return Question(prompt, judge, hint=f"a bare number is in {UNIT_WORDS[unit]}")


def learn_question(taught: Teaching) -> Question:
    """Is the card to learn from the piece?"""

    def judge(text: str) -> Judged:
        return Judged((Notice("quiet", "Enter alone: it learns." if learns(text) else "It does not learn."),))

    lines = "\n".join(taught.lines)
    return Question(f"Let the card {plain(taught.card, 60)} learn from it?\n{lines}", judge, hint="n: no")


def learns(text: str) -> bool:
    """Whether the answer is yes: nothing typed, or a word that begins with y."""
    return text.strip().lower()[:1] in ("", "y")
