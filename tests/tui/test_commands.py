"""Every screen's keys: none twice, each with its action, and the same key for the same thing."""

from __future__ import annotations

import pytest

from companion.tui import commands
from companion.tui.bench.screen import BenchScreen
from companion.tui.commands import Command
from companion.tui.cords.card import CardScreen
from companion.tui.cords.screen import CordsScreen
from companion.tui.design.every import BOTH, EveryDialog
from companion.tui.design.picture import PictureDialog
from companion.tui.design.screen import DesignScreen
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.chart import ChartDialog
from companion.tui.dialogs.choose import ChoiceDialog
from companion.tui.dialogs.form import FormDialog
from companion.tui.dialogs.palette import PaletteDialog
from companion.tui.dialogs.show import ShowDialog
from companion.tui.follow.recap import RecapScreen
from companion.tui.follow.screen import FollowScreen
from companion.tui.knots.screen import KnotsScreen
from companion.tui.piece.plan_page import PlanScreen
from companion.tui.piece.result_page import ResultScreen
from companion.tui.settings.screen import SettingsScreen
from companion.tui.start.screen import StartScreen
from companion.tui.start.which_piece import WhichPieceScreen

SCREENS = {
    FollowScreen: commands.FOLLOW,
    BenchScreen: commands.BENCH,
    StartScreen: commands.START,
    WhichPieceScreen: commands.WHICH_PIECE,
    RecapScreen: commands.RECAP,
    CordsScreen: commands.CORDS,
    CardScreen: commands.CARD,
    KnotsScreen: commands.KNOTS,
    DesignScreen: commands.DESIGN,
    PlanScreen: commands.PLAN,
    ResultScreen: commands.RESULT,
    SettingsScreen: commands.SETTINGS_KEYS,
    AskDialog: commands.ASK,
    FormDialog: commands.FORM,
    PictureDialog: commands.ON_PICTURE,
    EveryDialog: BOTH,
    ChoiceDialog: (*map(commands.choosing, range(1, 10)), *commands.PICK),
    ShowDialog: commands.SHOW,
    ChartDialog: commands.CHART_KEYS,
    PaletteDialog: commands.PALETTE_KEYS,
}


@pytest.mark.parametrize("screen", SCREENS, ids=lambda screen: screen.__name__)
def test_no_key_twice_and_every_command_has_its_action(screen) -> None:
    keys = [key for command in SCREENS[screen] for key in command.keys.split(",")]
    assert len(keys) == len(set(keys))
    for command in SCREENS[screen]:
        assert hasattr(screen, f"action_{command.action.partition('(')[0]}"), command


def test_the_same_key_means_the_same_everywhere() -> None:
    """But for the keys that take, begin or go on, and those that leave."""
    meaning: dict[str, set[str]] = {}
    for command in (value for value in vars(commands).values() if isinstance(value, Command)):
        for key in command.keys.split(","):
            meaning.setdefault(key, set()).add(command.action)
    # 1 to 5: the ways that are numbered on the page, or how a reading begins
    # c: the cord, cut or checked; k: a knot, how it is tied or what it takes; n: a note, or a new piece
    # Page Down: a foot pedal marks a step by it, where nothing is longer than the screen
    free = {"pagedown", "enter", "space", "escape", "q", "c", "k", "n", *"12345"}
    assert {key for key, actions in meaning.items() if len(actions) > 1} <= free
