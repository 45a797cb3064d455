"""Step by step: the present one large, the strand to scale, four figures, one sentence."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING, TypeVar

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget

from companion.core.words.notices import Notice
from companion.tui.commands import CONFIRM, FOLLOW, Command, bindings
from companion.tui.follow import figures
from companion.tui.follow.asking import QUESTIONS, ask_ending, ask_join, ask_strand, ask_take_over
from companion.tui.follow.bounce import KeyBounce
from companion.tui.follow.keys import commands_now, foot_keys
from companion.tui.follow.picture.big_step import BigStep, StepMade
from companion.tui.follow.picture.drawn_picture import DrawnPicture, WholePiece
from companion.tui.follow.picture.strand_picture import StrandPicture
from companion.tui.follow.sentences import follow_sentences
from companion.tui.follow.session import PieceSession
from companion.tui.follow.tying_panel import TyingPanel
from companion.tui.page import Page
from companion.tui.routes import ToBench, ToPiece, ToPlan
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import OpenPiece
from companion.workshop.key_bounce import bounce_seconds

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.tui.dialogs.question import Question
    from companion.tui.follow.chart_beside import ChartBeside

T = TypeVar("T")

LOOK_AGAIN_SECONDS = 0.25
ANSWER_SECONDS = 1.0
CHART_COLUMNS, CHART_ROWS = 180, 50  # of a screen that has room for the readings' chart
WRITER_SECONDS = 0.001
ONLY_THIS_STEP = Notice("quiet", "Only this step is shown. f shows all again.")


class FollowScreen(Page):
    """One piece being made."""

    BINDINGS = bindings(*FOLLOW)
    COMMANDS_HERE = FOLLOW

    def __init__(self, session: PieceSession) -> None:
        super().__init__()
        self.session, self.help_plan = session, session.plan
        self.outlook: Outlook | None = None  # as it was last shown
        self.chart: ChartBeside | None = None  # once there was room for it
        self.working_out = False  # what is to be expected comes later
        self.answered_at = float("-inf")  # when a question was last answered, in seconds
        settings = session.workshop.settings
        self.left_handed = settings.hand == "left"
        # A key that had to wait for its turn was typed before.
        self.bounce = KeyBounce(bounce_seconds(settings.bounce_seconds), clock=lambda: self.turns.typed_at())

    @property
    def opened(self) -> OpenPiece:
        """The piece as it stands."""
        return self.session.opened

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something as the piece stands."""
        return commands_now(self.session)

    def compose(self) -> ComposeResult:
        yield TextLine("", id="heading")
        with Vertical():  # apart from the heading, which is painted by itself
            with Horizontal(id="work"):
                with Vertical(id="left"):
                    yield BigStep(self.session.plan)
                    yield TextLine("", id="coming")
                    yield StrandPicture(self.session.plan)
                    yield DrawnPicture(self.session.plan, classes="-here")
                    yield WholePiece(self.session.plan)
                    yield TextLine("", id="figures")
                with Vertical(id="right"):
                    yield TyingPanel()
            yield TextLine("", id="verdict")
            yield Rule()
            yield KeyLine(*foot_keys(self.session))

    def on_mount(self) -> None:
        self.session.look_where_it_is_open()
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)
        self.call_after_refresh(self.show_all)

    def on_resize(self) -> None:
        self.call_after_refresh(self.show_all)

    def look_again(self) -> None:
        """Show what others have done meanwhile."""
        if self in self.app.screen_stack and self.session.look_again(asking=not self.is_active):
            self.show_all()

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.say(Notice("watch", text))
        return True

    def say(self, notice: Notice) -> None:
        """Say a sentence of the moment."""
        self.session.said = notice
        self.show_all()

    # -- showing ------------------------------------------------------------------------------------------------------

    def show_number(self) -> None:
        """Show which step it is: that a key has counted is seen first, and all else a frame later."""
        opened = self.opened
        self._line("#heading", lambda width: figures.heading_line(opened, self.workshop.pace(opened), width))

    async def _show_the_rest(self) -> None:
        """All that belongs to a step whose number is drawn. A thread of its own writes that on the terminal: it has its
        turn before anything more is worked out."""
        await asyncio.sleep(WRITER_SECONDS)
        self.show_all()

    def show_all(self) -> None:
        """Show the piece as it stands. Only what differs from what is shown is drawn again."""
        if self._is_being_left():
            return
        self.show_number()
        plan, piece = self.session.plan, self.session.piece
        self.help_plan, all_made = plan, piece.done == plan.total_steps
        ended = None if piece.state == "under way" else piece.state
        self.query_one(BigStep).show(plan, None if all_made else piece.done + 1, ended)
        entry, number = plan.place(piece.done if all_made else piece.done + 1)
        for picture in self.pictures():
            picture.show(plan, entry, number if all_made else number - 1)
        self._line("#coming", lambda width: figures.coming(plan, piece.done, width))
        self._show_chart()
        self.query_one(TyingPanel).show(plan, entry, None if all_made else number, self.left_handed)
        self.query_one(KeyLine).offer(*foot_keys(self.session))
        self.call_after_refresh(self.show_outlook)

    def pictures(self) -> list[StrandPicture | DrawnPicture]:
        """Those that show: the letters, or where there is room and colour the drawn strand."""
        room = self.has_class("-high") and (self.has_class("-roomy") or self.has_class("-wide"))
        self.set_class(room and draws(terminal_of(self.app)), "-drawn")
        if self.has_class("-drawn"):
            return list(self.query(DrawnPicture))
        return [self.query_one(StrandPicture)]

    def show_outlook(self) -> None:
        """Show what is to be expected: at once, or when it is worked out. Until then the figures stay as they were."""
        if self._is_being_left():
            return
        outlook = self.session.outlook_at_once()
        self.query_one("#verdict", TextLine).say(follow_sentences(self.session, outlook))
        if outlook is None:
            self._work_out_beside()
            return
        self.outlook = outlook
        self._line("#figures", lambda width: figures.four_figures(self.opened, outlook, width))

    def _is_being_left(self) -> bool:
        """Whether this screen goes, or is gone: its widgets go one after the other."""
        return not (self.is_attached and self.display)

    def _work_out_beside(self) -> None:
        """The app's worker, not the screen's: it goes on when the screen is left, and the bench is told as well."""

        async def work_out() -> None:
            await self.session.outlook()
            self.working_out = False
            self.show_outlook()

        if not self.working_out:
            self.working_out = True
            self.app.run_worker(work_out())

    def _line(self, place: str, text: Callable[[int], Content]) -> None:
        line = self.query_one(place, TextLine)
        width = line.content_size.width
        if width:
            line.show(text(width))

    def _show_chart(self) -> None:
        """The readings' chart, where the screen has room for it; loaded there only."""
        room = self.size.width >= CHART_COLUMNS and self.size.height >= CHART_ROWS
        if room != self.has_class("-charted"):
            self.set_class(room, "-charted")
            self.app.stylesheet.update(self)  # now, for what is called after a refresh is called before a later one
            self.refresh(layout=True)
            self.call_after_refresh(self.show_all)  # what stands beside it has another width then
        if not room:
            return
        if self.chart is None:
            from companion.tui.follow.chart_beside import ChartBeside

            self.chart = ChartBeside(self.workshop.charted)
            self.query_one("#right").mount(self.chart)
            self.call_after_refresh(self.show_all)
            return
        self.call_after_refresh(self.chart.show, self.opened)

    # -- the steps ----------------------------------------------------------------------------------------------------

    @on(StepMade)
    async def step_clicked(self) -> None:
        await self.click(CONFIRM.action)

    def action_confirm_step(self, key: str = "click") -> None:
        """The present step is made. A key that is held or bounces says so once."""
        if not self.bounce.counts(key):
            return
        if self._all_done():
            self.close_piece()
        else:
            self._write(self.session.confirm)

    def action_confirm_by_enter(self) -> None:
        """The same by Enter; one that was meant for a question just answered counts no bead."""
        if self.turns.typed_at() - self.answered_at > ANSWER_SECONDS:
            self.action_confirm_step("enter")

    def action_from_afar(self) -> None:
        """Only the present step, or all again. Where it is not drawn, its bead's number is large beside it."""
        self.toggle_class("-afar")
        self.query_one(BigStep).number_wanted = self.has_class("-afar")
        if self.has_class("-afar") and not self.has_class("-drawn"):
            self.session.said = ONLY_THIS_STEP
        elif self.session.said is ONLY_THIS_STEP:
            self.session.said = None
        self.call_after_refresh(self.show_all)

    def action_undo(self) -> None:
        """Undo the latest act; a piece that has ended is opened again."""
        if self.session.piece.state == "under way":
            self._write(self.session.undo)
        elif self.session.may_write() and self.session.reopen():
            self.go(ToPiece(self.opened.name, self.session.said))
        else:
            self.show_all()

    def action_redo(self) -> None:
        """Redo what was undone last."""
        self._write(self.session.redo)

    def action_withdraw(self) -> None:
        """Take out the latest reading that counts."""
        self._write(self.session.withdraw)

    def _write(self, act: Callable[[], object]) -> None:
        if self.session.may_write():
            act()
        self.show_number()
        self.call_after_refresh(self._show_the_rest)

    def action_show_plan(self) -> None:
        """The plan at hand."""
        self.go(ToPlan(self.opened))

    def action_leave(self) -> None:
        """Back to the bench. What is in doubt is said there too."""
        self.go(ToBench(self.session.in_doubt, ToPiece(self.opened.name)))

    # -- questions ----------------------------------------------------------------------------------------------------

    async def ask(self, question: Question[T]) -> T | None:
        """What the maker answers, None when they leave it."""
        from companion.tui.dialogs.ask import AskDialog

        answer = await self.answer(AskDialog(question))
        self.answered_at = monotonic()
        return answer

    @work
    async def action_ask(self, what: str) -> None:
        """Ask one of the questions about the piece, and do what the answer says."""
        if self.session.may_write():
            await QUESTIONS[what](self.session, self.ask)
        self.show_all()

    def action_measure_with(self, digit: str) -> None:
        """Measure, with the first digit of what the ruler says; once every step is done, how long it came out."""
        if self._all_done():
            self.close_piece(digit)
        else:
            self.measure_with(digit)

    def _all_done(self) -> bool:
        return self.session.piece.state == "under way" and self.session.piece.done == self.session.plan.total_steps

    @work
    async def measure_with(self, digit: str) -> None:
        """How long is the strand? That digit is typed of it already."""
        if self.session.may_write():
            await ask_strand(self.session, self.ask, digit)
        self.show_all()

    @work
    async def action_take_over(self) -> None:
        """Take the piece from the window that has it open, with the maker's word."""
        await ask_take_over(self.session, self.ask)
        self.show_all()

    @work
    async def close_piece(self, begin_with: str = "") -> None:
        """Every step is made: ask how long it came out, and close the piece. `begin_with`: what is typed of it."""
        said = await ask_ending(self.session, self.ask, begin_with) if self.session.may_write() else ""
        if said:
            self.go(ToPiece(self.opened.name, Notice("quiet", said)))
        else:
            self.show_all()

    @work
    async def action_show_readings(self) -> None:
        """All readings; any of them can be taken out, or put back."""
        from companion.tui.piece.reading_list import go_over_readings

        await go_over_readings(self, self.session)
        self.answered_at = monotonic()
        self.show_all()

    @work
    async def action_what_to_do(self) -> None:
        """What would bring the piece back; one of it can be chosen."""
        from companion.tui.dialogs.choose import ChoiceDialog
        from companion.tui.follow.remedy_choices import remedy_choices

        if not self.session.may_write():
            self.show_all()
            return
        with self.keys_go_on():
            outlook, asked = await self.session.outlook(), self.opened
            found = await self.session.remedies(outlook)
        if self.opened.revision != asked.revision or not self.is_active:
            return  # a step was made meanwhile; w asks again
        remedy = await self.answer(ChoiceDialog(remedy_choices(asked, outlook, found)))
        if remedy is not None and remedy.join:  # how much new cord there is only the maker knows
            await ask_join(self.session, self.ask)
        elif remedy is not None:
            self.session.choose(remedy)
        self.show_all()

    @work
    async def action_show_chart(self) -> None:
        """What was measured against the plan, and where it leads."""
        from companion.tui.dialogs.chart import show_chart

        await show_chart(self, lambda: self.opened)

    # -- pages to read ------------------------------------------------------------------------------------------------

    def action_show_lore(self) -> None:
        """How the present step is done, and its knot tied."""
        from companion.tui.follow.pages import work_page
        from companion.tui.knots.drawing import KnotDrawing, drawn_lines

        width, lines = max(30, min(72, self.size.width - 6)), drawn_lines(self.app)
        work = work_page(self.session.plan, self.session.piece.done, width, self.left_handed, drawn=bool(lines))
        if work is None:
            self.say(Notice("quiet", "Every step is done."))
        elif work.shown and lines:
            self._read("How it is tied", work.above, KnotDrawing(work.shown, lines), work.below)
        else:
            self._read("How it is tied", work.above + work.below)

    def action_show_cautions(self) -> None:
        """What can hurt."""
        from companion.tui.follow.pages import cautions_page

        self._read("Take care", cautions_page(self.session.plan))

    def _read(self, title: str, *page: Content | Widget) -> None:
        from companion.tui.dialogs.show import ShowDialog

        widgets = (TextLine(part) if isinstance(part, Content) else part for part in page if part)
        self.app.push_screen(ShowDialog(title, *widgets))
