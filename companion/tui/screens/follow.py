"""Step by step: the present one large, the strand to scale, four figures, one sentence."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from companion.core.journal.piece import STATE_WORDS
from companion.core.words.notices import Notice
from companion.tui import figures
from companion.tui.commands import (
    CONFIRM,
    CORD,
    FINISH,
    FOLLOW,
    HELP,
    IN_HAND,
    JUMP,
    LEAVE,
    MEASURE,
    NOTE,
    REOPEN,
    UNDO,
    Command,
    bindings,
)
from companion.tui.screens.in_hand import FOLLOWING
from companion.tui.screens.piece_page import PiecePage
from companion.tui.widgets.big_step import BigStep, StepMade
from companion.tui.widgets.strand_picture import StrandPicture
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import OpenPiece

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.core.words.verdict_words import Answer

LOOK_AGAIN_SECONDS = 0.25
ANSWER_SECONDS = 1.0
# The keys that answer a sentence; they stand in it.
ANSWERS: dict[Answer, str] = {
    "measure": "m",
    "measure cord": "c",
    "recount": "r: counted",
    "measure again": "m: measure",
    "measure cord again": "c: cord",
    "remedies": "w: what to do",
}


class FollowScreen(PiecePage):
    """One piece being made."""

    BINDINGS = bindings(*FOLLOW)
    COMMANDS_HERE = FOLLOW

    def __init__(self, piece: OpenPiece, said: Notice | None = None) -> None:
        super().__init__(piece, said)
        self.outlook: Outlook | None = None

    def compose(self) -> ComposeResult:
        plan = self.opened.plan
        yield TextLine("", id="heading")
        with Horizontal(id="work"):
            with Vertical(id="left"):
                yield BigStep(plan)
                yield TextLine("", id="coming")
                yield StrandPicture(plan)
                yield TextLine("", id="figures")
            yield TextLine("", id="lore")
        yield TextLine("", id="verdict")
        yield Rule()
        yield KeyLine(*self._keys())

    def on_mount(self) -> None:
        self.hand = self.workshop.take_in_hand(self.opened)
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)
        self.call_after_refresh(self.show_all)

    def on_resize(self) -> None:
        self.call_after_refresh(self.show_all)

    # -- showing ------------------------------------------------------------------------------------------------------

    def show_all(self) -> None:
        """Show the piece as it stands. Only what differs from what is shown is drawn again."""
        if not self.is_attached:
            return
        piece, plan = self.opened.piece, self.opened.plan
        done = piece.done
        ended = "" if piece.state == "under way" else STATE_WORDS[piece.state]
        self.query_one(BigStep).show(done + 1 if done < plan.total_steps else None, ended)
        entry, number = plan.place(done + 1) if done < plan.total_steps else plan.place(done)
        self.query_one(StrandPicture).show(entry, number - 1 if done < plan.total_steps else number)
        self._line("#heading", lambda width: figures.heading_line(self.opened, self.workshop.pace(self.opened), width))
        self._line("#coming", lambda width: figures.coming(plan, done, width))
        self._show_lore(entry, number)
        self.query_one(KeyLine).offer(*self._keys())
        self.call_after_refresh(self.show_outlook, self.opened.revision)

    def _keys(self) -> tuple[Command, ...]:
        """The keys for the foot: those that do something now."""
        piece = self.opened.piece
        if self.hand == "elsewhere":
            return IN_HAND, LEAVE, HELP
        if piece.state != "under way":
            return REOPEN, LEAVE, HELP
        step = CONFIRM if piece.done < piece.total_steps else FINISH
        return step, UNDO, MEASURE, CORD, NOTE, JUMP, LEAVE, HELP

    def show_outlook(self, revision: int) -> None:
        """Show what is to be expected; a late answer is dropped."""
        if revision != self.opened.revision or not self.is_attached or not self.query("#verdict"):
            return  # late, or the screen is being left
        self.outlook = outlook = self.workshop.outlook(self.opened)
        self._line("#figures", lambda width: figures.four_figures(self.opened, outlook, width))
        self.query_one("#verdict", TextLine).say(self._sentences(outlook))

    def _sentences(self, outlook: Outlook) -> list[Notice]:
        from companion.core.words.cord_words import cord_line
        from companion.core.words.verdict_words import verdict_line

        following = self.hand == "elsewhere"
        said = self.fault or self.said or (FOLLOWING if following else None)
        lines = [said] if said else []
        keys = {} if following else ANSWERS  # the other window's keys answer there
        verdict = verdict_line(self.opened.plan, self.opened.piece, outlook, keys)
        cord = cord_line(self.opened.plan, outlook)
        lines += [cord, verdict] if cord.level == "off" else [verdict]
        return lines + ([cord] if cord.level == "watch" else [])

    def _line(self, place: str, text: Callable[[int], object]) -> None:
        line = self.query_one(place, TextLine)
        width = line.content_size.width
        if width:
            line.show(text(width))  # type: ignore[arg-type]

    def _show_lore(self, entry: int, number: int) -> None:
        lore = self.query_one("#lore", TextLine)
        steps = self.opened.plan.strands[entry].steps
        knot = steps[number - 1].knot if number <= len(steps) else None
        if lore.display and lore.content_size.width:
            from companion.tui.pages import lore_page

            columns, rows = lore.content_size
            lore.show(lore_page(self.opened.plan, knot, columns, rows) if knot else "")

    # -- what the hand does -------------------------------------------------------------------------------------------

    @on(StepMade)
    async def step_clicked(self) -> None:
        await self.click(CONFIRM.action)

    def action_confirm_step(self) -> None:
        """The present step is made."""
        if self.opened.piece.state == "under way" and self.opened.piece.done == self.opened.plan.total_steps:
            self.close_piece()
            return
        self.change(self.workshop.confirm)

    def action_confirm_by_enter(self) -> None:
        """The same by Enter; one that was meant for a question just answered counts no bead."""
        if monotonic() - self.answered_at > ANSWER_SECONDS:
            self.action_confirm_step()

    def action_undo_step(self) -> None:
        """Take the last one back."""
        readings = len(self.opened.piece.readings)
        if self.change(self.workshop.undo, "Taken back.") and len(self.opened.piece.readings) < readings:
            self.said = Notice("quiet", "Taken back. The reading after it no longer counts.")

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()
