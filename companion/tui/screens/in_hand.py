"""A screen on one piece: what it does to the piece, what others do to it, and which window has it in hand."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING

from textual import work

from companion.core.values.errors import Busy, InOtherHands, NotPossible, Stale, WorkshopError
from companion.core.words.notices import Notice
from companion.tui.screens.base import Page
from companion.tui.widgets.text import TextLine
from companion.workshop import Holder, OpenPiece

if TYPE_CHECKING:
    from companion.tui.dialogs.ask import Question

FOLLOWING = Notice("quiet", "Another window has this piece in hand: here you follow along (h: take over).")
NOT_HERE = Notice("watch", "Another window has this piece in hand: nothing was written. h takes it over.")
TAKEN = Notice("watch", "Another window has taken this piece in hand: here you follow along (h: take it back).")
LET_GO = Notice("quiet", "The other window has let the piece go: it is in hand here now.")
TAKEN_HERE = Notice("quiet", "The piece is in hand here; the other window follows along.")
NOT_TAKEN = Notice("off", "The piece could not be taken in hand. Look at the permissions of the data folder.")
NOBODY_ELSE = Notice("quiet", "No other window has this piece in hand.")


class InHandPage(Page):
    """One piece. Another window may have it in hand: then this one follows along and writes nothing."""

    def __init__(self, piece: OpenPiece, said: Notice | None = None) -> None:
        super().__init__()
        self.opened, self.help_plan = piece, piece.plan
        self.hand: Holder = "nowhere"  # where the piece was in hand at the latest look
        self.said: Notice | None = said  # a sentence of the moment; the next step clears it
        self.fault: Notice | None = None  # what keeps the piece from being looked at, until it is over
        self.kept_out = False  # another program had the file of pieces to itself at the latest look
        self.answered_at = float("-inf")  # when a question was last answered, in seconds

    def show_all(self) -> None:
        """Show the piece as it stands."""
        raise NotImplementedError

    def show_since(self, plan: object) -> None:
        """Show the piece; where it goes by another plan than that one, in another picture."""
        if self.opened.plan is plan:
            self.show_all()
        else:
            self.companion.follow(self.opened, self.said)

    def say(self, words: Notice) -> None:
        """Say what went wrong, at once."""
        self.said = words
        self.query_one("#verdict", TextLine).say((words,))

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.said = Notice("watch", text)
        self.show_all()
        return True

    async def ask(self, question: Question) -> str | None:
        """What the maker types, None when they leave it."""
        from companion.tui.dialogs.ask import AskDialog

        answer = await self.answer(AskDialog(question))
        self.answered_at = monotonic()
        return answer

    # -- writing ------------------------------------------------------------------------------------------------------

    def change(self, act: Callable[[OpenPiece], OpenPiece], said: str = "", again: bool = False) -> bool:
        """Do one thing to the piece: on disk before it shows. What could not be stored is said, and does not count.

        `again`: what is done is true wherever the piece stands, so that a step made elsewhere meanwhile is no reason
        to drop it. Returns whether it was done.
        """
        plan, done = self.opened.plan, False
        try:
            self.opened = self._done(act, again)
            self.said, done = Notice("quiet", said) if said else None, True
        except Stale as error:
            if not self.catch_up():
                return False
            self.said = Notice("watch", str(error))
        except InOtherHands:
            self.hand = "elsewhere"
            if not self.catch_up():
                return False
            self.said = NOT_HERE
        except (WorkshopError, NotPossible) as error:
            self.say(Notice("off", str(error)))
            return False
        self.show_since(plan)
        return done

    def _done(self, act: Callable[[OpenPiece], OpenPiece], again: bool) -> OpenPiece:
        try:
            return act(self.opened)
        except Stale:
            if not (again and self.catch_up()):
                raise
            return act(self.opened)

    # -- what others do -----------------------------------------------------------------------------------------------

    def catch_up(self) -> bool:
        """The piece as others have left it; where it can't be read, that is said."""
        try:
            self.opened = self.workshop.refresh(self.opened)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return False
        return True

    def look_again(self) -> None:
        """Another window or command may have gone on with the piece, or have taken it in hand."""
        if self not in self.app.screen_stack:  # left already: what was in hand is let go
            return
        self.look_who_has_it()
        try:
            opened = self.workshop.refresh(self.opened)
        except WorkshopError as error:
            self._kept_from_looking(error)
            return
        over = self.fault is not None
        self.fault = None
        self._keep_out(False)
        if opened is not self.opened and opened.revision != self.opened.revision:
            if opened.plan is not self.opened.plan:
                if self.is_active:  # a question over this screen is answered first
                    self.companion.follow(opened)
                return
            self.opened, self.said, over = opened, None, True
        if over:
            self.show_all()

    def _kept_from_looking(self, error: WorkshopError) -> None:
        """A file that another program holds hides no step: nothing is said, for only a key would be in vain."""
        if isinstance(error, Busy):
            self._keep_out(True)
            return
        fault = Notice("off", str(error))
        if fault != self.fault:
            self.fault = fault
            self.query_one("#verdict", TextLine).say((fault,))

    def _keep_out(self, kept_out: bool) -> None:
        """As long as the file is held nothing waits for it: the screen looks four times a second."""
        if kept_out != self.kept_out:
            self.kept_out = kept_out
            self.companion.wait_for_others(not kept_out)

    # -- in hand ------------------------------------------------------------------------------------------------------

    def look_who_has_it(self) -> None:
        """See whether the piece is in hand here, and take it where nobody has it."""
        before, self.hand = self.hand, self.workshop.take_in_hand(self.opened)
        if before == self.hand:
            return
        if self.hand == "elsewhere":
            self.said = TAKEN if before == "here" else None
        elif before == "elsewhere":
            self.said = LET_GO if self.hand == "here" else None
        else:  # nothing that the hand would notice
            return
        self.show_all()

    def is_elsewhere(self) -> bool:
        """Whether another window has the piece in hand: then that is said."""
        if self.hand != "elsewhere":
            return False
        self.said = NOT_HERE
        self.show_all()
        return True

    @work
    async def action_take_in_hand(self) -> None:
        """Take the piece from the window that has it, with the maker's word."""
        from companion.tui.questions import in_hand_question

        if self.hand != "elsewhere":
            self.said = NOBODY_ELSE
            self.show_all()
            return
        if await self.ask(in_hand_question()) is None:
            return
        plan = self.opened.plan
        self.hand = self.workshop.take_in_hand(self.opened, anyway=True)
        if self.catch_up():
            self.said = NOT_TAKEN if self.hand == "elsewhere" else TAKEN_HERE
            self.show_since(plan)
