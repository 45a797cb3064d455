"""The readings' chart beside the steps, where there is room for it: worked out anew only where readings, counts or
choices have changed. A step that is marked moves no more than the mark of where the work stands."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from msgspec.structs import replace
from textual import work
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.chart.drift import Drift
from companion.core.forecast.observations import ruler_mm
from companion.core.words.measured.chart_words import legend_lines, title
from companion.tui.widgets.chart import ChartView
from companion.tui.widgets.text import TextLine
from companion.workshop import OpenPiece
from companion.workshop.forecasts import Charted


class ChartBeside(Vertical):
    """The chart of the strand that is worked on. `charted`: works out a chart from values, in any thread."""

    def __init__(self, charted: Callable[[OpenPiece], Charted]) -> None:
        super().__init__(id="chart-beside")
        self.charted = charted
        self.drift: Drift | None = None
        self.made_of: object = None

    def compose(self) -> ComposeResult:
        yield TextLine("", id="chart-title")
        yield TextLine("", id="chart-legend")

    def show(self, opened: OpenPiece) -> None:
        """Show the chart of the piece as it stands."""
        made_of, now_mm = _made_of(opened), _now_mm(opened)
        if made_of == self.made_of and self.drift is not None and not _is_behind(self.drift, now_mm):
            self._draw(opened, replace(self.drift, now_mm=now_mm))
        elif made_of != self.made_of or self.drift is not None:
            self.made_of, self.drift = made_of, None
            self.work_out(opened)

    @work(exclusive=True)
    async def work_out(self, opened: OpenPiece) -> None:
        """Beside the screen; of a piece that has moved on meanwhile, only where that changes nothing but the place."""
        found = await asyncio.to_thread(self.charted, opened)
        if self.is_attached and _made_of(opened) == self.made_of:
            self.drift = found.drifts[0]
            self._draw(opened, self.drift)

    def _draw(self, opened: OpenPiece, drift: Drift) -> None:
        charts = self.query(ChartView)
        if not charts:
            self.query_one("#chart-title", TextLine).show(Content.styled(title(opened.plan, drift), "bold"))
            self.mount(ChartView(opened.plan, drift), after="#chart-title")
        else:
            charts.first().show(opened.plan, drift)
        self._write_legend(drift)
        if not self.content_size.width:  # it stands, and has no place on the screen yet
            self.call_after_refresh(self._write_legend, drift)

    def on_resize(self) -> None:
        """Lines are broken for the room there is, which is known only once all beside it stands."""
        if self.drift is not None:
            self._write_legend(self.drift)

    def _write_legend(self, drift: Drift) -> None:
        legend = "\n".join(legend_lines(drift, max(1, self.content_size.width - 2)))
        self.query_one("#chart-legend", TextLine).show(Content.styled(legend, "$secondary"))


def _entry(opened: OpenPiece) -> int:
    return opened.plan.place(max(1, min(opened.piece.done + 1, opened.plan.total_steps)))[0]


def _now_mm(opened: OpenPiece) -> float:
    """How much of the strand is done, as planned, mm."""
    plan, done = opened.plan, opened.piece.done
    entry, number = plan.place(min(done + 1, plan.total_steps))
    made = number if done == plan.total_steps else number - 1
    return ruler_mm(plan, entry, made)


def _made_of(opened: OpenPiece) -> tuple[object, ...]:
    """All that a chart is made of but for the place where the work stands; that nothing is left is told apart."""
    piece, strand = opened.piece, opened.plan.strands[_entry(opened)]
    left = _now_mm(opened) < strand.strand_length_mm
    return opened.id, _entry(opened), piece.readings, piece.counted, piece.changes, piece.joins, piece.state, left


def _is_behind(drift: Drift, now_mm: float) -> bool:
    """Whether the work has gone back to where the chart has no band."""
    return bool(drift.coming) and now_mm < drift.coming[0].planned_mm
