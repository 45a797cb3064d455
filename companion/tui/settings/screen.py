"""All that can be set, each with what it changes; Enter sets the one under the cursor."""

from __future__ import annotations

from typing import Any

from textual import work

from companion.core.values.errors import WorkshopError
from companion.core.values.setting_list import SETTINGS, Setting
from companion.core.values.settings import OwnUnit, Settings
from companion.core.words.notices import Notice
from companion.tui.commands import SETTINGS_KEYS, bindings
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.question import Judged, Question, not_yet
from companion.tui.page import ListPage
from companion.tui.routes import ToBench
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar


class SettingsScreen(ListPage):
    """Every setting, in the order of the command."""

    BINDINGS = bindings(*SETTINGS_KEYS)
    COMMANDS_HERE = SETTINGS_KEYS
    heading = "Settings"

    def on_mount(self) -> None:
        super().on_mount()
        self.show_rows()

    def on_resize(self) -> None:
        self.show_rows()

    def show_rows(self) -> None:
        """Read the settings anew."""
        try:
            settings = self.workshop.settings
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            settings = Settings()
        self.unit = settings.unit
        rows = [row for setting in SETTINGS for row in _rows(setting, settings, self.size.width - DETAIL_EDGES)]
        self.rows.set_rows(rows)

    @work
    async def action_open_row(self) -> None:
        """Set the one under the cursor."""
        name = self.rows.chosen
        setting = next((one for one in SETTINGS if one.name == name), None)
        if setting is None:
            return
        answer = await self.answer(AskDialog(_question(setting, self.unit)))
        if answer is None:
            return
        try:
            self.workshop.set_setting(setting, answer[0])
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return
        if setting.field == "colours":
            self.app.theme = answer[0]
        self.show_rows()
        self.say(Notice("quiet", f"{setting.name}: {setting.shown(answer[0])}."))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench())


def _rows(setting: Setting, settings: Settings, columns: int) -> list[Row]:
    shown = setting.shown(getattr(settings, setting.field))
    details = [Row(line, detail=True, muted=True) for line in hanging(setting.says, columns, 0)]
    return [Row(f"{setting.name:<9}{shown}", setting.name), *details]


def _question(setting: Setting, unit: OwnUnit) -> Question[tuple[Any]]:
    """The answer stands in a tuple: a setting may well be set to None, "as usual"."""

    def judge(text: str) -> Judged[tuple[Any]]:
        if not text.strip():
            return not_yet(f"Type {setting.expects}.")
        try:
            value = setting.read(text, unit)
        except ValueError as error:
            return not_yet(str(error))
        return Judged((value,), (Notice("quiet", f"{setting.name}: {setting.shown(value)}."),))

    return Question(f"{setting.says}\n{setting.name}:", judge, hint=setting.expects)
