"""The readings' chart on the screen: as large as there is room, each kind of mark in its colour."""

from __future__ import annotations

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from companion.core.chart.drift import Drift
from companion.core.chart.picture import Kind, chart
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit
from companion.core.words.measured.chart_words import suspicion

STYLES: dict[Kind, str] = {
    "quiet": "$secondary",
    "reading": "bold $foreground",
    "aside": "$foreground",
    "band": "$secondary",
    "gate": "$foreground",
    "suspected": "bold $warning",
    "here": "$foreground",
    "end": "bold $success",
}
LEAST_ROWS, MOST_ROWS = 10, 40
ROWS_BESIDE = 8  # of the screen: heading, what the marks mean, a sentence, the keys


class ChartView(Widget):
    """One entry of a piece, measured minus planned."""

    def __init__(self, plan: Plan, drift: Drift) -> None:
        super().__init__()
        self.plan, self.drift = plan, drift

    def show(self, plan: Plan, drift: Drift) -> None:
        """Show another one, where it is another."""
        if (plan, drift) != (self.plan, self.drift):
            self.plan, self.drift = plan, drift
            self.refresh()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return min(MOST_ROWS, max(LEAST_ROWS, viewport.height - ROWS_BESIDE))

    def render(self) -> Content:
        columns, rows = self.content_size
        picture = chart(self.drift, display_unit(self.plan.unit), columns, rows, suspicion(self.drift))
        lines = [Content.assemble(*((run.text, STYLES[run.kind]) for run in row)) for row in picture.rows]
        return Content("\n").join(lines)
