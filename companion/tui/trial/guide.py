"""The line above a page that says what to try next."""

from __future__ import annotations

from textual.content import Content
from textual.screen import Screen

from companion.core.journal.piece import Piece
from companion.core.words.trial.tasks import Place, Seen
from companion.tui.bench.screen import BenchScreen
from companion.tui.dialogs.show import ShowDialog
from companion.tui.follow.recap import RecapScreen
from companion.tui.follow.screen import FollowScreen
from companion.tui.trial.trial import Trial
from companion.tui.widgets.text import TextLine

LOOK_SECONDS = 0.2


class GuideLine(TextLine):
    """Says what the sample asks for, and sees by itself when it is done."""

    def __init__(self, trial: Trial) -> None:
        super().__init__("", id="guide")
        self.trial = trial

    def on_mount(self) -> None:
        self.look()
        self.set_interval(LOOK_SECONDS, self.look)

    def look(self) -> None:
        """See what has been done meanwhile."""
        self.trial.look(Seen(self._piece(), place_of(self.app.screen)))
        self.show(Content.assemble((f"{self.trial.progress}  ", "bold"), self.trial.told))

    def _piece(self) -> Piece:
        if isinstance(self.screen, FollowScreen | RecapScreen):
            self.trial.opened = self.screen.session.opened
        return self.trial.opened.piece


def place_of(screen: Screen[object]) -> Place:
    """What is on the screen, as a task knows it."""
    match screen:
        case FollowScreen():
            return "steps"
        case RecapScreen():
            return "recap"
        case BenchScreen():
            return "bench"
        case ShowDialog(page_title="Keys and marks"):
            return "help"
    return "elsewhere"
