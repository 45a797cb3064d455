"""A screen on one piece in hand: what the hand asks for beside the steps."""

from __future__ import annotations

import asyncio
from dataclasses import replace

from textual import work
from textual.content import Content

from companion.core.journal.events import MOST_NOTE, ReadingKind
from companion.core.values.text import plain, sentences
from companion.core.words.notices import Notice
from companion.tui.screens.in_hand import InHandPage
from companion.workshop import OpenPiece

KEPT = "The note is kept: n brings it back."
MOVED_ON = "The piece has moved on while you typed: nothing was written. Look again."


class PiecePage(InHandPage):
    """One piece in hand, with the questions about it. What it looks like is the follow screen's."""

    def __init__(self, piece: OpenPiece, said: Notice | None = None) -> None:
        super().__init__(piece, said)
        self.note_kept = ""  # a note that could not be stored: the next question begins with it

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
        from companion.tui.typed import ruler_step_mm, typed_mm

        if self.is_elsewhere():
            return
        step = self.opened.piece.done  # the strand that lies on the ruler, whatever another window does meanwhile
        typed = await self.ask(reading_question(self.workshop, self.opened, kind))
        if typed:
            length_mm = typed_mm(typed, self.opened.plan.unit)
            text = plain(typed, 40)
            ruler_mm = ruler_step_mm(self.opened.plan.unit)
            self.change(lambda piece: self.workshop.measure(piece, kind, length_mm, text, step, ruler_mm), again=True)

    @work
    async def action_note(self) -> None:
        """Write a note."""
        from companion.tui.questions import note_question

        if self.is_elsewhere():
            return
        step = self.opened.piece.done  # the one that the question names
        typed = await self.ask(note_question(self.opened, self.note_kept))
        self.note_kept = ""
        if typed and not self.change(
            lambda piece: self.workshop.note(piece, plain(typed, MOST_NOTE), step), "Noted.", again=True
        ):
            self.note_kept = typed
            if self.said:
                self.say(replace(self.said, action=sentences(self.said.action, KEPT)))

    @work
    async def action_jump(self) -> None:
        """Move the count."""
        from companion.tui.questions import jump_question, jump_target

        if self.is_elsewhere():
            return
        typed = await self.ask(jump_question(self.opened))
        to = jump_target(self.opened.plan, typed) if typed else None
        if to is not None:
            self.change(lambda piece: self.workshop.jump(piece, to), "Jumped; u takes it back.")

    @work
    async def action_join_cord(self) -> None:
        """Join new cord on."""
        from companion.tui.questions import join_question
        from companion.tui.typed import typed_mm

        if self.is_elsewhere():
            return
        asked = self.opened.piece
        typed = await self.ask(join_question(self.workshop, self.opened))
        if typed and self.opened.piece != asked:  # what it would reach was said of another place
            self.say(Notice("watch", MOVED_ON))
        elif typed:
            added_mm = typed_mm(typed, self.opened.plan.unit)
            self.change(lambda piece: self.workshop.join(piece, added_mm, plain(typed, 40)), "Joined; u takes it back.")

    @work
    async def close_piece(self) -> None:
        """Every step is made: ask how long it came out, and close the piece."""
        from companion.core.values.show_lengths import display_unit
        from companion.core.words.lesson_words import left_words
        from companion.tui.questions import finish_question, learn_question, learns, left_question
        from companion.tui.typed import typed_mm

        if self.is_elsewhere():
            return
        plan, said = self.opened.plan, [f"{self.opened.plan.design} is finished."]
        typed = await self.ask(finish_question(self.opened))
        left = None if typed is None else await self.ask(left_question(self.opened))
        if typed is None or left is None:
            return
        length_mm, left_mm = (typed_mm(text, plan.unit) if text.strip() else None for text in (typed, left))
        taught = self.workshop.teaching(self.opened, length_mm, left_mm)
        if taught and taught.lessons:
            answer = await self.ask(learn_question(taught))
            if answer is None:
                return
            taught = taught if learns(answer) else None
            said += [f"The card {taught.card} has learnt from it."] if taught else []
        elif taught and taught.why_not:
            said.append(f"The card {taught.card} does not learn from it. {taught.why_not}")
            taught = None
        if left_mm is not None:
            said.append(left_words(left_mm, plan.strands[-1].layers, display_unit(plan.unit)))
        if self.change(lambda piece: self.workshop.finish(piece, length_mm, left_mm, taught)):
            self.companion.to_bench(" ".join(said), "quiet")

    def action_withdraw(self) -> None:
        """Take the latest reading back."""
        self.change(self.workshop.withdraw, "The latest reading no longer counts.")

    @work
    async def action_recount(self) -> None:
        """The beads are counted: how many there are."""
        from companion.core.forecast.counting import stretch_to_count
        from companion.core.words.counting_words import count_words
        from companion.tui.questions import beads_typed, recount_question

        if self.is_elsewhere():
            return
        counted = stretch_to_count(self.opened.plan, self.opened.piece, self.workshop.outlook(self.opened))
        typed = await self.ask(recount_question(self.opened, counted))
        if typed is None:
            return
        beads = beads_typed(typed) if typed.strip() else counted.beads
        said = count_words((counted.beads if beads is None else beads) - counted.beads)
        self.change(lambda piece: self.workshop.recount(piece, counted.step, counted.since, beads), said)

    def action_show_lore(self) -> None:
        """How the present knot is tied."""
        from companion.tui.pages import lore_page

        plan, done = self.opened.plan, self.opened.piece.done
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

        if self.is_elsewhere():
            return
        asked = self.opened
        outlook = self.workshop.outlook(asked)
        with self.keys_go_on():
            found = await asyncio.to_thread(self.workshop.remedies, asked)  # of a long strand it takes a second
        if self.opened.revision != asked.revision or not self.is_active:
            return  # a step was made meanwhile; w asks again
        number = await self.answer(RemediesDialog(self.opened, outlook, found))
        if number is not None and found[number].join:  # how much new cord there is only the maker knows
            self.action_join_cord()
        elif number is not None:
            self.change(lambda piece: self.workshop.choose(piece, found[number]), "Going on so; u takes it back.")

    def action_show_cautions(self) -> None:
        """What to mind."""
        from companion.tui.pages import cautions_page

        self.read("What to mind", cautions_page(self.opened.plan))
