"""The opening screen: pieces under way, designs, cords, and what is finished or put away."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path
from time import monotonic

from textual import on, work
from textual.content import Content
from textual.widget import Widget

from companion.core.values.errors import NotPossible, WorkshopError
from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.bench.contents import BenchReader, Contents
from companion.tui.bench.row_keys import commands_now, drawn_by, piece_named, row_keys, way_now
from companion.tui.bench.rows import MOST_LETTERS, bench_rows, shown_folder
from companion.tui.bench.sketching import LIST_SHARE, Sketching
from companion.tui.bench.upkeep import PieceUpkeep, Upkept
from companion.tui.commands import BENCH, Command, bindings
from companion.tui.page import TALL_ROWS, ListPage
from companion.tui.routes import (
    Route,
    ToCard,
    ToCords,
    ToDesign,
    ToDesignPlan,
    ToDraft,
    ToKnots,
    ToPiece,
    ToPlan,
    ToSettings,
    ToTrial,
)
from companion.tui.widgets.rows import Rows
from companion.tui.widgets.text import KeyLine, TextLine
from companion.workshop import PieceRow, Workshop

LOOK_AGAIN_SECONDS = 1.0
ONE_ESC_TOO_MANY_SECONDS = 1.0  # so soon after coming back, it may have been meant for the page before
INSTEAD = "Put the file back, or choose a design here."
ON_A_PIECE = Notice("quiet", "Put the cursor on a piece first.")


class BenchScreen(ListPage):
    """Everything there is to go on with. A row's value is the way that it leads."""

    BINDINGS = bindings(*BENCH)
    COMMANDS_HERE = BENCH
    heading = "Bench"
    how_to_leave = "Esc leaves Tallycord. Nothing is lost."

    def __init__(self, workshop: Workshop, said: Notice | None = None, at: object = None) -> None:
        super().__init__()
        self.reader, self.said_first, self.begin_at = BenchReader(workshop), said, at
        self.came_at = monotonic()
        self.contents = Contents()
        self.upkeep = PieceUpkeep(workshop)
        self.filter = ""
        self.shown: object = None  # what the rows were made from
        self.sketching = Sketching(self, workshop, self.drawn_in, self.show_in_short)

    def body(self) -> Iterable[Widget]:
        """The list, and below it the chosen one in words, where it is not drawn beside."""
        return (*super().body(), TextLine("", id="in-short"))

    def on_mount(self) -> None:
        self.workshop.make_designs_folder()
        self.sketching.begin()
        self.show_rows()
        self.rows.begin_with(self.begin_at)
        if self.said_first:
            self.say(self.said_first)
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)

    def on_resize(self) -> None:
        self.show_rows()
        self.sketching.cursor_moved()

    def on_screen_resume(self) -> None:
        self.show_rows()

    def look_again(self) -> None:
        """Another window or command may have moved a piece on."""
        if self.is_current:
            self.show_rows()
            self.sketching.read_next()

    # -- showing ------------------------------------------------------------------------------------------------------

    def show_rows(self) -> None:
        """Show what there is now, and how long ago each piece was touched."""
        now, chosen = datetime.now(UTC), self.rows.chosen
        before, self.contents = self.contents, self.reader.read()
        if self.contents.fault:
            self.say(Notice("watch", self.contents.fault))
        folder = self.workshop.designs_folder if self.app.size.height >= TALL_ROWS else None
        wide = self.sketching.is_wide
        columns = self.size.width * LIST_SHARE // 100 if wide else self.size.width
        made_from = (self.contents, self.filter, self.size.width, folder, now.replace(second=0, microsecond=0))
        if made_from == self.shown:
            return
        self.shown = made_from
        rows = bench_rows(self.contents, self.filter, columns, folder, beads_first=wide)
        if tuple(rows) != self.rows.rows:
            self.rows.set_rows(rows, way_now(before, self.contents, chosen))
        self.query_one("#heading", TextLine).show(Content.styled(self._heading(), "bold"))
        self.show_keys()

    @property
    def left_by(self) -> object:
        """The way under the cursor: coming back, the cursor is there again."""
        return self.rows.chosen

    def _heading(self) -> str:
        return f'Bench · only "{plain(self.filter, MOST_LETTERS)}" (Esc shows all)' if self.filter else "Bench"

    def show_keys(self) -> None:
        """The keys for the row under the cursor."""
        self.query_one(KeyLine).offer(*row_keys(self.contents, self.rows.chosen, bool(self.filter)))

    def show_in_short(self) -> None:
        """Length, cord and closure of what the cursor is on."""
        told = self.sketching.in_short(self.rows.chosen)
        self.query_one("#in-short", TextLine).say((Notice("quiet", told.whole),) if told else ())

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something with the cursor where it is."""
        return commands_now(self.contents, self.rows.chosen, bool(self.filter), self.upkeep.can_undo)

    @on(Rows.Moved)
    def cursor_moved(self) -> None:
        """Another row: its keys, and a little later what it leads to, drawn."""
        self.show_keys()
        self.show_in_short()
        self.sketching.cursor_moved()

    def drawn_in(self, value: object) -> PieceRow | Path | None:
        """What is drawn in a row that leads there."""
        return drawn_by(self.contents, value)

    def say_how_to_leave(self) -> None:
        """Ctrl+C ends nothing: it says how to leave."""
        self.tell("Esc shows all rows, and Esc again leaves Tallycord." if self.filter else self.how_to_leave)

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.say(Notice("watch", text))
        return True

    def _chosen_piece(self) -> PieceRow | None:
        """The piece under the cursor; where there is none, that is said."""
        chosen = self.rows.chosen
        piece = piece_named(self.contents, chosen.name) if isinstance(chosen, ToPiece) else None
        if piece is None:
            self.say(ON_A_PIECE)
        return piece

    # -- where rows lead ----------------------------------------------------------------------------------------------

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
        """The plan of the design under the cursor, or that of the piece with all that was made of it."""
        if isinstance(self.rows.chosen, ToDesign):
            self.go(ToDesignPlan(self.rows.chosen.path))
            return
        piece = self._chosen_piece()
        if piece is not None:
            try:
                self.go(ToPlan(self.workshop.open(piece.name)))
            except WorkshopError as error:
                self.say(Notice("watch", str(error)))

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

    def action_try_out(self) -> None:
        """A sample piece, of which nothing is kept."""
        self.go(ToTrial())

    def action_begin_another(self) -> None:
        """Another piece of the design under the cursor, or another card."""
        match self.rows.chosen:
            case ToDesign(path):
                self.go(ToDesign(path, new=True))
            case ToCard():
                self.go(ToCords(new=True))
            case ToPiece(name):
                try:
                    path = Path(self.workshop.open(name).design_path)
                except WorkshopError as error:
                    self.say(Notice("watch", str(error)))
                    return
                if path.is_file():
                    self.go(ToDesign(path, new=True))
                else:
                    self.say(Notice("watch", f"The design of this piece is gone: {shown_folder(path)}. {INSTEAD}"))
            case _:
                self.say(Notice("quiet", "Put the cursor on a piece or a design first."))

    # -- what is done to a piece here ---------------------------------------------------------------------------------

    @work
    async def action_rename(self) -> None:
        """Give the piece under the cursor another name."""
        from companion.tui.bench.questions import rename_question
        from companion.tui.dialogs.ask import AskDialog

        piece = self._chosen_piece()
        if piece is not None:
            name = await self.answer(AskDialog(rename_question(piece, self.contents.pieces)))
            if name is not None:
                self._keep(lambda: self.upkeep.rename(piece, name))

    @work
    async def action_put_away(self) -> None:
        """Put the piece under the cursor away, or take it up again."""
        from companion.tui.bench.questions import put_away_question
        from companion.tui.dialogs.ask import AskDialog

        piece = self._chosen_piece()
        if piece is None:
            return
        if piece.state == "finished":
            self.say(Notice("quiet", "This piece is finished. Only a piece under way can be put away."))
        elif piece.state == "abandoned":
            self._keep(lambda: self.upkeep.take_up(piece))
        else:
            reason = await self.answer(AskDialog(put_away_question(piece)))
            if reason is not None:
                self._keep(lambda: self.upkeep.put_away(piece, reason))

    def action_undo(self) -> None:
        """Undo what was done here last."""
        self._keep(self.upkeep.undo)

    def _keep(self, act: Callable[[], Upkept]) -> None:
        """Do one thing to a piece, say what it was, and follow the piece to its new place."""
        try:
            done = act()
        except (WorkshopError, NotPossible) as error:
            self.show_rows()
            self.say(Notice("watch", str(error)))
            return
        self.show_rows()
        self.rows.begin_with(ToPiece(done.name))
        self.say(Notice("quiet", done.said))

    # -- finding ------------------------------------------------------------------------------------------------------

    @work
    async def action_find(self) -> None:
        """Show only what holds some letters."""
        from companion.tui.dialogs.ask import AskDialog
        from companion.tui.dialogs.question import Judged, Question

        def judge(text: str) -> Judged[str]:
            self._filter_by(text.strip())
            return Judged(self.filter)

        found = await self.answer(AskDialog(Question("Find:", judge, self.filter)))
        if found is None:
            self._filter_by("")

    def _filter_by(self, letters: str) -> None:
        self.filter = letters
        self.say()
        self.show_rows()

    def action_leave(self) -> None:
        """Show all again, or leave Tallycord."""
        if self.filter:
            self._filter_by("")
        elif self.begin_at is not None and monotonic() - self.came_at < ONE_ESC_TOO_MANY_SECONDS:
            self.came_at = 0.0
            self.say(Notice("quiet", "This is the bench. Esc again leaves Tallycord."))
        else:
            self.leave()
