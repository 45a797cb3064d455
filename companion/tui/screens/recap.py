"""Coming back: what was made last, what to count again, what the ruler should say."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from companion.core.words.cord_words import cord_line
from companion.core.words.notices import heading
from companion.core.words.reading_words import expected_reading
from companion.core.words.recap import recap
from companion.core.words.verdict_words import verdict_line
from companion.tui.commands import RECAP, bindings
from companion.tui.screens.base import Page
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import OpenPiece


class RecapScreen(Page):
    """Where the piece stands, before the work goes on."""

    BINDINGS = bindings(*RECAP)
    COMMANDS_HERE = RECAP

    def __init__(self, opened: OpenPiece) -> None:
        super().__init__()
        self.opened, self.help_plan = opened, opened.plan

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled(heading(self.opened.plan), "bold"), id="heading")
        with VerticalScroll(id="page"):
            yield Paragraphs(self._text())
        yield Rule()
        yield KeyLine(*RECAP)

    def _text(self) -> list[Paragraph]:
        opened = self.opened
        outlook = self.workshop.outlook(opened)
        told = recap(opened.plan, opened.piece, expected_reading(opened.plan, opened.piece, outlook, "strand").mean_mm)
        lines = [line for line in (told.recount, told.length, told.next) if line]
        for words in (verdict_line(opened.plan, opened.piece, outlook), cord_line(opened.plan, outlook)):
            if words.level != "quiet":
                lines.append(str(words))
        notes = [note for note in opened.piece.notes if opened.piece.done - note.step <= 5]
        lines += [f"Note at step {note.step}: {note.text}" for note in notes[-3:]]
        if self.workshop.design_differs(opened):
            lines.append("The design file has changed since; the piece goes by its own copy.")
        parts = [Paragraph(told.last, "bold"), *(Paragraph(line) for line in lines)]
        return [shown for part in parts for shown in (part, Paragraph())]

    def action_go_on(self) -> None:
        """The count is right: follow."""
        self.companion.follow(self.opened)

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()
