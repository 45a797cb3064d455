"""The readings' chart over the work, and the same numbers as a table, one key away."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget

from companion.core.chart.drift import Drift
from companion.core.plan.plan import Plan
from companion.core.words.measured.chart_words import NOTHING_READ, legend_lines, table_lines, title
from companion.core.words.measured.verdict_words import Keys, verdict_line
from companion.core.words.notices import Notice
from companion.tui.commands import CHART_KEYS, TABLE_KEYS, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.moving import Movable, MovesThrough, TextScroll
from companion.tui.widgets.chart import ChartView
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine

if TYPE_CHECKING:
    from companion.tui.page import Page
    from companion.workshop import OpenPiece

LEGEND_COLUMNS = 58  # the narrowest screen's
CLOSED: Keys = {"recount": "Esc, then r"}  # what answers a sentence is a key of the page below


class ChartDialog(MovesThrough, Dialog[None]):
    """A chart to look at for each entry that is begun. `said`: what it comes to, in a sentence."""

    BINDINGS = bindings(*CHART_KEYS)

    def __init__(self, plan: Plan, drifts: Sequence[Drift], said: Notice | None = None) -> None:
        super().__init__()
        self.plan, self.drifts, self.said = plan, drifts, said

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled(title(self.plan, self.drifts[0]), "bold"), id="heading")
            yield TextScroll(*self._pictures(), id="chart")
            yield TextScroll(Paragraphs(self._table()), id="numbers")
            yield Rule()
            yield KeyLine(*CHART_KEYS)

    def _pictures(self) -> Iterable[Widget]:
        for drift in self.drifts:
            if drift is not self.drifts[0]:
                yield TextLine(Content.styled(title(self.plan, drift), "bold"))
            yield ChartView(self.plan, drift)
            yield TextLine(Content.styled("\n".join(legend_lines(drift, LEGEND_COLUMNS)), "$secondary"))
        if not any(drift.readings for drift in self.drifts):
            yield TextLine(NOTHING_READ)
        if self.said is not None:
            sentence = TextLine()
            sentence.say((self.said,))
            yield sentence

    def _table(self) -> list[Paragraph]:
        lines: list[Paragraph] = []
        for drift in self.drifts:
            if len(self.drifts) > 1:
                lines.append(Paragraph(title(self.plan, drift), "bold"))
            lines += [Paragraph(line, hang=2) for line in table_lines(self.plan, drift)]
        return lines

    @property
    def moved(self) -> Movable:
        """The one of the two that shows."""
        return self.query_one("#numbers" if self.has_class("-numbers") else "#chart", TextScroll)

    def action_show_chart(self) -> None:
        """The table in place of the chart; again: the chart."""
        self.toggle_class("-numbers")
        numbers = self.has_class("-numbers")
        self.query_one(KeyLine).offer(*(TABLE_KEYS if numbers else CHART_KEYS))


async def show_chart(page: Page, opened: Callable[[], OpenPiece]) -> None:
    """Show the chart of the piece that a page has open. It is worked out beside the screen, from values alone; where
    the piece has moved on meanwhile, the key asks again."""
    asked = opened()
    with page.keys_go_on():
        found = await asyncio.to_thread(page.workshop.charted, asked)
    if page.is_active and opened().revision == asked.revision:
        ended = asked.piece.state != "under way"
        said = None if ended else verdict_line(asked.plan, asked.piece, found.outlook, CLOSED)
        await page.answer(ChartDialog(asked.plan, found.drifts, said))
