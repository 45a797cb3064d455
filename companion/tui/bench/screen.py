"""The opening screen: pieces under way, designs, and what is finished."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from textual import work

from companion.core.cord.cards import CordCard
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.bench.contents import BenchReader
from companion.tui.bench.piece_rows import piece_rows
from companion.tui.commands import BENCH, bindings
from companion.tui.page import ListPage
from companion.tui.routes import Route, ToCard, ToCords, ToDesign, ToDraft, ToKnots, ToPiece, ToPlan, ToSettings
from companion.tui.widgets.rows import Row
from companion.workshop import PieceRow, Workshop

LOOK_AGAIN_SECONDS = 1.0


class BenchScreen(ListPage):
    """Everything there is to go on with. A row's value is the way that it leads."""

    BINDINGS = bindings(*BENCH)
    COMMANDS_HERE = BENCH
    heading = "Bench"

    def __init__(self, workshop: Workshop, said: Notice | None = None) -> None:
        super().__init__()
        self.reader, self.said_first = BenchReader(workshop), said
        self.filter = ""
        self.shown: object = None  # what the rows were made from

    def on_mount(self) -> None:
        self.show_rows()
        if self.said_first:
            self.say(self.said_first)
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
        """Show what there is now, and how long ago each piece was touched."""
        contents, now = self.reader.read(), datetime.now(UTC)
        if contents.fault:
            self.say(Notice("watch", contents.fault))
        made_from = (contents, self.filter, self.size.width, now.replace(second=0, microsecond=0))
        if made_from == self.shown:
            return
        self.shown = made_from
        rows = self._piece_rows(contents.pieces, "under way", "Under way")
        rows += self._design_rows(contents.designs)
        rows += self._card_rows(contents.cards)
        rows += self._piece_rows(contents.pieces, "finished", "Finished")
        rows = rows or [Row(f"Nothing holds «{plain(self.filter, 30)}».")]
        if tuple(rows) != self.rows.rows:
            self.rows.set_rows(rows)

    def _piece_rows(self, pieces: tuple[PieceRow, ...], state: str, title: str) -> list[Row]:
        found = [row for row in pieces if row.state == state and self._holds(row.design_name, row.name)]
        if not found:
            return []
        return [Row(title), *piece_rows(found, self.size.width), Row("")]

    def _design_rows(self, designs: tuple[Path, ...]) -> list[Row]:
        found = [path for path in designs if self._holds(path.stem, str(path))]
        if not found:
            return []
        rows = [Row(f"{plain(path.stem, 40)}", ToDesign(path)) for path in found]
        return [Row("Designs"), *rows, Row("")]

    def _card_rows(self, cards: tuple[CordCard, ...]) -> list[Row]:
        """The cord cards, a line each."""
        if not cards or self.filter:
            return []
        from companion.core.words.card_words import card_in_short

        return [Row("Cords"), *(Row(card_in_short(card), ToCard(card.name)) for card in cards), Row("")]

    def _holds(self, *texts: str) -> bool:
        return any(self.filter.lower() in text.lower() for text in texts)

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.say(Notice("watch", text))
        return True

    def action_open_row(self) -> None:
        """Go on with the piece, or open the design or the card, under the cursor."""
        route = self.rows.chosen
        if isinstance(route, Route):
            self.go(route)

    def action_show_cords(self) -> None:
        """The cord cards."""
        self.go(ToCords())

    def action_draw_design(self) -> None:
        """Make a design."""
        self.go(ToDraft())

    def action_show_plan(self) -> None:
        """The plan at hand of the piece under the cursor."""
        match self.rows.chosen:
            case ToPiece(name):
                try:
                    self.go(ToPlan(self.workshop.open(name)))
                except WorkshopError as error:
                    self.say(Notice("watch", str(error)))
            case _:
                self.say(Notice("quiet", "Put the cursor on a piece first."))

    def action_copy_design(self) -> None:
        """Make a design from a copy of the one under the cursor."""
        match self.rows.chosen:
            case ToDesign(path):
                self.go(ToDraft(path))
            case _:
                self.say(Notice("quiet", "Put the cursor on a design first."))

    def action_show_settings(self) -> None:
        """All that can be set."""
        self.go(ToSettings())

    def action_show_knots(self) -> None:
        """How every knot and closure is worked."""
        self.go(ToKnots())

    def action_begin_another(self) -> None:
        """Another piece of the design under the cursor."""
        match self.rows.chosen:
            case ToDesign(path):
                self.go(ToDesign(path, new=True))
            case ToPiece(name):
                try:
                    path = Path(self.workshop.open(name).design_path)
                except WorkshopError as error:
                    self.say(Notice("watch", str(error)))
                    return
                self.go(ToDesign(path, new=True))

    @work
    async def action_find(self) -> None:
        """Show only what holds some letters."""
        from companion.tui.dialogs.ask import AskDialog
        from companion.tui.dialogs.question import Judged, Question

        def judge(text: str) -> Judged[str]:
            self.filter = text.strip()
            self.show_rows()
            return Judged(self.filter)

        found = await self.answer(AskDialog(Question("Show what holds:", judge, self.filter)))
        if found is None:
            self.filter = ""
            self.show_rows()

    def action_leave(self) -> None:
        """Leave Tallycord."""
        self.app.exit(0)
