"""What all screens share: the key line's clicks, the help, the colours."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from textual import on
from textual.screen import Screen

from companion.core.plan import Plan
from companion.tui.commands import Command
from companion.tui.widgets.text import KeyLine

if TYPE_CHECKING:
    from companion.tui.app import CompanionApp
    from companion.workshop import Workshop


class Page(Screen[None]):
    """A whole screen with its commands."""

    COMMANDS_HERE: tuple[Command, ...] = ()
    help_plan: Plan | None = None

    @property
    def companion(self) -> CompanionApp:
        """The app, by its own name."""
        return cast("CompanionApp", self.app)

    @property
    def workshop(self) -> Workshop:
        """The workshop that the app was given."""
        return self.companion.workshop

    @on(KeyLine.Chosen)
    async def key_chosen(self, message: KeyLine.Chosen) -> None:
        await self.run_action(message.command.action)

    def action_show_help(self) -> None:
        """All keys and marks."""
        from companion.tui.dialogs.show import ShowDialog
        from companion.tui.pages import help_page

        self.app.push_screen(ShowDialog("Keys and marks", help_page(self.COMMANDS_HERE, self.help_plan)))

    def action_next_theme(self) -> None:
        """The next set of colours."""
        self.companion.next_theme()
