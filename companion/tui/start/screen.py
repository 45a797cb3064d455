"""Before the first knot: what to cut, what to lay out, what to take care of; the maker enters the length really cut."""

from __future__ import annotations

from pathlib import Path

from textual import work

from companion.core.cord.cord import AS_DESIGNED
from companion.core.journal.events import CutEntered
from companion.core.values.errors import NotConfirmed, WorkshopError
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import plain
from companion.core.words.cut_words import cut_lines, cut_list
from companion.core.words.notices import Notice, heading
from companion.core.words.plan_words import (
    count_out_lines,
    fit_line,
    length_line,
    needed_lines,
    opened_line,
    stringing_lines,
)
from companion.core.words.trade.cautions import cautions
from companion.tui.commands import START, bindings
from companion.tui.dialogs.ask import AskDialog
from companion.tui.page import TextPage
from companion.tui.routes import ToBench, ToSteps
from companion.tui.start.cut_question import cut_question
from companion.tui.widgets.paragraphs import Paragraph
from companion.workshop import Planned


class StartScreen(TextPage):
    """One design about to become a piece."""

    BINDINGS = bindings(*START)
    COMMANDS_HERE = START

    def __init__(self, path: Path, planned: Planned) -> None:
        super().__init__()
        assert planned.plan is not None
        self.path, self.planned, self.plan = path, planned, planned.plan
        self.help_plan, self.heading = self.plan, heading(self.plan)
        self.cuts: dict[int, CutEntered] = {}
        self.choice = AS_DESIGNED

    def text(self) -> list[Paragraph]:
        """What to cut, to lay out and to take care of."""
        plan, unit, arm_mm = self.plan, display_unit(self.plan.unit), self.workshop.settings.arm_mm
        told = [Paragraph(f"△ {warning.text}", "$warning", 2) for warning in plan.warnings]
        told += [
            Paragraph("  " * line.depth + line.text, "bold" if line.strong else "", 6)
            for line in cut_list(plan, arm_mm)
        ]
        for cord, cut in self.cuts.items():
            told.append(Paragraph(f"  really cut ({plan.cuts[cord].name}): {show(cut.length_mm, unit)}", "bold", 6))
            told += [Paragraph(f"    {line}", hang=6) for line in cut_lines(plan, cord, cut.length_mm)]
        told += [Paragraph(), Paragraph("Count out", "bold")]
        told += [Paragraph(f"  {line}", hang=7) for line in count_out_lines(plan)]
        if order := list(stringing_lines(plan)):
            told.append(Paragraph("String first, in this order", "bold"))
            told += [Paragraph(f"  {line}", hang=4) for line in order]
        told += [Paragraph("You will need", "bold"), *(Paragraph(f"  {line}", hang=4) for line in needed_lines(plan))]
        told.append(Paragraph())
        told += [Paragraph(line, hang=2) for line in (length_line(plan), opened_line(plan), fit_line(plan)) if line]
        told += [Paragraph(), Paragraph("Take care", "bold")]
        return [*told, *(Paragraph(f"  {caution.text}", hang=4) for caution in cautions(plan))]

    @work
    async def action_enter_cut(self) -> None:
        """Ask for the length really cut, cord by cord."""
        for cord in range(len(self.plan.cuts)):
            entered = await self.answer(AskDialog(cut_question(self.plan, cord)))
            if entered is None:
                return
            self.cuts.pop(cord, None)
            self.cuts.update((cut.cord, cut) for cut in entered)
            self.show_text()
            entered_cuts = "the cut you entered" if len(self.cuts) == 1 else "the cuts you entered"
            self.say(*[Notice("quiet", f"Enter begins with {entered_cuts}.")] if self.cuts else ())

    @work
    async def action_choose_card(self) -> None:
        """Another cord card for this piece, or an estimate: cut, risk and warnings follow at once."""
        from companion.tui.dialogs.choose import ChoiceDialog
        from companion.tui.start.card_choices import card_choices

        try:
            choices = card_choices(self.workshop.cards(), self.plan.cord, self.choice)
            choice = await self.answer(ChoiceDialog(choices))
            if choice is None:
                return
            planned = self.workshop.planned_by(self.path, self.planned, choice)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return
        if planned.plan is None:
            self.say(Notice("off", planned.problems[-1].found))
            return
        self.choice, self.planned, self.plan = choice, planned, planned.plan
        self.help_plan = self.plan
        self.show_text()
        self.query_one("#page").scroll_home(animate=False)
        numbers = {"design": "as the design says", "estimate": "by an estimate", "card": f"by the card {choice.card}"}
        self.say(Notice("quiet", plain(f"Planned {numbers[choice.source]}.", 200)))

    def action_begin(self) -> None:
        """Begin the piece."""
        try:
            piece = self.workshop.start(self.path, [self.cuts[cord] for cord in sorted(self.cuts)], self.planned)
        except NotConfirmed as error:  # beginning once more would make a second piece: the bench shows what there is
            self.go(ToBench(Notice("off", str(error))))
            return
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return
        self.go(ToSteps(piece))

    def action_leave(self) -> None:
        """Back without beginning."""
        self.go(ToBench())
