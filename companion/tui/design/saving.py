"""Saving a draft: as a design of its own, or over the maker's own design that it was opened from."""

from __future__ import annotations

from pathlib import Path

from companion.core.draft.draft import Draft
from companion.core.words.drafting.draft_words import beside_words, over_words, saved_words
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.page import Page
from companion.tui.widgets.rows import Row
from companion.workshop.drafts import JudgedDraft

OVER, BESIDE = "over", "beside"


async def save(page: Page, draft: Draft, judged: JudgedDraft) -> tuple[Path, str] | None:
    """Save a draft that can be planned: the file, and the sentence that says so. None where the maker leaves the
    question whether over the design that was opened. Raises NotStored."""
    drafts = page.workshop.drafts
    own, loses_comments = drafts.opened_own(draft), drafts.leaves_comments(draft)
    chosen = BESIDE if own is None else await page.answer(ChoiceDialog(_where(own, loses_comments)))
    if chosen is None:
        return None
    over = own is not None and chosen == OVER
    place = own if own is not None and over else drafts.place_for(draft)
    drafts.save(draft, judged, place, over)
    return place, saved_words(place.name, loses_comments and not over)


def _where(own: Path, loses_comments: bool) -> Choices[str]:
    rows = [Row(over_words(own.name, loses_comments), OVER), Row(beside_words(), BESIDE)]
    return Choices("Save it where?", lambda columns: rows)
