"""A piece that a screen has open: as it stands, which window it is open in, what was last said of it. No terminal here.

Another window may have it open: then this one follows along and writes nothing.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING

from msgspec.structs import replace

from companion.core.journal.events import PutBack, ReadingKind, TakenOut
from companion.core.journal.piece import STATE_WORDS, Piece
from companion.core.picture.marks import letters_of
from companion.core.plan.plan import Plan
from companion.core.values.errors import Busy, NotConfirmed, NotPossible, OpenElsewhere, Stale, WorkshopError
from companion.core.values.text import sentences
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_marked
from companion.core.words.undo_words import reading_turned, redone_words, undone_words
from companion.tui.dialogs.lengths import TypedLength
from companion.workshop import Holder, OpenPiece, Workshop

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.core.remedies.remedy import Remedy

FOLLOWING = Notice("quiet", "This piece is open in another window. You can watch here, or take over (h).")
NOT_HERE = Notice("watch", "This piece is open in another window, so nothing was saved. Press h to take over.")
TAKEN = Notice("watch", "Another window took this piece over. You can watch here, or take over (h).")
LET_GO = Notice("quiet", "The other window closed the piece. You can work on it here now.")
TAKEN_HERE = Notice("quiet", "You work on the piece here now; the other window can watch.")
NOT_TAKEN = Notice("off", "The piece could not be taken over. Check the permissions of the data folder.")
NOBODY_ELSE = Notice("quiet", "This piece is open in no other window.")
MOVED_ON = Notice("watch", "The piece changed while you typed, so nothing was saved. Look again.")
KEPT = "The note is kept: n brings it back."


class PieceSession:
    """One piece, open on a screen. `wait_for_others`: told whether to wait for a file that another program holds."""

    def __init__(self, workshop: Workshop, opened: OpenPiece, wait_for_others: Callable[[bool], object]) -> None:
        self.workshop, self.opened = workshop, opened
        self.holder: Holder = "nowhere"  # in which window the piece was open at the latest look
        self.said: Notice | None = None  # a sentence of the moment; the next step clears it
        self.fault: Notice | None = None  # what keeps the piece from being looked at, until it is over
        self.in_doubt: Notice | None = None  # that a write may count or not, until the maker has answered it
        self.note_kept = ""  # a note that could not be stored: the next question begins with it
        self._wait_for_others = wait_for_others
        self._kept_out = False  # another program had the file of pieces to itself at the latest look
        workshop.let_forecasts_wait()

    @property
    def piece(self) -> Piece:
        """The piece as it stands."""
        return self.opened.piece

    @property
    def plan(self) -> Plan:
        """What it is made by from here on."""
        return self.opened.plan

    @property
    def open_elsewhere(self) -> bool:
        """Whether another window has the piece open."""
        return self.holder == "elsewhere"

    @property
    def notice(self) -> Notice | None:
        """What is to be said beside the verdict, the most urgent first."""
        return self.in_doubt or self.fault or self.said or (FOLLOWING if self.open_elsewhere else None)

    # -- writing ------------------------------------------------------------------------------------------------------

    def may_write(self) -> bool:
        """Whether what the maker asks for can be written. Where another window has the piece open, that is said; where
        a write is in doubt the key only answers that, and the piece is read anew."""
        if self.in_doubt is not None:
            if self.catch_up():
                self.in_doubt, self.said = None, Notice("watch", self._as_the_file_has_it())
            return False
        if self.open_elsewhere:
            self.look_where_it_is_open()
        if self.open_elsewhere and self.catch_up():
            self.said = NOT_HERE
        return not self.open_elsewhere

    def _as_the_file_has_it(self) -> str:
        if self.piece.state != "under way":
            return f"The saved piece is {STATE_WORDS[self.piece.state]}."
        return f"The saved piece has {self.piece.done} of {self.plan.total_steps} steps done."

    def change(self, act: Callable[[OpenPiece], OpenPiece], said: str = "", again: bool = False) -> bool:
        """Do one thing to the piece: on disk before it shows. What could not be stored is said, and does not count.

        `again`: what is done is true wherever the piece stands, so that a step made elsewhere meanwhile is no reason
        to drop it. Returns whether it was done.
        """
        try:
            self.opened = self._done(act, again)
        except Stale as error:
            if self.catch_up():
                self.said = Notice("watch", str(error))
        except OpenElsewhere:
            self.holder = "elsewhere"
            if self.catch_up():
                self.said = NOT_HERE
        except NotConfirmed as error:
            self.catch_up()
            self.in_doubt = Notice("off", str(error))
        except (WorkshopError, NotPossible) as error:
            self.said = Notice("off", str(error))
        else:
            self.said = Notice("quiet", said) if said else None
            return True
        return False

    def _done(self, act: Callable[[OpenPiece], OpenPiece], again: bool) -> OpenPiece:
        try:
            return act(self.opened)
        except Stale:
            if not (again and self.catch_up()):
                raise
            return act(self.opened)

    def confirm(self) -> bool:
        """The present step is made; what was marked is said."""
        plan, step = self.plan, self.piece.done + 1
        done = self.change(self.workshop.confirm)
        if done:
            self.said = Notice("quiet", step_marked(plan, step, letters_of(plan.beads)))
        return done

    def undo(self) -> bool:
        """Undo the latest act, whatever it was."""
        plan, act = self.plan, self.piece.act
        done = self.change(self.workshop.undo)
        if done:
            self.said = Notice("quiet", undone_words(plan, act, self.piece))
        return done

    def reopen(self) -> bool:
        """A piece that has ended is under way again."""
        return self.change(self.workshop.reopen, "The piece is under way again.")

    def redo(self) -> bool:
        """Do the act again that was undone last."""
        done = self.change(self.workshop.redo)
        if done:
            self.said = Notice("quiet", redone_words(self.plan, self.piece))
        return done

    def withdraw(self) -> bool:
        """Take out the latest reading that counts."""
        return self._change_reading(self.workshop.withdraw)

    def turn_reading(self, number: int) -> bool:
        """Take out the reading of that number, or put it back where it is taken out."""
        return self._change_reading(lambda opened: self.workshop.turn_reading(opened, number))

    def _change_reading(self, act: Callable[[OpenPiece], OpenPiece]) -> bool:
        done = self.change(act)
        if done and isinstance(self.piece.act, TakenOut | PutBack):
            self.said = Notice("quiet", reading_turned(self.plan, self.piece.act))
        return done

    def measure(self, kind: ReadingKind, length: TypedLength, step: int) -> bool:
        """The ruler said so after that step, whatever another window has done meanwhile."""
        ruler_mm = self.workshop.ruler_step_mm(self.plan.unit)
        return self.change(
            lambda opened: self.workshop.measure(opened, kind, length.mm, length.text, step, ruler_mm), again=True
        )

    def note(self, text: str, step: int) -> bool:
        """A note at that step. One that could not be stored is kept for the next question."""
        done = self.change(lambda opened: self.workshop.note(opened, text, step), "Noted.", again=True)
        if not done and self.in_doubt is None:
            self.note_kept = text
            if self.said:
                self.said = replace(self.said, action=sentences(self.said.action, KEPT))
        return done

    def choose(self, remedy: Remedy) -> bool:
        """Go on as that remedy says."""
        from companion.core.remedies.remedy_words import chosen_notice  # most pieces need no remedy

        done = self.change(lambda opened: self.workshop.choose(opened, remedy))
        if done:
            self.said = chosen_notice(remedy, "u")
        return done

    # -- what others do -----------------------------------------------------------------------------------------------

    def catch_up(self) -> bool:
        """The piece as others have left it; where it can't be read, that is said."""
        try:
            self.opened = self.workshop.refresh(self.opened)
        except WorkshopError as error:
            self.said = Notice("off", str(error))
            return False
        return True

    def look_again(self, asking: bool) -> bool:
        """Another window or command may have gone on with the piece, or have it open now. `asking`: over the screen is
        a question, which is answered before the plan changes. Returns whether there is something new to show."""
        news = self.look_where_it_is_open()
        try:
            opened = self.workshop.refresh(self.opened)
        except WorkshopError as error:
            return self._kept_from_looking(error) or news
        news = news or self.fault is not None
        self.fault = None
        self._keep_out(False)
        if opened.revision != self.opened.revision and (opened.plan is self.plan or not asking):
            self.opened, self.said, news = opened, None, True
        return news

    def _kept_from_looking(self, error: WorkshopError) -> bool:
        """A file that another program holds hides no step: nothing is said, for only a key would be in vain."""
        if isinstance(error, Busy):
            self._keep_out(True)
            return False
        before, self.fault = self.fault, Notice("off", str(error))
        return self.fault != before

    def _keep_out(self, kept_out: bool) -> None:
        """As long as the file is held nothing waits for it: the screen looks four times a second."""
        if kept_out != self._kept_out:
            self._kept_out = kept_out
            self._wait_for_others(not kept_out)

    # -- open here or elsewhere ---------------------------------------------------------------------------------------

    def look_where_it_is_open(self) -> bool:
        """See whether the piece is open here, and open it here where nobody has it. Returns whether that is news."""
        before, self.holder = self.holder, self.workshop.take_lock(self.opened)
        if self.holder != before and "elsewhere" in (self.holder, before):
            self.said = {("here", "elsewhere"): TAKEN, ("elsewhere", "here"): LET_GO}.get((before, self.holder))
            return True
        return False  # nothing that the hand would notice

    def take_over(self) -> None:
        """Open the piece here, whoever has it."""
        self.holder = self.workshop.take_lock(self.opened, anyway=True)
        if self.catch_up():
            self.said = NOT_TAKEN if self.open_elsewhere else TAKEN_HERE

    # -- what it means ------------------------------------------------------------------------------------------------

    def outlook_at_once(self) -> Outlook | None:
        """What is to be expected of the piece as it stands; None where that takes too long for a key to wait for it."""
        if not self.workshop.forecasts.costs_little(self.opened):
            return None
        outlook = self.workshop.outlook(self.opened)
        if self.holder == "here" and self.piece.state == "under way":  # a forecast that came late has told nobody
            self.opened = self.workshop.remember_warning(self.opened, outlook)
        return outlook

    async def outlook(self) -> Outlook:
        """The same, worked out beside the screen where it takes long; of a piece that moves on meanwhile, the last."""
        while (found := self.outlook_at_once()) is None:
            beside = asyncio.wrap_future(self.workshop.forecasts.beside(self.opened))
            self.workshop.forecasts.take(await asyncio.shield(beside), self.opened)
        return found

    async def remedies(self, outlook: Outlook) -> tuple[Remedy, ...]:
        """What would bring the piece back, looked for beside the screen: for a long strand it takes a second. From
        values alone: what the screen works with must not be used there too."""
        from companion.core.remedies.search import remedies

        return await asyncio.to_thread(remedies, self.plan, self.piece, outlook, nearer=True)
