"""The texts of pages to read: keys and marks, how a knot is tied, cautions."""

from __future__ import annotations

from textwrap import wrap

from textual.content import Content

from companion.core.picture.marks import legend
from companion.core.plan.plan import Plan
from companion.core.values.design import KnotKind
from companion.core.words.cautions import cautions
from companion.core.words.knot_lore import lore
from companion.tui.commands import Command
from companion.tui.widgets.paragraphs import Paragraph

MARKS = (
    ("█G██", "a bead that is made"),
    ("[G ]", "a bead of the present step"),
    ("░g░░", "a bead still to come"),
    ("• × ◦", "a knot: made, present, to come"),
    ("─ ═ ┄", "bare cord: made, present, to come"),
    ("▲ here", "where the work stands"),
    ("△", "worth watching"),
    ("▲", "to be seen to now"),
)


KEYS_COLUMN = 18


def key_text(command: Command) -> str:
    """A command in the help: "u, Backspace   Take the last step or jump back."."""
    return f"{_keys(command):<{KEYS_COLUMN}}{command.text}"


def marks_text(plan: Plan | None = None) -> list[Paragraph]:
    """What the marks mean, then the letters of this piece's beads."""
    room = KEYS_COLUMN - 2
    lines = ["", "What the marks mean", *(f"  {mark:<{room}}{words}" for mark, words in MARKS)]
    if plan:
        lines += ["", "The beads of this piece"]
        lines += [f"  {mark.letter:<{room}}{mark.name}{_shared(mark.shared)}" for mark in legend(plan)]
    return [Paragraph(line, hang=KEYS_COLUMN) for line in lines]


def _shared(shared: bool) -> str:
    return " (one of several with this letter)" if shared else ""


_NAMES = {
    "space": "Space", "enter": "Enter", "pagedown": "Page Down", "backspace": "Backspace", "escape": "Esc",
    "question_mark": "?", "f1": "F1", "ctrl+z": "Ctrl+Z", "plus": "+", "slash": "/", "up": "↑", "down": "↓",
}  # fmt: skip


def _keys(command: Command) -> str:
    names = [_NAMES.get(key, key) for key in command.keys.split(",")]
    return ", ".join(names[:2])


def lore_page(plan: Plan, kind: KnotKind, width: int = 72, rows: int | None = None) -> Content:
    """How a knot of that kind is tied with this cord; in so many rows, if said: mistakes without room are left out."""
    told = lore(kind, "needle" if plan.cord.needle else "awl", plan.cord.layers)
    lines: list[str] = [told.title, "", *told.drawing, ""]
    for number, step in enumerate(told.steps, start=1):
        lines += wrap(f"{number}  {step}", width, subsequent_indent="   ")
    lines.append("")
    for mistake in told.mistakes:
        more = wrap(f"·  {mistake}", width, subsequent_indent="   ")
        if rows is not None and len(lines) + len(more) > rows:
            break
        lines += more
    return Content("\n".join(lines))


def cautions_page(plan: Plan) -> Content:
    """What to mind with this piece."""
    return Content("\n\n".join(caution.text for caution in cautions(plan)))
