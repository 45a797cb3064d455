"""The bead box on the design page: beads of earlier designs, to be taken into this one, or out of the box."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from companion.core.draft.draft import BeadDraft, Draft, not_in
from companion.core.values.errors import WorkshopError
from companion.core.words.drafting.draft_words import ask_out_of_box, boxed_words, out_of_box_words
from companion.core.words.notices import Notice
from companion.tui.commands import BOX, bindings
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.page import Page
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import TextLine

NEW = BeadDraft("")


class Out(Struct, frozen=True):
    """That bead is to be taken out of the box."""

    bead: BeadDraft


async def ask_box(page: Page, draft: Draft) -> BeadDraft | None:
    """The bead of the box that is taken; NEW for a new one, which it is at once where the box has no other; None where
    the maker leaves. What she takes out of the box is out at once, and the others are offered again."""
    said: tuple[Notice, ...] = ()
    while True:
        try:
            choices = choices_of(draft, page.workshop.drafts.beads(), said)
        except WorkshopError:
            choices = None
        if choices is None:
            return None if said else NEW
        answer: BeadDraft | Out | None = await page.answer(BoxDialog(choices))
        if not isinstance(answer, Out):
            return answer
        said = (_taken_out(page, answer.bead),)


def _taken_out(page: Page, bead: BeadDraft) -> Notice:
    try:
        page.workshop.drafts.take_out_of_box(bead)
    except WorkshopError as error:
        return Notice("off", str(error))
    return Notice("quiet", out_of_box_words(bead))


class BoxDialog(ChoiceDialog[BeadDraft | Out]):
    """Gives back the bead that was chosen, one without a name for a new one, None where the maker leaves; or which is
    to be taken out of the box, once that was asked."""

    BINDINGS = bindings(*BOX)

    def __init__(self, choices: Choices[BeadDraft | Out]) -> None:
        super().__init__(choices)
        self.asked_of: object = None

    def action_withdraw(self) -> None:
        """Take the bead under the cursor out of the box: asked once."""
        bead = self.query_one(Rows).chosen
        if not isinstance(bead, BeadDraft) or bead == NEW:
            self._say(Notice("quiet", "Put the cursor on a bead first."))
        elif self.asked_of != bead:
            self.asked_of = bead
            self._say(Notice("watch", ask_out_of_box(bead)))
        else:
            self.dismiss(Out(bead))

    def _say(self, notice: Notice) -> None:
        self.query_one("#said", TextLine).say((notice,))


def choices_of(
    draft: Draft, box: Sequence[BeadDraft], said: tuple[Notice, ...] = ()
) -> Choices[BeadDraft | Out] | None:
    """The beads of the box that are not in the draft yet; None where there are none. `said`: what was done just now."""
    beads = not_in(draft, box)
    if not beads:
        return None
    rows = [Row("a new kind of bead", NEW), *(Row(boxed_words(bead), bead) for bead in beads)]
    return Choices("Your bead box", lambda columns: rows, BOX, said=said)
