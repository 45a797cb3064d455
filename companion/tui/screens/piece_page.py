"""A screen on one piece in hand: what the hand asks for beside the steps, and other windows' steps shown at once."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING

from textual import work
from textual.content import Content

from companion.core.events import NotPossible, ReadingKind
from companion.core.sentences import Line as Words
from companion.core.text import plain
from companion.core.troubles import Stale, WorkshopError
from companion.tui.screens.base import Page
from companion.tui.widgets.text import Line
from companion.workshop import WorkPiece

if TYPE_CHECKING:
    from companion.tui.dialogs.ask import Question

MOVED_ON = "The piece has moved on while you typed: nothing was written. Look again."


class PiecePage(Page):
    """One piece in hand, with the questions about it. What it looks like is the follow screen's."""

    def __init__(self, piece: WorkPiece, said: Words | None = None) -> None:
        super().__init__()
        self.work, self.help_plan = piece, piece.plan
        self.answered_at = float("-inf")  # when a question was last answered, in seconds
        self.said: Words | None = said  # a sentence of the moment; the next step clears it

    def show_all(self) -> None:
        """Show the piece as it stands."""
        raise NotImplementedError

    def say(self, words: Words) -> None:
        """Say what went wrong, at once."""
        self.said = words
        self.query_one("#verdict", Line).say((words,))

    def change(self, act: Callable[[WorkPiece], WorkPiece], said: str = "") -> bool:
        """Do one thing to the piece: on disk before it shows. What could not be stored is said, and does not count."""
        plan = self.work.plan
        try:
            self.work = act(self.work)
            self.said = Words("quiet", said) if said else None
        except Stale as error:
            if not self.catch_up():
                return False
            self.said = Words("watch", str(error))
        except (WorkshopError, NotPossible) as error:
            self.say(Words("off", str(error)))
            return False
        if self.work.plan is plan:
            self.show_all()
        else:  # another plan: another picture
            self.companion.follow(self.work, self.said)
        return True

    def catch_up(self) -> bool:
        """The piece as others have left it; where it can't be read, that is said."""
        try:
            self.work = self.workshop.refresh(self.work)
        except WorkshopError as error:
            self.say(Words("off", str(error)))
            return False
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
                if self.is_active:  # a question over this screen is answered first
                    self.companion.follow(work)
                return
            self.work, self.said = work, None
            self.show_all()

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

        step = self.work.piece.done  # the strand that lies on the ruler, whatever another window does meanwhile
        typed = await self.ask(reading_question(self.workshop, self.work, kind))
        if typed:
            length_mm = typed_mm(typed, self.work.plan.unit)
            self.change(lambda piece: self.workshop.measure(piece, kind, length_mm, plain(typed, 40), step))

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

        asked = self.work.piece
        typed = await self.ask(join_question(self.workshop, self.work))
        if typed and self.work.piece != asked:  # what it would reach was said of another place
            self.say(Words("watch", MOVED_ON))
        elif typed:
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
            self.say(Words("off", str(error)))
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
