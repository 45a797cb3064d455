"""Before the first knot: what to cut, what to lay out, what to mind; the maker enters the length really cut."""

from __future__ import annotations

from pathlib import Path

from textual import work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from companion.core.journal.events import CutEntered
from companion.core.plan.card_choice import AS_DESIGNED
from companion.core.plan.tray import beads_to_count_out
from companion.core.values.errors import NotConfirmed, WorkshopError
from companion.core.values.show_lengths import display_unit, show, show_both
from companion.core.values.text import plain, sentences
from companion.core.words.cautions import cautions
from companion.core.words.cut_words import cut_lines, cut_list, cut_questioned
from companion.core.words.notices import Notice, heading
from companion.core.words.plan_words import fit_line, tools_line
from companion.tui.commands import START, bindings
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.lengths import TypedLength, length_judge
from companion.tui.dialogs.question import ONCE_MORE, Judged, Question, not_yet
from companion.tui.screens.base import Page
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import Planned


class StartScreen(Page):
    """One design about to become a piece."""

    BINDINGS = bindings(*START)
    COMMANDS_HERE = START

    def __init__(self, path: Path, planned: Planned) -> None:
        super().__init__()
        assert planned.plan is not None
        self.path, self.planned, self.plan = path, planned, planned.plan
        self.help_plan = self.plan
        self.cuts: dict[int, CutEntered] = {}
        self.choice = AS_DESIGNED

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled(heading(self.plan), "bold"), id="heading")
        with VerticalScroll(id="page"):
            yield Paragraphs(self._text(), id="plan")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*START)

    def on_mount(self) -> None:
        self.query_one("#page").can_focus = False

    def _text(self) -> list[Paragraph]:
        plan, unit = self.plan, display_unit(self.plan.unit)
        own, other = show_both(plan.finished_length_mm, unit)
        told = [Paragraph(f"△ {warning.text}", "$warning", 2) for warning in plan.warnings]
        told += [Paragraph("  " * line.depth + line.text, "bold" if line.strong else "", 6) for line in cut_list(plan)]
        for cord, cut in self.cuts.items():
            told.append(Paragraph(f"  really cut ({plan.cuts[cord].name}): {show(cut.length_mm, unit)}", "bold", 6))
            told += [Paragraph(f"    {line}", hang=6) for line in cut_lines(plan, cord, cut.length_mm)]
        told += [Paragraph(), Paragraph("Count out", "bold")]
        told += [Paragraph(f"  {count:>4} {kind.name}", hang=7) for kind, count in beads_to_count_out(plan)]
        target = f"; the target is {show(plan.target_mm, unit)}" if plan.target_mm is not None else ""
        told += [
            Paragraph(tools_line(plan), hang=2),
            Paragraph(),
            Paragraph(f"It will be {own} ({other}) long when closed{target}.", hang=2),
        ]
        if fit := fit_line(plan):
            told.append(Paragraph(fit, hang=2))
        told += [Paragraph(), Paragraph("Mind", "bold")]
        return [*told, *(Paragraph(f"  {caution.text}", hang=4) for caution in cautions(plan))]

    @work
    async def action_enter_cut(self) -> None:
        """Ask for the length really cut, cord by cord."""
        for cord in range(len(self.plan.cuts)):
            entered = await self.answer(AskDialog(self._question(cord)))
            if entered is None:
                return
            self.cuts.pop(cord, None)
            self.cuts.update((cut.cord, cut) for cut in entered)
            self.query_one("#plan", Paragraphs).show(self._text())
            said = f"Enter begins with {self._cuts_in_words()}." if self.cuts else ""
            self.query_one("#said", TextLine).show(said)

    @work
    async def action_choose_card(self) -> None:
        """Another cord card for this piece, or an estimate: cut, risk and warnings follow at once."""
        from companion.tui.card_choices import card_choices
        from companion.tui.dialogs.choose import ChoiceDialog

        try:
            choices = card_choices(self.workshop.cards(), self.plan.cord, self.choice)
            choice = await self.answer(ChoiceDialog(choices))
            if choice is None:
                return
            planned = self.workshop.planned_by(self.path, self.planned, choice)
        except WorkshopError as error:
            self.query_one("#said", TextLine).say((Notice("off", str(error)),))
            return
        if planned.plan is None:
            self.query_one("#said", TextLine).say((Notice("off", planned.problems[-1].found),))
            return
        self.choice, self.planned, self.plan = choice, planned, planned.plan
        self.help_plan = self.plan
        self.query_one("#plan", Paragraphs).show(self._text())
        self.query_one("#page").scroll_home(animate=False)
        numbers = {"design": "as the design says", "estimate": "by an estimate", "card": f"by the card {choice.card}"}
        self.query_one("#said", TextLine).show(plain(f"Planned {numbers[choice.source]}.", 200))

    def _cuts_in_words(self) -> str:
        return "the cut you entered" if len(self.cuts) == 1 else "the cuts you entered"

    def _question(self, cord: int) -> Question[tuple[CutEntered, ...]]:
        """How long is that cord really? No cut for the planned one."""
        cut = self.plan.cuts[cord]
        name = f" for {cut.name}" if len(self.plan.cuts) > 1 else ""
        shown = show(cut.cut_mm, display_unit(self.plan.unit))
        layers = {1: "", 2: ", both layers together"}.get(cut.layers, f", all {cut.layers} layers together")
        prompt = f"How long is the cord you cut{name}{layers}? Planned: {shown}."
        as_planned: Judged[tuple[CutEntered, ...]] = Judged(())
        judge = length_judge(self.plan.unit, lambda length: self._judge(cord, length), as_planned)
        return Question(prompt, judge, hint=f"Enter alone: {shown}, as planned")

    def _judge(self, cord: int, length: TypedLength) -> Judged[tuple[CutEntered, ...]]:
        if length.mm <= 0:
            return not_yet("A cut is longer than nothing.")
        lines = cut_lines(self.plan, cord, length.mm)
        doubt = ""
        if cut_questioned(self.plan, cord, length.mm):
            doubt = sentences(*(line.text for line in lines), ONCE_MORE)
        return Judged((CutEntered(cord, length.mm, length.text),), lines, doubt)

    def action_cursor_up(self) -> None:
        """Read on upward."""
        self.query_one("#page").scroll_up(animate=False)

    def action_cursor_down(self) -> None:
        """Read on downward."""
        self.query_one("#page").scroll_down(animate=False)

    def action_begin(self) -> None:
        """Begin the piece."""
        try:
            piece = self.workshop.start(self.path, [self.cuts[cord] for cord in sorted(self.cuts)], self.planned)
        except NotConfirmed as error:  # beginning once more would make a second piece: the bench shows what there is
            self.companion.to_bench(str(error), "off")
            return
        except WorkshopError as error:
            self.query_one("#said", TextLine).say((Notice("off", str(error)),))
            return
        self.companion.follow(piece)

    def action_leave(self) -> None:
        """Back without beginning."""
        self.companion.to_bench()
