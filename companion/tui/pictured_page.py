"""A page of text that shows the whole piece where there is room: what matters most large, the piece drawn, then two
columns, and the rest below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct
from textual.containers import Horizontal, Vertical
from textual.widget import Widget

from companion.core.plan.plan import Plan
from companion.tui.moving import TextScroll
from companion.tui.page import TextPage
from companion.tui.widgets.figures import Figure, Figures
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.piece_drawing import PieceDrawing


class WidePage(Struct, frozen=True):
    """What the page shows where it is wide, from top to bottom. `inside`: what stands in the middle of the closed
    piece."""

    above: Sequence[Paragraph]
    figures: Sequence[Figure]
    under: Sequence[Paragraph]
    inside: Sequence[str]
    left: Sequence[Paragraph]
    right: Sequence[Paragraph]
    below: Sequence[Paragraph]


class PicturedPage(TextPage):
    """The stylesheet says from which width on the spread stands in the text's place. `REST`: the lines of a screen that
    its text takes; `LETTERED`: whether the drawn beads have their letters."""

    REST = 18
    LETTERED = True

    def pictured(self) -> Plan:
        """What is drawn."""
        raise NotImplementedError

    def spread(self) -> WidePage:
        """The same as the text, for a wide page."""
        raise NotImplementedError

    def body(self) -> Iterable[Widget]:
        wide = self.spread()
        spread = Vertical(
            Paragraphs(wide.above, id="above"),
            Figures(wide.figures, id="figures-large"),
            Paragraphs(wide.under, id="under"),
            PieceDrawing(self.pictured(), wide.inside, rest=self.REST, lettered=self.LETTERED),
            Horizontal(
                Paragraphs(wide.left, id="left-column"), Paragraphs(wide.right, id="right-column"), id="columns"
            ),
            Paragraphs(wide.below, id="below"),
            id="spread",
        )
        text = Paragraphs(self.text(), id="text")
        text.add_class("-narrow")
        return (TextScroll(text, spread, id="page"),)

    def on_mount(self) -> None:
        """Until a scroll bar runs it takes no notice of how long the page has become since it was painted first."""
        self.call_after_refresh(self.query_one("#page", TextScroll).vertical_scrollbar.refresh)

    def show_text(self) -> None:
        """Show text and drawing as they are now."""
        super().show_text()
        wide = self.spread()
        parts = {
            "#above": wide.above, "#under": wide.under, "#left-column": wide.left, "#right-column": wide.right,
            "#below": wide.below,
        }  # fmt: skip
        for place, paragraphs in parts.items():
            self.query_one(place, Paragraphs).show(paragraphs)
        self.query_one(Figures).show(wide.figures)
        self.query_one(PieceDrawing).show(self.pictured(), wide.inside)
