"""The bead box on the design page: beads of earlier designs, to be taken into this one."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.draft.draft import BeadDraft, Draft, with_unit
from companion.core.words.draft_words import boxed_words
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.widgets.rows import Row

NEW = BeadDraft("")


class BoxDialog(ChoiceDialog[BeadDraft]):
    """Gives back the bead that was chosen, one without a name for a new one, None where the maker leaves."""


def choices_of(draft: Draft, box: Sequence[BeadDraft]) -> Choices[BeadDraft] | None:
    """The beads of the box that are not in the draft yet; None where there are none."""
    there = {(bead.name.strip().casefold(), with_unit(bead.length, draft.unit)) for bead in draft.beads}
    beads = [bead for bead in box if (bead.name.casefold(), bead.length) not in there]
    if not beads:
        return None
    rows = [Row("a new kind of bead", NEW), *(Row(boxed_words(bead), bead) for bead in beads)]
    return Choices("Your bead box", lambda columns: rows)
