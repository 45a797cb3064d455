"""The terminal app: which screen comes when, and how it ends."""

from __future__ import annotations

import gc
import os
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from textual import work
from textual.app import SuspendNotSupported

from companion.core.values.colour_sets import COLOUR_SETS, colour_set
from companion.core.values.errors import NotPossible, WorkshopError
from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.commands import HOW_TO_LEAVE, SET_ASIDE, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.endings import end_on_signals, end_without_terminal
from companion.tui.keys import KeysInTurnApp, KeysInTurnScreen
from companion.tui.page import ROOMY_COLUMNS, TALL_ROWS, Page
from companion.tui.routes import (
    Route,
    ToBench,
    ToCard,
    ToCords,
    ToDesign,
    ToDraft,
    ToKnots,
    ToPiece,
    ToPlan,
    ToSettings,
    ToSteps,
    ToTrial,
)
from companion.tui.setting_aside import can_be_set_aside, set_aside_on_signal, stop_here
from companion.tui.themes import terminal_of, themes_on
from companion.workshop import OpenPiece, Workshop

if TYPE_CHECKING:
    from companion.tui.follow.session import PieceSession
    from companion.tui.trial.trial import Trial

KEEP_A_COPY_SECONDS = 3600.0  # how often an app that stays open looks whether the day's copy is due
# A write of our own takes a hundredth of this. Whoever holds the file longer is stuck or copies it: better said after a
# second than a screen that stands still for five, with the keys piling up.
PATIENCE_SECONDS = 1.0
HOW_TO_CLOSE = "Esc closes this without changing anything."
MOST_PROBLEMS = 4  # the bench has room for so many; `tallycord check` tells all


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
        try:
            return self.workshop.settings.colours
        except WorkshopError:  # the bench says what is wrong with the file of pieces
            return COLOUR_SETS[0]

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

    def _begin_trial(self) -> Page:
        from companion.tui.trial.trial import Trial

        self.close_trial()
        self.own_workshop.let_go()
        self.trial = Trial()
        self.workshop = self.trial.workshop
        return self._page_of(ToSteps(self.trial.opened))

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
        from companion.core.words.trial.lessons import ENDED

        self.close_trial()
        self.left_bench_by = None
        self.switch_screen(self._page_of(ToBench(Notice("quiet", ENDED))))

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
            return self._page_of(self.first)
        except (WorkshopError, NotPossible) as error:
            return self._page_of(ToBench(Notice("watch", str(error))))

    def go(self, route: Route) -> None:
        """Show the page that the route leads to, in place of the one on top. Raises WorkshopError or NotPossible where
        it can't be shown."""
        left_by = getattr(self.screen, "left_by", None)
        self.left_bench_by = self.left_bench_by if left_by is None else left_by
        self.switch_screen(self._page_of(route))

    def _page_of(self, route: Route) -> Page:
        """Each page is loaded when it is first shown."""
        match route:
            case ToBench(said, at):
                from companion.tui.bench.screen import BenchScreen

                self.workshop.let_go()
                return BenchScreen(self.workshop, said, at or self.left_bench_by)
            case ToDesign(path, new):
                return self._page_of_design(path, new)
            case ToPiece(name, said):
                return self._page_of_piece(self.workshop.open(name), said)
            case ToSteps(opened):
                from companion.tui.follow.screen import FollowScreen

                return FollowScreen(self._session(opened))
            case ToPlan(opened):
                from companion.tui.piece.plan_page import PlanScreen

                return PlanScreen(self.workshop, self.workshop.refresh(opened))
            case ToDraft(copy_of):
                return self._page_of_draft(copy_of)
            case ToTrial():
                return self._begin_trial()
            case _:
                return self._page_to_look_up(route)

    def _page_to_look_up(self, route: ToCords | ToSettings | ToKnots | ToCard) -> Page:
        match route:
            case ToCords(new):
                from companion.tui.cords.screen import CordsScreen

                return CordsScreen(new)
            case ToSettings():
                from companion.tui.settings.screen import SettingsScreen

                return SettingsScreen()
            case ToKnots():
                from companion.tui.knots.screen import KnotsScreen

                return KnotsScreen()
            case ToCard(name):
                from companion.tui.cords.card import CardScreen

                card = self.workshop.card(name)
                if card is None:
                    raise WorkshopError(f"There is no cord card named {plain(name)}.")
                return CardScreen(card)

    def _page_of_piece(self, opened: OpenPiece, said: Notice | None = None) -> Page:
        """The recap of a piece that is under way, or its steps at once where nothing is made yet or it is put away; the
        result of a finished one."""
        if opened.piece.state == "finished":
            from companion.tui.piece.result_page import ResultScreen

            return ResultScreen(self.workshop, opened, said)
        if opened.piece.done == 0 or opened.piece.state == "abandoned":
            return self._page_of(ToSteps(opened))
        from companion.tui.follow.recap import RecapScreen

        return RecapScreen(self._session(opened))

    def _session(self, opened: OpenPiece) -> PieceSession:
        from companion.tui.follow.session import PieceSession

        return PieceSession(self.workshop, opened, self.wait_for_others)

    def _page_of_draft(self, copy_of: Path | None) -> Page:
        from companion.core.draft.draft import Draft
        from companion.core.words.drafting.draft_words import opened_words
        from companion.tui.design.screen import DesignScreen

        if copy_of is not None:
            draft = self.workshop.drafts.copy_of(copy_of)
            own = self.workshop.drafts.opened_own(draft) is not None
            return DesignScreen(draft, Notice("quiet", opened_words(copy_of.stem, own)))
        kept = self.workshop.drafts.kept()
        said = Notice("quiet", "This is the design you left half-made. n begins a new one.")
        return DesignScreen(kept or Draft(), said if kept else None)

    def _page_of_design(self, path: Path, new: bool) -> Page:
        """Start, recap or choice, as many pieces of the design are under way."""
        pieces = () if new else self.workshop.pieces_of(path)
        if len(pieces) == 1:
            return self._page_of_piece(self.workshop.open(pieces[0].name))
        if pieces:
            from companion.tui.start.which_piece import WhichPieceScreen

            return WhichPieceScreen(path, pieces)
        planned = self.workshop.plan(path)
        if planned.plan is None:
            problems = [replace(problem, file=plain(path.name)) for problem in planned.problems]
            more = f"\nand {len(problems) - MOST_PROBLEMS} more" if len(problems) > MOST_PROBLEMS else ""
            raise WorkshopError("\n".join(str(problem) for problem in problems[:MOST_PROBLEMS]) + more)
        from companion.tui.start.screen import StartScreen

        return StartScreen(path, planned)


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
