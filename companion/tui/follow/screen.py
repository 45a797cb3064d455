"""Step by step: the present one large, the strand to scale, four figures, one sentence."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING, TypeVar

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from companion.core.words.notices import Notice
from companion.tui.commands import CONFIRM, FOLLOW, Command, bindings
from companion.tui.follow.body import StepsBody
from companion.tui.follow.bounce import KeyBounce
from companion.tui.follow.figures import heading_line
from companion.tui.follow.keys import commands_now
from companion.tui.follow.picture.big_step import StepMade
from companion.tui.follow.session import PieceSession
from companion.tui.page import Page
from companion.tui.routes import ToBench, ToPiece, ToPlan
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.text import TextLine
from companion.workshop import OpenPiece
from companion.workshop.key_bounce import bounce_seconds

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.tui.dialogs.question import Question

T = TypeVar("T")

LOOK_AGAIN_SECONDS = 0.25
ANSWER_SECONDS = 1.0
HEADING_MARGINS = 2  # columns
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
        self.working_out = False  # what is to be expected comes later
        self.answered_at = float("-inf")  # when a question was last answered, or a dialog closed, in seconds
        self.was_shown = False
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
        yield TextLine(self._heading(self.app.size.width - HEADING_MARGINS), id="heading")
        yield StepsBody(self.session, self.left_handed)

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
        self.query_one("#heading", TextLine).fit(self._heading)

    def _heading(self, width: int) -> Content:
        return heading_line(self.opened, self.workshop.pace(self.opened), width)

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
        self.help_plan = self.session.plan
        self.query_one(StepsBody).show()
        self.call_after_refresh(self.show_outlook)

    def show_outlook(self) -> None:
        """Show what is to be expected: at once, or when it is worked out. Until then the figures stay as they were."""
        if self._is_being_left():
            return
        outlook = self.session.outlook_at_once()
        self.query_one(StepsBody).show_outlook(outlook)
        if outlook is None:
            self._work_out_beside()
        else:
            self.outlook = outlook

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

    # -- the steps ----------------------------------------------------------------------------------------------------

    @on(StepMade)
    async def step_clicked(self) -> None:
        await self.click(CONFIRM.action)

    def on_screen_resume(self) -> None:
        """A dialog over this screen is closed: the key that closed it may bounce."""
        if self.was_shown:
            self.answered_at = monotonic()
        self.was_shown = True

    def action_confirm_step(self, key: str = "click") -> None:
        """The present step is made. A key that is held or bounces says so once, and not of a dialog just closed."""
        just_closed = key != "click" and self.turns.typed_at() - self.answered_at < self.bounce.seconds
        if not self.bounce.counts(key) or (just_closed and self.bounce.seconds):
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
        """Only the present step, or all again."""
        if self.query_one(StepsBody).toggle_afar():
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
        from companion.tui.follow.asking import QUESTIONS

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
        from companion.tui.follow.asking import ask_strand

        if self.session.may_write():
            await ask_strand(self.session, self.ask, digit)
        self.show_all()

    @work
    async def action_take_over(self) -> None:
        """Take the piece from the window that has it open, with the maker's word."""
        from companion.tui.follow.asking import ask_take_over

        await ask_take_over(self.session, self.ask)
        self.show_all()

    @work
    async def close_piece(self, begin_with: str = "") -> None:
        """Every step is made: ask how long it came out, and close the piece. `begin_with`: what is typed of it."""
        from companion.tui.follow.asking import ask_ending

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
        from companion.tui.follow.asking import ask_join
        from companion.tui.follow.remedy_choices import remedy_choices

        if not self.session.may_write():
            self.show_all()
            return
        with self.keys_go_on():
            outlook, asked = await self.session.outlook(), self.opened
            found = await self.session.remedies(outlook)
        if self.opened.revision != asked.revision or not self.is_active:
            return  # a step was made meanwhile; w asks again
        from companion.tui.widgets.palettes import palette_of  # with what is drawn

        drawn = self.query_one(StepsBody).has_room() and draws(terminal_of(self.app))
        palette = palette_of(self.app, asked.plan) if drawn else None
        remedy = await self.answer(ChoiceDialog(remedy_choices(asked, outlook, found, palette)))
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
        from companion.tui.follow.reading import show_lore

        if not show_lore(self, self.session, self.left_handed):
            self.say(Notice("quiet", "Every step is done."))

    def action_show_cautions(self) -> None:
        """What can hurt."""
        from companion.tui.follow.reading import show_cautions

        show_cautions(self, self.session.plan)
