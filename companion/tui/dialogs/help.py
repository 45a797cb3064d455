"""The help: all keys of a screen, and what the marks mean. A click on a command does it: nothing needs a keyboard."""

from __future__ import annotations

from collections.abc import Sequence

from textual.containers import Horizontal, Vertical
from textual.widget import Widget

from companion.core.chart.gauge import MARKS as GAUGE_MARKS
from companion.core.picture.marks import legend
from companion.core.plan.plan import Plan
from companion.tui.commands import Command, grouped
from companion.tui.dialogs.show import ShowDialog
from companion.tui.widgets.paragraphs import CommandText, Paragraph, Paragraphs

KEYS_COLUMN = 18
TITLE = "Keys and marks"
PIECE_MARKS = (
    ("█G██ [G ] ░g░░", "a bead: done, of this step, to come"),
    ("• × ◦", "a knot: done, now, to come"),
    ("─ ═ ┄", "bare cord: the same"),
    ("◦ ◎ ◉", "ways out: single, double, triple knot to come"),
    ("▲ here", "where you are"),
    (GAUGE_MARKS, "measuring: yours, expected, planned"),
)
LIST_MARKS = (
    ("● ○", "a bead: done, to come"),
    ("• ◦", "the same, before the beads are read"),
)
WARNING_MARKS = (
    ("△", "worth watching"),
    ("▲", "needs attention now"),
)
_NAMES = {
    "space": "Space", "enter": "Enter", "pagedown": "Page Down", "backspace": "Backspace", "delete": "Delete",
    "escape": "Esc", "tab": "Tab", "shift+tab": "Shift+Tab", "home": "Home", "end": "End", "f1": "F1", "f2": "F2",
    "pageup": "Page Up",
    "question_mark": "?", "plus": "+", "slash": "/", "up": "↑", "down": "↓", "left": "←", "right": "→",
    "colon": ":", "ctrl+p": "Ctrl+P", "ctrl+c": "Ctrl+C", "ctrl+s": "Ctrl+S", "ctrl+u": "Ctrl+U", "ctrl+z": "Ctrl+Z",
}  # fmt: skip


MOST_NAMES = 4  # more keys for one thing are told as the range that the command shows
TWO_COLUMNS, SENTENCES = 80, 120  # columns of a screen that has room for two, and for whole sentences in them
BRIEF_KEYS = 11
JOINT = "   "  # between two marks in a row


def help_dialog(commands: Sequence[Command], plan: Plan | None, columns: int = 0) -> ShowDialog:
    """These commands with their keys, then what the marks and, of a plan, the letters of its beads mean; laid out for a
    screen of so many columns."""
    if columns < TWO_COLUMNS:
        parts = [_group(title, some, False) for title, some in grouped(commands)]
        apart = [[Paragraphs([Paragraph()]), *part] for part in parts[1:]]
        return ShowDialog(TITLE, *parts[0], *(text for part in apart for text in part), Paragraphs(marks_text(plan)))
    brief = columns < SENTENCES
    groups = [_group(title, some, brief) for title, some in grouped(commands)]
    halves: tuple[list[Widget], list[Widget]] = ([], [])
    for group in sorted(groups, key=len, reverse=True):
        min(halves, key=len).extend(group)
    left, right = halves if groups[0][0] in halves[0] else reversed(halves)
    both = Horizontal(Vertical(*left), Vertical(*right), classes="halves")
    dialog = ShowDialog(TITLE, both, Paragraphs(marks_in_rows(plan)))
    dialog.add_class("-folded")  # every line counts
    return dialog


def _group(title: str, commands: Sequence[Command], brief: bool) -> list[Widget]:
    """A title and its commands."""
    room = BRIEF_KEYS if brief else KEYS_COLUMN
    return [
        Paragraphs([Paragraph(title, "bold")]),
        *(CommandText(command, f" {key_text(command, brief)}", room + 1) for command in commands),
    ]


def key_text(command: Command, brief: bool = False) -> str:
    """A command in the help: "u, Backspace   Take the last step or jump back."; `brief`: in a few words."""
    names = [_NAMES.get(key, key) for key in command.keys.split(",")]
    if len(names) > MOST_NAMES:
        names = [command.shown]
    keys = ", ".join(names[:2])
    return f"{keys:<{BRIEF_KEYS - 1}} {command.in_brief}" if brief else f"{keys:<{KEYS_COLUMN}}{command.text}"


def marks_of_page(plan: Plan | None) -> tuple[tuple[str, str], ...]:
    """The marks of the pages of a piece, or those of the others, the bench among them."""
    return (*PIECE_MARKS, *WARNING_MARKS) if plan else (*LIST_MARKS, *WARNING_MARKS)


def marks_text(plan: Plan | None = None) -> list[Paragraph]:
    """What the marks mean, then the letters of this piece's beads."""
    marks = [_marked(mark, words) for mark, words in marks_of_page(plan)]
    page = [Paragraph(), Paragraph("What the marks mean", "bold"), *marks]
    if plan:
        page += [Paragraph(), Paragraph("The beads of this piece", "bold")]
        page += [_marked(mark.letter, f"{mark.name}{_shared(mark.shared)}") for mark in legend(plan)]
    return page


def marks_in_rows(plan: Plan | None = None) -> list[Paragraph]:
    """The same, as many beside one another as there is room for."""
    page = [Paragraph(_in_a_row("Marks", marks_of_page(plan)), hang=2)]
    if plan:
        beads = [(mark.letter, f"{mark.name}{_shared(mark.shared)}") for mark in legend(plan)]
        page.append(Paragraph(_in_a_row("Beads", beads), hang=2))
    return page


def _in_a_row(title: str, marks: Sequence[tuple[str, str]]) -> str:
    return JOINT.join((title, *(f"{mark} {words}" for mark, words in marks)))


def _marked(mark: str, words: str) -> Paragraph:
    return Paragraph(f"  {mark:<{KEYS_COLUMN}}{words}", hang=KEYS_COLUMN + 2)


def _shared(shared: bool) -> str:
    return " (one of several with this letter)" if shared else ""
