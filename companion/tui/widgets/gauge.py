"""The gauge beside the line to type in: where her number falls."""

from __future__ import annotations

from textual.content import Content
from textual.widget import Widget

from companion.core.chart.gauge import Gauge, gauge
from companion.tui.widgets.chart import STYLES


class GaugeView(Widget):
    """One line, drawn anew with each key; nothing where no length is typed."""

    def __init__(self) -> None:
        super().__init__()
        self.found: Gauge | None = None

    def show(self, found: Gauge | None) -> None:
        """Show that one."""
        self.found, self.display = found, found is not None
        self.refresh()

    def render(self) -> Content:
        runs = gauge(self.found, self.content_size.width) if self.found else ()
        return Content.assemble(*((run.text, STYLES[run.kind]) for run in runs))
