"""The help: all keys of a screen, and what the marks mean. A click on a command does it: nothing needs a keyboard."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.chart.gauge import MARKS as GAUGE_MARKS
from companion.core.picture.marks import legend
from companion.core.plan.plan import Plan
from companion.tui.commands import Command, grouped
from companion.tui.dialogs.show import ShowDialog
from companion.tui.widgets.paragraphs import CommandText, Paragraph, Paragraphs

KEYS_COLUMN = 18
MARKS = (
    ("█G██", "a bead that is done"),
    ("[G ]", "a bead of this step"),
    ("░g░░", "a bead still to come"),
    ("• × ◦", "a knot: done, now, to come"),
    ("─ ═ ┄", "bare cord: done, now, to come"),
    ("◦ ◎ ◉", "ways out: a single, double, triple knot to come"),
    ("▲ here", "where you are"),
    (GAUGE_MARKS, "measuring: yours, where it is expected, the plan"),
    ("△", "worth watching"),
    ("▲", "needs attention now"),
)
_NAMES = {
    "space": "Space", "enter": "Enter", "pagedown": "Page Down", "backspace": "Backspace", "delete": "Delete",
    "escape": "Esc", "tab": "Tab", "shift+tab": "Shift+Tab", "home": "Home", "end": "End", "f1": "F1", "f2": "F2",
    "question_mark": "?", "plus": "+", "slash": "/", "up": "↑", "down": "↓", "left": "←", "right": "→",
    "colon": ":", "ctrl+p": "Ctrl+P", "ctrl+c": "Ctrl+C", "ctrl+s": "Ctrl+S", "ctrl+u": "Ctrl+U", "ctrl+z": "Ctrl+Z",
}  # fmt: skip


MOST_NAMES = 4  # more keys for one thing are told as the range that the command shows


def help_dialog(commands: Sequence[Command], plan: Plan | None) -> ShowDialog:
    """These commands with their keys, then what the marks and, of a plan, the letters of its beads mean."""
    texts: list[Paragraphs] = []
    for title, some in grouped(commands):
        above = [Paragraph()] if texts else []
        texts.append(Paragraphs([*above, Paragraph(title, "bold")]))
        texts += [CommandText(command, f"  {key_text(command)}", KEYS_COLUMN + 2) for command in some]
    return ShowDialog("Keys and marks", *texts, Paragraphs(marks_text(plan)))


def key_text(command: Command) -> str:
    """A command in the help: "u, Backspace   Take the last step or jump back."."""
    names = [_NAMES.get(key, key) for key in command.keys.split(",")]
    if len(names) > MOST_NAMES:
        names = [command.shown]
    return f"{', '.join(names[:2]):<{KEYS_COLUMN}}{command.text}"


def marks_text(plan: Plan | None = None) -> list[Paragraph]:
    """What the marks mean, then the letters of this piece's beads."""
    page = [Paragraph(), Paragraph("What the marks mean", "bold"), *(_marked(mark, words) for mark, words in MARKS)]
    if plan:
        page += [Paragraph(), Paragraph("The beads of this piece", "bold")]
        page += [_marked(mark.letter, f"{mark.name}{_shared(mark.shared)}") for mark in legend(plan)]
    return page


def _marked(mark: str, words: str) -> Paragraph:
    return Paragraph(f"  {mark:<{KEYS_COLUMN}}{words}", hang=KEYS_COLUMN + 2)


def _shared(shared: bool) -> str:
    return " (one of several with this letter)" if shared else ""
