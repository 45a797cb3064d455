"""Coming back: what was made last, what to count again, what the ruler should say."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from companion.core.recap import recap
from companion.core.sentences import heading
from companion.core.words import cord_line, expected_reading, verdict_line
from companion.tui.commands import RECAP, bindings
from companion.tui.screens.base import Page
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Line, Rule
from companion.workshop import WorkPiece


class RecapScreen(Page):
    """Where the piece stands, before the work goes on."""

    BINDINGS = bindings(*RECAP)
    COMMANDS_HERE = RECAP

    def __init__(self, work: WorkPiece) -> None:
        super().__init__()
        self.work, self.help_plan = work, work.plan

    def compose(self) -> ComposeResult:
        yield Line(Content.styled(heading(self.work.plan), "bold"), id="heading")
        with VerticalScroll(id="page"):
            yield Paragraphs(self._text())
        yield Rule()
        yield KeyLine(*RECAP)

    def _text(self) -> list[Paragraph]:
        work = self.work
        outlook = self.workshop.outlook(work)
        told = recap(work.plan, work.piece, expected_reading(work.plan, work.piece, outlook, "strand").mean_mm)
        lines = [line for line in (told.recount, told.length, told.next) if line]
        for words in (verdict_line(work.plan, work.piece, outlook), cord_line(work.plan, work.piece, outlook)):
            if words.loudness != "quiet":
                lines.append(str(words))
        notes = [note for note in work.piece.notes if work.piece.done - note.step <= 5]
        lines += [f"Note at step {note.step}: {note.text}" for note in notes[-3:]]
        if self.workshop.design_differs(work):
            lines.append("The design file has changed since; the piece goes by its own copy.")
        parts = [Paragraph(told.last, "bold"), *(Paragraph(line) for line in lines)]
        return [shown for part in parts for shown in (part, Paragraph())]

    def action_go_on(self) -> None:
        """The count is right: follow."""
        self.companion.follow(self.work)

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()
