"""The plan at hand: cut, beads, findings, tools, all steps, readings, notes and journal of a piece."""

from __future__ import annotations

from pathlib import Path

from textual import work

from companion.core.plan.plan import Plan
from companion.core.values.errors import WorkshopError
from companion.core.words.event_words import event_words
from companion.core.words.notices import Notice, PieceLine, heading
from companion.core.words.piece_page import design_page, piece_page
from companion.tui.commands import DESIGN_PLAN, ENTER_CUT, PLAN, Command, bindings
from companion.tui.page import TextPage
from companion.tui.routes import ToBench, ToDesign, ToDraft, ToPiece, ToSteps
from companion.tui.widgets.paragraphs import Paragraph
from companion.workshop import OpenPiece, Workshop


def journal_lines(workshop: Workshop, opened: OpenPiece) -> list[str]:
    """Every event of a piece with its time, in words. Raises WorkshopError."""
    return [
        f"{entry.at.astimezone():%Y-%m-%d %H:%M}  {event_words(plan, entry.event, act)}"
        for entry, plan, act in workshop.journal_with_plans(opened)
    ]


def paragraphs_of(lines: list[PieceLine]) -> list[Paragraph]:
    """The lines of a page as it shows them."""
    return [
        Paragraph("  " * line.depth + line.text, "bold" if line.heading else "", 2 * line.depth + 4) for line in lines
    ]


class DesignPlanScreen(TextPage):
    """The plan of a design: what a piece of it takes, and all steps, before one is begun."""

    BINDINGS = bindings(*DESIGN_PLAN)
    COMMANDS_HERE = DESIGN_PLAN

    def __init__(self, path: Path, plan: Plan) -> None:
        super().__init__()
        self.path, self.plan, self.help_plan, self.heading = path, plan, plan, heading(plan)

    def text(self) -> list[Paragraph]:
        """The page."""
        warnings = [Paragraph(f"△ {warning.text}", "$warning", 2) for warning in self.plan.warnings]
        return [*warnings, *paragraphs_of(list(design_page(self.plan, self.workshop.settings.arm_mm)))]

    def action_begin(self) -> None:
        """Begin a piece of it."""
        self.go(ToDesign(self.path, new=True))

    def action_copy_design(self) -> None:
        """Make a design from a copy of it."""
        self.go(ToDraft(self.path))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench(at=ToDesign(self.path)))


class PlanScreen(TextPage):
    """All there is to know of a piece. Before the first step the cut can still be entered."""

    BINDINGS = bindings(*PLAN)
    COMMANDS_HERE = PLAN

    def __init__(self, workshop: Workshop, opened: OpenPiece) -> None:
        super().__init__()
        self.opened, self.help_plan, self.heading = opened, opened.plan, heading(opened.plan, opened.name)
        self.journal = journal_lines(workshop, opened)

    def text(self) -> list[Paragraph]:
        """The page."""
        opened, arm_mm = self.opened, self.workshop.settings.arm_mm
        outlook = self.workshop.outlook(opened) if opened.piece.readings else None
        return paragraphs_of(list(piece_page(opened.plan, opened.piece, self.journal, arm_mm, outlook)))

    def _can_enter_cut(self) -> bool:
        return self.opened.piece.done == 0 and self.opened.piece.state == "under way"

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something as the piece stands."""
        return tuple(command for command in PLAN if command is not ENTER_CUT or self._can_enter_cut())

    @work
    async def action_enter_cut(self) -> None:
        """The length really cut, until the first step is done."""
        from companion.tui.dialogs.ask import AskDialog
        from companion.tui.start.cut_question import cut_question

        if not self._can_enter_cut():
            self.say(
                Notice(
                    "quiet",
                    "The cut can be entered until the first step is done. After that, measure the leftover cord (c).",
                )
            )
            return
        for cord in range(len(self.opened.plan.cuts)):
            entered = await self.answer(AskDialog(cut_question(self.opened.plan, cord)))
            if entered is None:
                return
            try:
                for cut in entered:
                    self.opened = self.workshop.enter_cut(self.opened, cut.cord, cut.length_mm, cut.typed)
            except WorkshopError as error:
                self.say(Notice("off", str(error)))
                return
        self.journal = journal_lines(self.workshop, self.opened)
        self.show_text()

    @work
    async def action_show_readings(self) -> None:
        """All readings; any of them can be taken out, or put back, while the piece is under way."""
        from companion.tui.follow.session import PieceSession
        from companion.tui.piece.reading_list import go_over_readings

        session = PieceSession(self.workshop, self.opened, lambda wait: None)
        session.look_where_it_is_open()
        await go_over_readings(self, session)
        if session.opened is not self.opened:
            self.opened, self.journal = session.opened, journal_lines(self.workshop, session.opened)
            self.show_text()
        self.say(*([session.said] if session.said else []))

    def action_leave(self) -> None:
        """Back to the steps, or to the result of a piece that is finished."""
        under_way = self.opened.piece.state == "under way"
        self.go(ToSteps(self.opened) if under_way else ToPiece(self.opened.name))
