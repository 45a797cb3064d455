"""What all screens share: the key line's clicks, the help, the colours."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, cast

from textual import work

from companion.core.plan.plan import Plan
from companion.tui.commands import SET_ASIDE, Command
from companion.tui.keys import KeysInTurnScreen

if TYPE_CHECKING:
    from companion.tui.app import CompanionApp
    from companion.workshop import Workshop


class Page(KeysInTurnScreen[None]):
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

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment; whether this screen has a place for one."""
        return False

    @work
    async def action_show_help(self) -> None:
        """All keys and marks; the command that is clicked there is done."""
        from companion.tui.dialogs.help import help_dialog

        commands = self.COMMANDS_HERE if sys.platform == "win32" else (*self.COMMANDS_HERE, SET_ASIDE)
        command = await self.answer(help_dialog(commands, self.help_plan))
        if command is not None:
            await self.run_action(command.action)

    def action_next_theme(self) -> None:
        """The next set of colours."""
        self.companion.next_theme()
