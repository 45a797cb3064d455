"""Which piece is followed at the prompt: the one of that design, the one that is chosen, or a new one, with its cut."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from pathlib import Path

from companion.cli.arguments import Wrong, whole_number
from companion.cli.design_report import planned_design
from companion.cli.lines.follower import follow
from companion.cli.lines.prompt import Left, Prompt, prompt_on_input
from companion.cli.lines.session import LineSession
from companion.cli.plan_text import plan_lines
from companion.cli.printing import say
from companion.cli.typed_lengths import fitting_length_mm
from companion.core.journal.events import CutEntered
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show_up
from companion.core.values.text import count_word, plain
from companion.core.words.cut_words import cut_lines, cut_questioned
from companion.workshop import OpenPiece, PieceRow, Planned, Workshop

NOTHING_BEGUN = "Nothing was begun."
LIKELY_CUT = (0.5, 5.0)  # shares of the planned cut between which a bare number is in the right unit; our own choice


def follow_lines(workshop: Workshop, design: str | None, opened: OpenPiece | None, new: bool) -> int:
    """Follow a piece at the prompt: that one, or one of that design."""
    gc.enable()  # it is off while a command starts, and this one may run for days
    try:
        prompt = prompt_on_input(workshop.settings.bounce_seconds)
        if opened is None:
            assert design is not None
            opened = None if new else _under_way(workshop, Path(design), prompt)
        if opened is not None:
            return _go_on(workshop, opened, prompt)
        assert design is not None
        return _begin(workshop, Path(design), planned_design(workshop, design), prompt)
    except Left:
        say(NOTHING_BEGUN)
        return 0
    except KeyboardInterrupt:
        say(NOTHING_BEGUN)
        return 130


def _under_way(workshop: Workshop, path: Path, prompt: Prompt) -> OpenPiece | None:
    """The piece of that design that is under way, where there are several the one that is chosen; None for none."""
    rows = workshop.pieces_of(path)
    if len(rows) < 2:
        return workshop.open(rows[0].name) if rows else None
    say("Several pieces of this design are under way:")
    for number, row in enumerate(rows, start=1):
        say(f"{number}: {row.name}, step {row.steps_done} of {row.steps_total}")
    return workshop.open(_chosen(rows, prompt).name)


def _chosen(rows: Sequence[PieceRow], prompt: Prompt) -> PieceRow:
    while True:
        say("Which number? Press Enter for 1, the latest.")
        text = prompt.answer()
        try:
            number = whole_number(text, "the number of a piece") if text else 1
        except Wrong as wrong:
            say(str(wrong))
            continue
        if 1 <= number <= len(rows):
            return rows[number - 1]
        say(f"There is no number {number}; there are {len(rows)}.")


def _go_on(workshop: Workshop, opened: OpenPiece, prompt: Prompt) -> int:
    session = LineSession(workshop, opened, prompt)
    session.say_where_it_stands()
    all_done = opened.piece.done == opened.plan.total_steps
    enter = "Press Enter to finish the piece" if all_done else "Press Enter when a step is done"
    say(f"{enter}; type ? for all that can be typed.")
    return follow(session)


def _begin(workshop: Workshop, path: Path, planned: Planned, prompt: Prompt) -> int:
    plan = planned.plan
    if plan is None:
        return 1
    for line in plan_lines(plan, steps=False):
        say(line)
    say()
    cuts = [cut for cord in range(len(plan.cuts)) for cut in _asked_cut(plan, cord, prompt)]
    opened = workshop.start(path, cuts, planned)
    say(f"Begun: {opened.name}. Press Enter when a step is done; type ? for all that can be typed.")
    session = LineSession(workshop, opened, prompt)
    session.say_next()
    return follow(session)


def _asked_cut(plan: Plan, cord: int, prompt: Prompt) -> tuple[CutEntered, ...]:
    """How long that cord was really cut; none for the planned length. One much too short is asked about once more."""
    cut, unit = plan.cuts[cord], display_unit(plan.unit)
    name = f" for {cut.name}" if len(plan.cuts) > 1 else ""
    folded = (
        f", all {count_word(cut.layers)} lengths together"
        if cut.layers > 2
        else ", both halves together"
        if cut.layers == 2
        else ""
    )
    low, high = LIKELY_CUT
    planned = show_up(cut.cut_mm, unit)
    while True:
        say(f"How long is the cord you cut{name}{folded}? Press Enter for {planned}, as planned.")
        text = prompt.answer()
        if not text:
            return ()
        try:
            mm = fitting_length_mm(text, plan, lambda mm: low <= mm / cut.cut_mm <= high, above_zero=True)
        except Wrong as wrong:
            say(str(wrong))
            continue
        for line in cut_lines(plan, cord, mm):
            say(str(line))
        if cut_questioned(plan, cord, mm):
            say("Type y to go on with it; anything else asks again.")
            if prompt.answer()[:1] not in ("y", "Y"):
                continue
        return (CutEntered(cord, mm, plain(text, 40)),)
