"""Coming back: what was made last, what to count again, what the ruler should say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reading_words import expected_reading
from companion.core.words.measured.verdict_words import Keys, verdict_line
from companion.core.words.notices import heading
from companion.core.words.recap import recap
from companion.tui.commands import RECAP, bindings
from companion.tui.follow.session import PieceSession
from companion.tui.moving import MovesThrough, TextScroll
from companion.tui.page import ROOMY_COLUMNS, TALL_ROWS, Page
from companion.tui.routes import ToBench, ToPiece, ToPlan, ToSteps
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook


CARRIED_ON: Keys = {"recount": "carry on, then press r"}  # what answers a sentence is a key of the next page


class RecapScreen(MovesThrough, Page):
    """Where the piece stands, before the work goes on."""

    BINDINGS = bindings(*RECAP)
    COMMANDS_HERE = RECAP

    def __init__(self, session: PieceSession) -> None:
        super().__init__()
        self.session, self.help_plan = session, session.plan

    def compose(self) -> ComposeResult:
        outlook = self.session.outlook_at_once()
        yield TextLine(Content.styled(heading(self.session.plan, self.session.opened.name), "bold"), id="heading")
        with TextScroll(id="page"):
            yield Paragraphs(self._text(outlook), id="recap")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*RECAP)
        self.call_after_refresh(self._show_picture)
        if outlook is None:
            self.app.run_worker(self._work_out())

    async def _show_picture(self) -> None:
        """The strand around the last step, where there is room below what there is to read; the words stand first."""
        if not self.is_attached or self.size.height < TALL_ROWS:
            return
        from companion.tui.follow.picture.drawn_picture import DrawnPicture, WholePiece
        from companion.tui.follow.picture.strand_picture import StrandPicture

        plan, done = self.session.plan, self.session.piece.done
        entry, number = plan.place(min(done + 1, plan.total_steps))
        drawn = self.has_class("-high") and self.size.width >= ROOMY_COLUMNS and draws(terminal_of(self.app))
        self.set_class(drawn, "-drawn")
        pictures = (DrawnPicture(plan, classes="-here"), WholePiece(plan)) if drawn else (StrandPicture(plan),)
        await self.mount(Vertical(*pictures, id="where"), before="#said")
        self.add_class("-pictured")
        for picture in pictures:
            picture.show(plan, entry, number - 1 if done < plan.total_steps else number)

    async def _work_out(self) -> None:
        outlook = await self.session.outlook()
        if self.is_attached:
            self.query_one("#recap", Paragraphs).show(self._text(outlook))

    def _text(self, outlook: Outlook | None) -> list[Paragraph]:
        """What there is to say; `outlook`: None while it is being worked out."""
        plan, piece = self.session.plan, self.session.piece
        strand_mm = expected_reading(plan, piece, outlook, "strand").mean_mm if outlook else None
        told = recap(plan, piece, strand_mm, CARRIED_ON["recount"])
        lines = [told.recount, told.length if outlook else "", told.next]
        if outlook:
            warnings = (verdict_line(plan, piece, outlook, CARRIED_ON), cord_line(plan, outlook))
            lines += [str(words) for words in warnings if words.level != "quiet"]
        notes = [note for note in piece.notes if piece.done - note.step <= 5]
        lines += [f"Note at step {note.step}: {note.text}" for note in notes[-3:]]
        if self.workshop.design_differs(self.session.opened):
            lines.append("The design file has changed since; the piece keeps its own copy.")
        parts = [Paragraph(told.last, "bold"), *(Paragraph(line) for line in lines if line)]
        return [shown for part in parts for shown in (part, Paragraph())]

    def action_go_on(self) -> None:
        """The count is right: follow."""
        self.go(ToSteps(self.session.opened))

    def action_show_plan(self) -> None:
        """The plan at hand."""
        self.go(ToPlan(self.session.opened))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench(at=ToPiece(self.session.opened.name)))
