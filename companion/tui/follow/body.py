"""What stands under the heading of the follow screen. It is handed the piece as it stands, and knows no keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from companion.tui.follow import figures
from companion.tui.follow.keys import foot_keys
from companion.tui.follow.picture.big_step import BigStep
from companion.tui.follow.picture.strand_picture import StrandPicture
from companion.tui.follow.sentences import follow_sentences
from companion.tui.follow.session import PieceSession
from companion.tui.follow.tying_panel import TyingPanel
from companion.tui.page import TALL_ROWS
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.text import KeyLine, Rule, TextLine

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.tui.follow.chart_beside import ChartBeside
    from companion.tui.follow.picture.drawn_picture import DrawnPicture

CHART_COLUMNS, CHART_ROWS = 180, 50  # of a screen that has room for the readings' chart


class StepsBody(Vertical):
    """The present step, the strand, the figures, the sentences and the keys. Apart from the heading, which is painted
    by itself. What a screen has no room or no colours for is neither loaded nor made."""

    def __init__(self, session: PieceSession, left_handed: bool) -> None:
        super().__init__(id="below-heading")
        self.session, self.left_handed = session, left_handed
        self.chart: ChartBeside | None = None  # once there was room for it

    def compose(self) -> ComposeResult:
        with Horizontal(id="work"):
            with Vertical(id="left"):
                yield BigStep(self.session.plan)
                yield TextLine("", id="coming")
                yield StrandPicture(self.session.plan)
                yield TextLine("", id="figures")
            with Vertical(id="right"):
                yield TyingPanel()
        yield TextLine("", id="verdict")
        yield Rule()
        yield KeyLine(*foot_keys(self.session))

    def show(self) -> None:
        """Show the piece as it stands. Only what differs from what is shown is drawn again."""
        plan, piece = self.session.plan, self.session.piece
        all_made = piece.done == plan.total_steps
        self.screen.set_class(all_made, "-all-done")
        ended = None if piece.state == "under way" else piece.state
        self.query_one(BigStep).show(plan, None if all_made else piece.done + 1, ended)
        entry, number = plan.place(piece.done if all_made else piece.done + 1)
        for picture in self._pictures():
            picture.show(plan, entry, number if all_made else number - 1)
        self.query_one("#coming", TextLine).fit(lambda width: figures.coming(plan, piece.done, width))
        self._show_chart()
        self.query_one(TyingPanel).show(plan, entry, None if all_made else number, self.left_handed)
        self.query_one(KeyLine).offer(*foot_keys(self.session))

    def show_outlook(self, outlook: Outlook | None) -> None:
        """Show what is to be expected; None while it is being worked out: the figures stay as they were."""
        self.query_one("#verdict", TextLine).say(follow_sentences(self.session, outlook))
        if outlook is not None:
            opened = self.session.opened
            self.query_one("#figures", TextLine).fit(lambda width: figures.four_figures(opened, outlook, width))

    def toggle_afar(self) -> bool:
        """Only the present step, or all again. Returns whether something is to be said of that: where the step is not
        drawn, its bead's number is large beside it, and nothing else changes."""
        self.screen.toggle_class("-afar")
        self.query_one(BigStep).number_wanted = self.screen.has_class("-afar")
        self._pictures()  # there may be room for the drawn strand where only the step is shown
        return self.screen.has_class("-afar") and not (self.screen.has_class("-drawn") and self.has_room())

    def _pictures(self) -> list[StrandPicture | DrawnPicture]:
        """Those that show: the letters, or where there is room and colour the drawn strand."""
        screen = self.screen
        room = self.has_room() or (screen.has_class("-afar") and screen.size.height >= TALL_ROWS)
        screen.set_class(room and draws(terminal_of(self.app)), "-drawn")
        return list(self._drawn_pictures()) if screen.has_class("-drawn") else [self.query_one(StrandPicture)]

    def has_room(self) -> bool:
        """Whether there is room for the drawn strand beside all else."""
        return self.screen.has_class("-high") and (self.screen.has_class("-roomy") or self.screen.has_class("-wide"))

    def _drawn_pictures(self) -> list[DrawnPicture]:
        """The stretch around the present step, and the whole piece."""
        from companion.tui.follow.picture.drawn_picture import DrawnPicture, WholePiece

        if not self.query(DrawnPicture):
            pictures = DrawnPicture(self.session.plan, classes="-here"), WholePiece(self.session.plan)
            self.query_one("#left").mount(*pictures, before="#figures")
        return list(self.query(DrawnPicture))

    def _show_chart(self) -> None:
        """The readings' chart, where the screen has room for it."""
        screen = self.screen
        room = screen.size.width >= CHART_COLUMNS and screen.size.height >= CHART_ROWS
        if room != screen.has_class("-charted"):
            screen.set_class(room, "-charted")
            self.app.stylesheet.update(screen)  # now, or what is called after this refresh comes before its place
            self.refresh(layout=True)
            self.call_after_refresh(self.show)  # what stands beside it has another width then
        if not room:
            return
        if self.chart is None:
            from companion.tui.follow.chart_beside import ChartBeside

            self.chart = ChartBeside(self.session.workshop.charted)
            self.query_one("#right").mount(self.chart)
            self.call_after_refresh(self.show)
            return
        self.call_after_refresh(self.chart.show, self.session.opened)
