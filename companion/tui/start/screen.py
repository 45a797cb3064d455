"""Before the first knot: what to cut, what to lay out, what to take care of; the maker enters the length really cut."""

from __future__ import annotations

from pathlib import Path

from textual import work

from companion.core.cord.cord import AS_DESIGNED
from companion.core.journal.events import CutEntered
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan
from companion.core.values.errors import NotConfirmed, WorkshopError
from companion.core.values.text import plain
from companion.core.words.cut_words import (
    cut_figures,
    cut_lines,
    cut_list,
    extra_cut_lines,
    knot_lines,
    really_cut,
)
from companion.core.words.notices import Notice, heading
from companion.core.words.plan_words import (
    closed_length_lines,
    count_out,
    fit_line,
    length_line,
    needed_lines,
    opened_line,
    order_lines,
)
from companion.core.words.trade.cautions import cautions
from companion.tui.commands import START, bindings
from companion.tui.dialogs.ask import AskDialog
from companion.tui.pictured_page import PicturedPage, WidePage
from companion.tui.routes import ToBench, ToSteps
from companion.tui.start.cut_question import cut_question
from companion.tui.widgets.figures import Figure
from companion.tui.widgets.paragraphs import Paragraph
from companion.workshop import Planned


class StartScreen(PicturedPage):
    """One design about to become a piece."""

    BINDINGS = bindings(*START)
    COMMANDS_HERE = START
    REST = 23

    def __init__(self, path: Path, planned: Planned) -> None:
        super().__init__()
        assert planned.plan is not None
        self.path, self.planned, self.plan = path, planned, planned.plan
        self.help_plan, self.heading = self.plan, heading(self.plan)
        self.cuts: dict[int, CutEntered] = {}
        self.choice = AS_DESIGNED

    def text(self) -> list[Paragraph]:
        """What to cut, to lay out and to take care of."""
        plan, arm_mm = self.plan, self.workshop.settings.arm_mm
        cut = [
            Paragraph("  " * line.depth + line.text, "bold" if line.strong else "", 6)
            for line in cut_list(plan, arm_mm)
        ]
        laid_out = [*self._count_out(), Paragraph(), *self._needed(), Paragraph(), *self._lengths()]
        return [*self._warnings(), *cut, *self._really_cut(), Paragraph(), *laid_out, Paragraph(), *self._cautions()]

    def pictured(self) -> Plan:
        """The piece that is to come."""
        return self.plan

    def spread(self) -> WidePage:
        """The cut large, the piece, what is needed in two columns, cautions last."""
        plan = self.plan
        figures = [Figure(cut.number, cut.unit, cut.lines) for cut in cut_figures(plan, self.workshop.settings.arm_mm)]
        knots = [Paragraph(f"  {line}", hang=6) for line in (*extra_cut_lines(plan), *knot_lines(plan))]
        return WidePage(
            above=[*self._warnings(), Paragraph("Cut", "bold")],
            figures=figures,
            under=self._really_cut(),
            inside=closed_length_lines(plan),
            left=self._count_out(marked=True),
            right=[*self._needed(), Paragraph(), *self._lengths()],
            below=[Paragraph(), Paragraph("The cord", "bold"), *knots, Paragraph(), *self._cautions()],
        )

    def _warnings(self) -> list[Paragraph]:
        return [Paragraph(f"△ {warning.text}", "$warning", 2) for warning in self.plan.warnings]

    def _really_cut(self) -> list[Paragraph]:
        """The cuts that were entered, each with its risk."""
        told = []
        for cord, cut in self.cuts.items():
            told.append(Paragraph(f"  {really_cut(self.plan, cord, cut.length_mm)}", "bold", 6))
            told += [Paragraph(f"    {line}", hang=6) for line in cut_lines(self.plan, cord, cut.length_mm)]
        return told

    def _count_out(self, marked: bool = False) -> list[Paragraph]:
        """The beads, and in which order to string them; `marked`: each with the mark that it has on the drawing."""
        marks = {mark.key: mark for mark in marks_of(self.plan.beads)}
        told = [Paragraph("Count out", "bold")]
        for key, line in count_out(self.plan):
            lead, colour = (f"  ● {marks[key].letter}", marks[key].colour) if marked else ("", None)
            told.append(Paragraph(f"{lead}  {line}", "", len(lead) + 7, len(lead), colour))
        if order := order_lines(self.plan):
            title, *lines = order
            told += [Paragraph(), Paragraph(title, "bold"), *(Paragraph(f"  {line}", hang=4) for line in lines)]
        return told

    def _needed(self) -> list[Paragraph]:
        return [
            Paragraph("You will need", "bold"),
            *(Paragraph(f"  {line}", hang=4) for line in needed_lines(self.plan)),
        ]

    def _lengths(self) -> list[Paragraph]:
        lines = (length_line(self.plan), opened_line(self.plan), fit_line(self.plan))
        return [Paragraph(line, hang=2) for line in lines if line]

    def _cautions(self) -> list[Paragraph]:
        told = [Paragraph(f"  {caution.text}", hang=4) for caution in cautions(self.plan)]
        return [Paragraph("Take care", "bold"), *told]

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
