"""The pages that lie over the steps of a piece to be read: how the present one is done, and what can hurt."""

from __future__ import annotations

from typing import Any

from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget

from companion.core.plan.plan import Plan
from companion.tui.dialogs.show import ShowDialog
from companion.tui.follow.pages import cautions_page, work_page
from companion.tui.follow.session import PieceSession
from companion.tui.knots.drawing import KnotDrawing, drawn_lines
from companion.tui.widgets.text import TextLine

NARROWEST, WIDEST = 30, 72  # columns of text


def show_lore(screen: Screen[Any], session: PieceSession, left_handed: bool) -> bool:
    """How the present step is done, and its knot tied. Returns whether there is a step left."""
    width, lines = max(NARROWEST, min(WIDEST, screen.size.width - 6)), drawn_lines(screen.app)
    work = work_page(session.plan, session.piece.done, width, left_handed, drawn=bool(lines))
    if work is None:
        return False
    if work.shown and lines:
        _show(screen, "How it is tied", work.above, KnotDrawing(work.shown, lines), work.below)
    else:
        _show(screen, "How it is tied", work.above + work.below)
    return True


def show_cautions(screen: Screen[Any], plan: Plan) -> None:
    """What can hurt."""
    _show(screen, "Take care", cautions_page(plan))


def _show(screen: Screen[Any], title: str, *page: Content | Widget) -> None:
    widgets = (TextLine(part) if isinstance(part, Content) else part for part in page if part)
    screen.app.push_screen(ShowDialog(title, *widgets))
