"""Several pieces of one design are under way: which one?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.content import Content

from companion.tui.commands import CHOOSE, bindings
from companion.tui.piece_rows import since
from companion.tui.screens.base import Page
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import PieceRow


class ChooseScreen(Page):
    """The pieces of one design that are under way."""

    BINDINGS = bindings(*CHOOSE)
    COMMANDS_HERE = CHOOSE

    def __init__(self, path: Path, pieces: Sequence[PieceRow]) -> None:
        super().__init__()
        self.path, self.pieces = path, pieces

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled("Several pieces of this design are under way. Which one?", "bold"), id="heading")
        yield TextLine("")
        yield Rows([Row(self._words(row), row.name) for row in self.pieces], id="rows")
        yield Rule()
        yield KeyLine(*CHOOSE)

    def on_mount(self) -> None:
        self.query_one(Rows).focus()

    def _words(self, row: PieceRow) -> str:
        return f"{row.name:<30.30}  step {row.steps_done} of {row.steps_total}   {since(row.touched_at)}"

    def action_cursor_up(self) -> None:
        self.query_one(Rows).move(-1)

    def action_cursor_down(self) -> None:
        self.query_one(Rows).move(1)

    @on(Rows.Chosen)
    async def chosen(self) -> None:
        await self.click("open_row")

    def action_open_row(self) -> None:
        """Go on with that one."""
        name = self.query_one(Rows).chosen
        if isinstance(name, str):
            self.companion.open_piece(name)

    def action_begin_another(self) -> None:
        """Begin another."""
        self.companion.open_design(self.path, new=True)

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()
