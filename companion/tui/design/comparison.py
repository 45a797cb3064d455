"""The design that is being made and its variants side by side, to read over the page."""

from __future__ import annotations

import asyncio

from companion.core.plan.plan import Plan
from companion.core.variants.hours import Hand
from companion.core.variants.variants import Variant
from companion.core.words.compared.compare_words import comparison_lines, comparison_sentences
from companion.tui.dialogs.show import ShowDialog
from companion.tui.page import Page
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.workshop.drafts import JudgedDraft

TITLE = "The same piece made in other ways"
COLUMNS_OF_TABLES = 80  # of the screen: below that, sentences
HANG = 6


async def compare(page: Page, judged: JudgedDraft) -> None:
    """Show all variants of a draft that can be planned, worked out beside the screen. Raises WorkshopError."""
    ready, hand = page.workshop.drafts.ready(judged), page.workshop.hand()
    with page.keys_go_on():
        found = await asyncio.to_thread(ready.variants)
    assert judged.plan is not None
    await page.answer(ShowDialog(TITLE, Paragraphs(_paragraphs(found, judged.plan, hand, page.size.width))))


def _paragraphs(found: tuple[Variant, ...], plan: Plan, hand: Hand, columns: int) -> list[Paragraph]:
    if columns >= COLUMNS_OF_TABLES:
        return [Paragraph(line, hang=HANG) for line in comparison_lines(found, plan, hand)]
    return [Paragraph(line, hang=2) for line in comparison_sentences(found, plan, hand)]
