"""The terminal app: what lasts from one page to the next, and how it ends."""

from __future__ import annotations

import gc
import os
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual import work
from textual.app import SuspendNotSupported

from companion.core.values.colour_sets import COLOUR_SETS, colour_set
from companion.core.values.errors import NotPossible, WorkshopError
from companion.core.words.notices import Notice
from companion.tui.commands import HOW_TO_LEAVE, SET_ASIDE, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.endings import end_on_signals, end_without_terminal
from companion.tui.keys import KeysInTurnApp, KeysInTurnScreen
from companion.tui.page import ROOMY_COLUMNS, TALL_ROWS, Page
from companion.tui.routes import (
    Route,
    ToBench,
    ToDesign,
    ToDraft,
    ToPiece,
    ToTrial,
)
from companion.tui.routing import page_of
from companion.tui.setting_aside import can_be_set_aside, set_aside_on_signal, stop_here
from companion.tui.themes import terminal_of, themes_on
from companion.workshop import OpenPiece, Workshop

if TYPE_CHECKING:
    from companion.core.values.settings import Settings
    from companion.tui.trial.trial import Trial

KEEP_A_COPY_SECONDS = 3600.0  # how often an app that stays open looks whether the day's copy is due
# A write of our own takes a hundredth of this. Whoever holds the file longer is stuck or copies it: better said after a
# second than a screen that stands still for five, with the keys piling up.
PATIENCE_SECONDS = 1.0
HOW_TO_CLOSE = "Esc closes this without changing anything."


