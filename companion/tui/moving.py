"""Up, down, page by page, to the top and to the end: the same keys on every page and in every list that is longer than
the screen."""

from __future__ import annotations

from typing import Protocol

from textual.containers import VerticalScroll
from textual.screen import Screen

from companion.tui.widgets.rows import Rows


class Movable(Protocol):
    """What the hand moves in: a list with its cursor, or a text."""

    def move(self, by: int) -> None:
        """A line or a row down, or up."""

    def turn_page(self, by: int) -> None:
        """A page down, or up."""

    def to_first(self) -> None:
        """To the top."""

    def to_last(self) -> None:
        """To the end."""


class TextScroll(VerticalScroll, can_focus=False, inherit_bindings=False):
    """A text that may be longer than the screen. Its keys are the page's."""

    def move(self, by: int) -> None:
        """A line down, or up."""
        self.scroll_relative(y=by, animate=False)

    def turn_page(self, by: int) -> None:
        """A page down, or up; the line at its edge stays in sight."""
        self.scroll_relative(y=by * max(1, self.size.height - 1), animate=False)

    def to_first(self) -> None:
        """To the top."""
        self.scroll_home(animate=False)

    def to_last(self) -> None:
        """To the end."""
        self.scroll_end(animate=False)


class MovesThrough(Screen):  # type: ignore[type-arg]
    """A page or a dialog with one thing in it to move through."""

    @property
    def moved(self) -> Movable:
        """That one: its list, or else its text."""
        return next(iter(self.query(Rows)), None) or self.query_one(TextScroll)

    def action_cursor_up(self) -> None:
        """A line or a row up."""
        self.moved.move(-1)

    def action_cursor_down(self) -> None:
        """A line or a row down."""
        self.moved.move(1)

    def action_page_up(self) -> None:
        """A page up."""
        self.moved.turn_page(-1)

    def action_page_down(self) -> None:
        """A page down."""
        self.moved.turn_page(1)

    def action_cursor_top(self) -> None:
        """To the first row, or the top of the page."""
        self.moved.to_first()

    def action_cursor_bottom(self) -> None:
        """To the last row, or the end of the page."""
        self.moved.to_last()
