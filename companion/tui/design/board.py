"""The parts of a draft, and beside or under them what they come to: drawn, in figures, and what is to be minded."""

from __future__ import annotations

from collections.abc import Iterator

from textual.app import ComposeResult
from textual.containers import Container, Vertical

from companion.core.draft.draft import Draft
from companion.core.words.drafting.cure_words import cures_notice
from companion.core.words.drafting.draft_words import outcome, short_notices
from companion.core.words.notices import Notice
from companion.tui.design.further import Further
from companion.tui.design.page_rows import rows_of
from companion.tui.design.preview import Preview
from companion.tui.widgets.rows import Rows
from companion.tui.widgets.text import TextLine
from companion.workshop.drafts import JudgedDraft

OFF_LENGTH = "length outside tolerance"  # said with the ways to let it come out


class DrawingBoard(Container):
    """Shows a draft as far as it goes."""

    def __init__(self) -> None:
        super().__init__(id="drawing-board")

    def compose(self) -> ComposeResult:
        yield Rows(id="rows")
        with Vertical(id="beside"):
            yield Preview()
            yield TextLine("", id="outcome")
            yield TextLine("", id="doubts")

    def show(self, draft: Draft, judged: JudgedDraft, further: Further, with_ways: bool) -> None:
        """Show that draft. `with_ways`: with those that would let it come out."""
        rows = rows_of(draft, {finding.part for finding in judged.findings}, further.reach, judged.plan)
        if tuple(rows) != self.query_one(Rows).rows:
            self.query_one(Rows).set_rows(rows)
        plan = judged.plan
        self.query_one(Preview).show(plan)
        said = comes_to(judged)
        cures = tuple(cures_notice(plan, further.cured)) if plan and with_ways else ()
        self.query_one("#outcome", TextLine).say((*said[:1], *cures, *said[1:]))
        self.query_one("#doubts", TextLine).say(tuple(_doubts(draft, judged)))


def comes_to(judged: JudgedDraft) -> tuple[Notice, ...]:
    """What a draft comes to, or what is missing."""
    return tuple(outcome(judged.plan)) if judged.plan else missing(judged)


def missing(judged: JudgedDraft, part: str = "") -> tuple[Notice, ...]:
    """What is missing or wrong, in that part or in all."""
    return tuple(Notice("quiet", one.text) for one in judged.findings if part in ("", one.part))


def _doubts(draft: Draft, judged: JudgedDraft) -> Iterator[Notice]:
    if judged.plan is not None:
        yield from short_notices(draft, judged.plan)
        yield from (Notice("watch", one.text) for one in judged.plan.warnings if one.code != OFF_LENGTH)
