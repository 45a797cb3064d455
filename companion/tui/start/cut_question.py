"""How long is the cord that was really cut?"""

from __future__ import annotations

from companion.core.journal.events import CutEntered
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show_up
from companion.core.values.text import count_word, sentences
from companion.core.words.cut_words import cut_lines, cut_questioned
from companion.tui.dialogs.lengths import TypedLength, length_judge
from companion.tui.dialogs.question import ONCE_MORE, Judged, Question, not_yet

LAYERS = {1: "", 2: ", both halves together"}


def cut_question(plan: Plan, cord: int) -> Question[tuple[CutEntered, ...]]:
    """How long is that cord really? The answer holds no cut where it is the planned one."""
    cut = plan.cuts[cord]
    name = f" for {cut.name}" if len(plan.cuts) > 1 else ""
    shown = show_up(cut.cut_mm, display_unit(plan.unit))
    layers = LAYERS.get(cut.layers, f", all {count_word(cut.layers)} lengths together")

    def mean(length: TypedLength) -> Judged[tuple[CutEntered, ...]]:
        if length.mm <= 0:
            return not_yet("Enter a length above zero.")
        lines = cut_lines(plan, cord, length.mm)
        doubted = cut_questioned(plan, cord, length.mm)
        doubt = sentences(*(line.text for line in lines), ONCE_MORE) if doubted else ""
        return Judged((CutEntered(cord, length.mm, length.text),), lines, doubt)

    as_planned: Judged[tuple[CutEntered, ...]] = Judged(())
    return Question(
        f"How long is the cord you cut{name}{layers}? The plan says {shown}.",
        length_judge(plan.unit, mean, as_planned),
        hint=f"Press Enter for {shown}, as planned",
    )
