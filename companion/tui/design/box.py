"""The bead box on the design page: beads of earlier designs, to be taken into this one."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.draft.draft import BeadDraft, Draft, not_in
from companion.core.values.errors import WorkshopError
from companion.core.words.drafting.draft_words import boxed_words
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.page import Page
from companion.tui.widgets.rows import Row

NEW = BeadDraft("")


async def ask_box(page: Page, draft: Draft) -> BeadDraft | None:
    """The bead of the box that is taken; NEW for a new one, which it is at once where the box has no other; None where
    the maker leaves."""
    try:
        choices = choices_of(draft, page.workshop.drafts.beads())
    except WorkshopError:
        choices = None
    return NEW if choices is None else await page.answer(BoxDialog(choices))


class BoxDialog(ChoiceDialog[BeadDraft]):
    """Gives back the bead that was chosen, one without a name for a new one, None where the maker leaves."""


def choices_of(draft: Draft, box: Sequence[BeadDraft]) -> Choices[BeadDraft] | None:
    """The beads of the box that are not in the draft yet; None where there are none."""
    beads = not_in(draft, box)
    if not beads:
        return None
    rows = [Row("a new kind of bead", NEW), *(Row(boxed_words(bead), bead) for bead in beads)]
    return Choices("Your bead box", lambda columns: rows)
