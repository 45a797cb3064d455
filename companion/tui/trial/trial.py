"""A sample piece in a home of its own, which is gone when it is over."""

from __future__ import annotations

from pathlib import Path

from companion.core.values.setting_list import SETTINGS
from companion.core.values.settings import Settings
from companion.core.words.trial.tasks import BEGUN, Seen, tasks
from companion.tui.trial.leftovers import sample_folder
from companion.workshop import open_at

SAMPLE = "skerry-bracelet"
USUAL = Settings()


class Trial:
    """The sample, and how far the maker has come with it, by her own `settings`. `close` removes all of it."""

    def __init__(self, settings: Settings | None = None) -> None:
        self._home = sample_folder()
        self.workshop = open_at(Path(self._home.name))
        self._set(settings or USUAL)
        design = next(path for path in self.workshop.shipped_designs() if path.stem == SAMPLE)
        self.opened = self.workshop.jump(self.workshop.start(design), BEGUN)
        self.tasks, self.at = tasks(self.opened.plan), 0

    def _set(self, settings: Settings) -> None:
        for setting in SETTINGS:
            value = getattr(settings, setting.field)
            if value != getattr(USUAL, setting.field):
                self.workshop.set_setting(setting, value)

    @property
    def told(self) -> str:
        """What to do now."""
        return self.tasks[self.at].told

    @property
    def progress(self) -> str:
        """How far it is: "2 of 11"."""
        return f"{self.at + 1} of {len(self.tasks)}"

    def look(self, seen: Seen) -> None:
        """On to the next one where the present one is done: one look, one task at most."""
        if self.tasks[self.at].done(seen):
            self.at += 1

    def close(self) -> None:
        """Nothing is left of it."""
        self.workshop.close()
        self._home.cleanup()
