"""The opening screen: pieces under way, designs, and what is finished."""

from __future__ import annotations

from pathlib import Path

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.notices import Level, Notice
from companion.tui.commands import BENCH, bindings
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.question import Judged, Question
from companion.tui.piece_rows import piece_rows
from companion.tui.screens.base import Page
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import PieceRow

LOOK_AGAIN_SECONDS = 1.0


class BenchScreen(Page):
    """Everything there is to go on with."""

    BINDINGS = bindings(*BENCH)
    COMMANDS_HERE = BENCH

    def __init__(self, said: str = "", level: Level = "watch") -> None:
        super().__init__()
        self.filter, self.first_said, self.first_loudness = "", said, level

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled("Bench", "bold"), id="heading")
        yield TextLine("")
        yield Rows(id="rows")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*BENCH)

    def on_mount(self) -> None:
        self.show_rows()
        self.say(self.first_said, self.first_loudness)
        self.query_one(Rows).focus()
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)

    def on_resize(self) -> None:
        self.show_rows()

    def on_screen_resume(self) -> None:
        self.show_rows()

    def look_again(self) -> None:
        """Another window or command may have moved a piece on."""
        if self.is_current:
            self.show_rows()

    def show_rows(self) -> None:
        """Read the pieces and designs anew."""
        pieces: tuple[PieceRow, ...] = ()
        try:
            pieces = self.workshop.pieces()
        except WorkshopError as error:
            self.say(str(error))
        listed = self.query_one(Rows)
        rows = self._piece_rows(pieces, "under way", "Under way")
        rows += self._design_rows()
        rows += self._card_rows()
        rows += self._piece_rows(pieces, "finished", "Finished")
        rows = rows or [Row(f"Nothing holds «{plain(self.filter, 30)}».")]
        if tuple(rows) != listed.rows:
            listed.set_rows(rows)

    def _piece_rows(self, pieces: tuple[PieceRow, ...], state: str, title: str) -> list[Row]:
        found = [row for row in pieces if row.state == state and self._holds(row.design_name, row.name)]
        if not found:
            return []
        return [Row(title), *piece_rows(found, self.size.width), Row("")]

    def _design_rows(self) -> list[Row]:
        found = [path for path in self.companion.design_files() if self._holds(path.stem, str(path))]
        if not found:
            return []
        rows = [Row(f"{plain(path.stem, 40)}", ("design", path)) for path in found]
        return [Row("Designs"), *rows, Row("")]

    def _card_rows(self) -> list[Row]:
        """The cord cards, a line each."""
        try:
            cards = self.workshop.cards()
        except WorkshopError:  # said already, for the pieces
            return []
        if not cards or self.filter:
            return []
        from companion.core.words.card_words import card_in_short

        return [Row("Cords"), *(Row(card_in_short(card), ("card", card.name)) for card in cards), Row("")]

    def _holds(self, *texts: str) -> bool:
        return any(self.filter.lower() in text.lower() for text in texts)

    def say(self, text: str, level: Level = "watch") -> None:
        """One sentence under the list."""
        self.query_one("#said", TextLine).say((Notice(level, text),) if text else ())

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.say(text)
        return True

    def action_cursor_up(self) -> None:
        self.query_one(Rows).move(-1)

    def action_cursor_down(self) -> None:
        self.query_one(Rows).move(1)

    @on(Rows.Chosen)
    async def chosen(self) -> None:
        await self.click("open_row")

    def action_open_row(self) -> None:
        """Go on with the piece, or open the design, under the cursor."""
        match self.query_one(Rows).chosen:
            case ("piece", str(name)):
                self.companion.open_piece(name)
            case ("card", str(name)):
                self.open_card(name)
            case ("design", Path() as path):
                self.companion.open_design(path)

    def open_card(self, name: str) -> None:
        """What a cord card knows, and its test knots."""
        from companion.tui.screens.cord_card import CardScreen

        try:
            card = self.workshop.card(name)
        except WorkshopError as error:
            self.say(str(error))
            return
        if card is not None:
            self.app.switch_screen(CardScreen(card))

    def action_show_cords(self) -> None:
        """The cord cards."""
        from companion.tui.screens.cords import CordsScreen

        self.app.switch_screen(CordsScreen())

    def action_begin_another(self) -> None:
        """Another piece of the design under the cursor."""
        match self.query_one(Rows).chosen:
            case ("design", Path() as path):
                self.companion.open_design(path, new=True)
            case ("piece", str(name)):
                try:
                    path = Path(self.workshop.open(name).design_path)
                except WorkshopError as error:
                    self.say(str(error))
                    return
                self.companion.open_design(path, new=True)

    @work
    async def action_find(self) -> None:
        """Show only what holds some letters."""

        def judge(text: str) -> Judged[str]:
            self.filter = text.strip()
            self.show_rows()
            return Judged(self.filter)

        found = await self.answer(AskDialog(Question("Show what holds:", judge, self.filter)))
        if found is None:
            self.filter = ""
            self.show_rows()

    def action_leave(self) -> None:
        """Leave the companion."""
        self.app.exit(0)
