"""A sample piece in a home of its own, which is gone when it is over."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from companion.core.words.trial.tasks import BEGUN, Seen, tasks
from companion.workshop import open_at

SAMPLE = "skerry-bracelet"


class Trial:
    """The sample, and how far the maker has come with it. `close` removes all of it."""

    def __init__(self) -> None:
        self._home = TemporaryDirectory(prefix="tallycord-sample-")
        self.workshop = open_at(Path(self._home.name))
        design = next(path for path in self.workshop.shipped_designs() if path.stem == SAMPLE)
        self.opened = self.workshop.jump(self.workshop.start(design), BEGUN)
        self.tasks, self.at = tasks(self.opened.plan), 0

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