class TallycordApp(KeysInTurnApp):
    """One workshop, one terminal."""

    BINDINGS = bindings(SET_ASIDE, HOW_TO_LEAVE)
    CSS_PATH = "tallycord.tcss"
    TITLE = "Tallycord"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-slim"), (80, "-bench"), (ROOMY_COLUMNS, "-roomy"), (120, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-low"), (TALL_ROWS, "-tall"), (30, "-high")]  # noqa: RUF012

    def __init__(
        self,
        workshop: Workshop,
        design: Path | None = None,
        piece: str | None = None,
        new: bool = False,
        first: Route | None = None,
    ) -> None:
        super().__init__()
        self.workshop, self.copy_trouble_said, self.untold = workshop, False, ""
        self.left_bench_by: object = None
        self.trial: Trial | None = None  # while a sample piece stands in place of hers
        self.own_workshop = workshop
        self.first: Route = ToBench() if design is None else ToDesign(design, new)
        if piece is not None:
            self.first = ToPiece(piece)
        self.first = first or self.first
        for theme in themes_on(terminal_of(self)):
            self.register_theme(theme)
        self.theme = colour_set(os.environ.get("TALLYCORD_COLOURS", "")) or self._colours_set()

    def _colours_set(self) -> str:
        settings = self._settings()
        return settings.colours if settings else COLOUR_SETS[0]

    def _settings(self) -> Settings | None:
        """Her settings; None where they can't be read: the bench says what is wrong with the file of pieces."""
        try:
            return self.own_workshop.settings
        except WorkshopError:
            return None

    def on_mount(self) -> None:
        if not self.is_headless:
            end_on_signals(self.exit)
            end_without_terminal(self.exit)
            set_aside_on_signal(self.action_set_aside, self.draw_again)
        self.call_after_refresh(self._tidy_from_now_on)

    def _tidy_from_now_on(self) -> None:
        """The start is over: what it loaded stays, what comes from now on is collected."""
        self.keep_a_copy()
        self.set_interval(KEEP_A_COPY_SECONDS, self.keep_a_copy)
        if not self.is_headless:  # an app that is one of several in its process leaves the others' things alone
            self.keep_tidy()
        gc.enable()

    def keep_tidy(self) -> None:
        """Collect garbage only while nobody types."""
        from companion.tui.tidying import LOOK_SECONDS, Tidying

        tidying = Tidying()
        tidying.begin()
        self.on_typed = tidying.typed
        self.set_interval(LOOK_SECONDS, tidying.look)

    def action_set_aside(self) -> None:
        """Give the shell its turn. Where none waits, nothing happens: nobody could bring Tallycord back."""
        if can_be_set_aside():
            with suppress(SuspendNotSupported), self.suspend():
                stop_here()

    def action_how_to_leave(self) -> None:
        """Ctrl+C ends nothing: it says how to leave."""
        page = self.screen
        if isinstance(page, Dialog):
            page.tell(HOW_TO_CLOSE)
        elif isinstance(page, Page):
            page.say_how_to_leave()

    def wait_for_others(self, wait: bool) -> None:
        """Whether a file of pieces that another program holds is waited for, for a moment."""
        self.workshop.wait_at_most(PATIENCE_SECONDS if wait else 0.0)

    def draw_again(self) -> None:
        """Gone on with after a stop that nobody announced: others may have written on the terminal."""
        self.refresh(layout=True)

    @work(thread=True, exclusive=True, group="copy")
    def keep_a_copy(self) -> None:
        """The day's copy of all pieces, while the maker goes on; what went wrong is said once."""
        from companion.tui.trial.leftovers import clear_leftovers

        clear_leftovers()
        trouble = self.own_workshop.keep_a_copy()
        if trouble and not self.copy_trouble_said:
            self.copy_trouble_said = True
            self.call_later(self.tell, trouble)  # a message: safe from any thread

    def tell(self, text: str) -> None:
        """Say a sentence where the page has its sentences, never over the work; kept until there is such a place."""
        self.untold = text
        self._tell_what_is_untold()

    def arrived(self, screen: KeysInTurnScreen[Any]) -> None:
        self._show_guide(screen)
        super().arrived(screen)
        self._tell_what_is_untold()

    def _tell_what_is_untold(self) -> None:
        page = next((page for page in reversed(self.screen_stack) if isinstance(page, Page)), None)
        if self.untold and page is not None and page.is_mounted and page.tell(self.untold):
            self.untold = ""

    # -- the sample piece ---------------------------------------------------------------------------------------------

    def begin_trial(self) -> OpenPiece:
        """The sample piece, new; its workshop stands in place of hers."""
        from companion.tui.trial.trial import Trial

        self.close_trial()
        self.own_workshop.let_go()
        self.trial = Trial(self._settings())
        self.workshop = self.trial.workshop
        return self.trial.opened

    def _show_guide(self, screen: KeysInTurnScreen[Any]) -> None:
        if self.trial is None:
            return
        from companion.tui.trial.guide import GuideLine

        if isinstance(screen, Page) and not screen.query(GuideLine):
            screen.add_class("-trial")
            screen.mount(GuideLine(self.trial), before=0)
        for page in self.screen_stack:
            for guide in page.query(GuideLine):
                guide.look()

    def leave(self) -> None:
        """Leave Tallycord; from the sample piece, go back to the bench where it was begun there."""
        if self.trial is None or isinstance(self.first, ToTrial):
            self.exit(0)
            return
        from companion.core.words.trial.tasks import ENDED

        self.close_trial()
        self.left_bench_by = None
        self.switch_screen(page_of(ToBench(Notice("quiet", ENDED)), self))

    def close_trial(self) -> None:
        """Nothing is left of the sample piece."""
        if self.trial is not None:
            self.trial.close()
            self.trial, self.workshop = None, self.own_workshop

    # -- which screen -------------------------------------------------------------------------------------------------

    def get_default_screen(self) -> Page:
        """The first page lies at the bottom: an empty screen below it would be built and drawn before it."""
        self.wait_for_others(True)
        page = self._first_page()
        page._push_result_callback(self, None)  # what is pushed has one, and `switch_screen` takes it away
        return page

    def _first_page(self) -> Page:
        try:
            return page_of(self.first, self)
        except (WorkshopError, NotPossible) as error:
            return page_of(ToBench(Notice("watch", str(error))), self)

    def go(self, route: Route) -> None:
        """Show the page that the route leads to, in place of the one on top. Raises WorkshopError or NotPossible where
        it can't be shown."""
        left_by = getattr(self.screen, "left_by", None)
        self.left_bench_by = self.left_bench_by if left_by is None else left_by
        self.switch_screen(page_of(route, self))


def run(
    workshop: Workshop, design: Path | None = None, new: bool = False, drawing: bool = False, trying: bool = False
) -> int:
    """Run the app; its exit code. `drawing`: on the design page; `trying`: on a sample piece."""
    first = ToDraft(design) if drawing else ToTrial() if trying else None
    app = TallycordApp(workshop, design, new=new, first=first)
    try:
        code = app.run()
    finally:
        app.close_trial()
    if app.return_code:
        return 1
    return code if isinstance(code, int) else 0
