"""Step by step: the present one large, the strand to scale, four figures, one sentence."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content

from companion.core.events import NotPossible, ReadingKind
from companion.core.sentences import Line as Words
from companion.core.text import plain
from companion.core.troubles import Stale, WorkshopError
from companion.tui import figures
from companion.tui.commands import (
    CONFIRM,
    CORD,
    FOLLOW,
    HELP,
    JUMP,
    LEAVE,
    MEASURE,
    NOTE,
    UNDO,
    bindings,
)
from companion.tui.screens.base import Page
from companion.tui.widgets.big_step import BigStep, StepMade
from companion.tui.widgets.strand_picture import StrandPicture
from companion.tui.widgets.text import KeyLine, Line, Rule
from companion.workshop import WorkPiece

if TYPE_CHECKING:
    from companion.core.outlook import Outlook
    from companion.tui.dialogs.ask import Question

LOOK_AGAIN_SECONDS = 0.25
ANSWER_SECONDS = 1.0
# The key that answers a sentence, beside it.
ANSWERS = {"recount": "r: they are right", "measure again": "m: measure", "watch": "w: what to do"}


class FollowScreen(Page):
    """One piece being made."""

    BINDINGS = bindings(*FOLLOW)
    COMMANDS_HERE = FOLLOW

    def __init__(self, piece: WorkPiece, said: Words | None = None) -> None:
        super().__init__()
        self.work, self.help_plan = piece, piece.plan
        self.outlook: Outlook | None = None
        self.answered_at = float("-inf")  # when a question was last answered, in seconds
        self.said: Words | None = said  # a sentence of the moment; the next step clears it

    def compose(self) -> ComposeResult:
        plan = self.work.plan
        yield Line("", id="heading")
        with Horizontal(id="work"):
            with Vertical(id="left"):
                yield BigStep(plan)
                yield Line("", id="coming")
                yield StrandPicture(plan)
                yield Line("", id="figures")
            yield Line("", id="lore")
        yield Line("", id="verdict")
        yield Rule()
        yield KeyLine(CONFIRM, UNDO, MEASURE, CORD, NOTE, JUMP, LEAVE, HELP)

    def on_mount(self) -> None:
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)
        self.call_after_refresh(self.show_all)

    def on_resize(self) -> None:
        self.call_after_refresh(self.show_all)

    # -- showing ------------------------------------------------------------------------------------------------------

    def show_all(self) -> None:
        """Show the piece as it stands. Only what differs from what is shown is drawn again."""
        if not self.is_attached:
            return
        piece, plan = self.work.piece, self.work.plan
        done = piece.done
        self.query_one(BigStep).show(done + 1 if done < plan.total_steps else None)
        entry, number = plan.place(done + 1) if done < plan.total_steps else plan.place(done)
        self.query_one(StrandPicture).show(entry, number - 1 if done < plan.total_steps else number)
        self._line("#heading", lambda width: figures.heading_line(self.work, self.workshop.pace(self.work), width))
        self._line("#coming", lambda width: figures.coming(plan, done, width))
        self._show_lore(entry, number)
        self.call_after_refresh(self.show_outlook, self.work.revision)

    def show_outlook(self, revision: int) -> None:
        """Show what is to be expected; a late answer is dropped."""
        if revision != self.work.revision or not self.is_attached:
            return
        self.outlook = outlook = self.workshop.outlook(self.work)
        self._line("#figures", lambda width: figures.figures(self.work, outlook, width))
        self.query_one("#verdict", Line).say(self._sentences(outlook))

    def _sentences(self, outlook: Outlook) -> list[Words]:
        from companion.core.words import cord_line, verdict_line

        lines = [self.said] if self.said else []
        verdict = verdict_line(self.work.plan, self.work.piece, outlook)
        cord = cord_line(self.work.plan, self.work.piece, outlook)
        if verdict.text.endswith("Lay the ruler on now."):
            verdict = Words(verdict.loudness, verdict.text.replace("on now.", "on now (m)."))
        elif verdict.loudness != "quiet":
            key = ANSWERS.get(outlook.verdict, "w: what to do")
            word, mark, rest = verdict.text.partition("." if outlook.verdict in ("off", "watch") else ")")
            verdict = Words(verdict.loudness, f"{word}{mark if mark == ')' else ''} ({key}).{rest.removeprefix('.')}")
        lines += [cord, verdict] if cord.loudness == "off" else [verdict]
        return lines + ([cord] if cord.loudness == "watch" else [])

    def _line(self, place: str, text: Callable[[int], object]) -> None:
        line = self.query_one(place, Line)
        width = line.content_size.width
        if width:
            line.show(text(width))  # type: ignore[arg-type]

    def _show_lore(self, entry: int, number: int) -> None:
        lore = self.query_one("#lore", Line)
        steps = self.work.plan.strands[entry].steps
        knot = steps[number - 1].knot if number <= len(steps) else None
        if lore.display and lore.content_size.width:
            from companion.tui.pages import lore_page

            lore.show(lore_page(self.work.plan, knot, lore.content_size.width) if knot else "")

    # -- what the hand does -------------------------------------------------------------------------------------------

    def change(self, act: Callable[[WorkPiece], WorkPiece], said: str = "") -> bool:
        """Do one thing to the piece: on disk before it shows. What could not be stored is said, and does not count."""
        plan = self.work.plan
        try:
            self.work = act(self.work)
            self.said = Words("quiet", said) if said else None
        except Stale as error:
            self.work = self.workshop.refresh(self.workshop.open(self.work.name))
            self.said = Words("watch", str(error))
        except (WorkshopError, NotPossible) as error:
            self.said = Words("off", str(error))
            self.query_one("#verdict", Line).say((self.said,))
            return False
        if self.work.plan is plan:
            self.show_all()
        else:  # another plan: another picture
            self.companion.follow(self.work, self.said)
        return True

    def look_again(self) -> None:
        """Another window or command may have gone on with the piece."""
        try:
            work = self.workshop.refresh(self.work)
        except WorkshopError as error:
            self.query_one("#verdict", Line).say((Words("off", str(error)),))
            return
        if work is not self.work and work.revision != self.work.revision:
            if work.plan is not self.work.plan:
                self.companion.follow(work)
                return
            self.work, self.said = work, None
            self.show_all()

    @on(StepMade)
    def step_clicked(self) -> None:
        self.action_confirm_step()

    def action_confirm_step(self) -> None:
        """The present step is made."""
        if self.work.piece.state == "under way" and self.work.piece.done == self.work.plan.total_steps:
            self.close_piece()
            return
        self.change(self.workshop.confirm)

    def action_confirm_by_enter(self) -> None:
        """The same by Enter; one that was meant for a question just answered counts no bead."""
        if monotonic() - self.answered_at > ANSWER_SECONDS:
            self.action_confirm_step()

    def action_undo_step(self) -> None:
        """Take the last one back."""
        readings = len(self.work.piece.readings)
        if self.change(self.workshop.undo, "Taken back.") and len(self.work.piece.readings) < readings:
            self.said = Words("quiet", "Taken back. The reading after it no longer counts.")

    async def ask(self, question: Question) -> str | None:
        """What the maker types, None when they leave it."""
        from companion.tui.dialogs.ask import AskDialog

        answer = await self.app.push_screen_wait(AskDialog(question))
        self.answered_at = monotonic()
        return answer

    def read(self, title: str, text: Content) -> None:
        """Something to read over the work."""
        from companion.tui.dialogs.show import ShowDialog

        self.app.push_screen(ShowDialog(title, text))

    def action_measure(self) -> None:
        """Lay the ruler on the strand."""
        self.ask_reading("strand")

    def action_check_cord(self) -> None:
        """Measure the free cord."""
        self.ask_reading("free")

    @work
    async def ask_reading(self, kind: ReadingKind) -> None:
        from companion.tui.questions import reading_question
        from companion.tui.typed import typed_mm

        typed = await self.ask(reading_question(self.workshop, self.work, kind))
        if typed:
            length_mm = typed_mm(typed, self.work.plan.unit)
            self.change(lambda piece: self.workshop.measure(piece, kind, length_mm, plain(typed, 40)))

    @work
    async def action_note(self) -> None:
        """Write a note."""
        from companion.tui.questions import note_question

        typed = await self.ask(note_question(self.work))
        if typed:
            self.change(lambda piece: self.workshop.note(piece, plain(typed, 200)), "Noted.")

    @work
    async def action_jump(self) -> None:
        """Move the count."""
        from companion.tui.questions import jump_question, jump_target

        typed = await self.ask(jump_question(self.work))
        to = jump_target(self.work.plan, typed) if typed else None
        if to is not None:
            self.change(lambda piece: self.workshop.jump(piece, to), "Jumped; u takes it back.")

    @work
    async def action_join_cord(self) -> None:
        """Join new cord on."""
        from companion.tui.questions import join_question
        from companion.tui.typed import typed_mm

        typed = await self.ask(join_question(self.workshop, self.work))
        if typed:
            added_mm = typed_mm(typed, self.work.plan.unit)
            self.change(lambda piece: self.workshop.join(piece, added_mm, plain(typed, 40)), "Joined; u takes it back.")

    @work
    async def close_piece(self) -> None:
        """Every step is made: ask how long it came out, and close the piece."""
        from companion.tui.questions import finish_question
        from companion.tui.typed import typed_mm

        typed = await self.ask(finish_question(self.work))
        if typed is None:
            return
        length_mm = typed_mm(typed, self.work.plan.unit) if typed.strip() else None
        try:
            self.work = self.workshop.finish(self.work, length_mm)
        except (WorkshopError, NotPossible) as error:
            self.query_one("#verdict", Line).say((Words("off", str(error)),))
            return
        self.companion.to_bench(f"{self.work.plan.design} is finished.", "quiet")

    def action_withdraw(self) -> None:
        """Take the latest reading back."""
        self.change(self.workshop.withdraw, "The latest reading no longer counts.")

    def action_recount(self) -> None:
        """The beads are counted, and right."""
        self.change(self.workshop.recount, "Counted, and right: kept in the sum.")

    def action_show_lore(self) -> None:
        """How the present knot is tied."""
        from companion.tui.pages import lore_page

        plan, done = self.work.plan, self.work.piece.done
        for step in range(min(done + 1, plan.total_steps), plan.total_steps + 1):
            entry, number = plan.place(step)
            knot = plan.strands[entry].steps[number - 1].knot
            if knot:
                width = max(30, min(72, self.size.width - 6))
                self.read("How it is tied", lore_page(plan, knot, width))
                return
        self.change(lambda piece: piece, "No knot is left to tie.")

    @work
    async def action_what_to_do(self) -> None:
        """What would bring the piece back; one of it can be chosen."""
        from companion.tui.dialogs.remedies import RemediesDialog
        from companion.tui.pages import remedies_text

        found = self.workshop.remedies(self.work)
        outlook = self.workshop.outlook(self.work)
        number = await self.app.push_screen_wait(RemediesDialog(found, remedies_text(self.work, outlook, found)))
        if number is not None:
            self.change(lambda piece: self.workshop.choose(piece, found[number]), "Going on so; u takes it back.")

    def action_show_cautions(self) -> None:
        """What to mind."""
        from companion.tui.pages import cautions_page

        self.read("What to mind", cautions_page(self.work.plan))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()
