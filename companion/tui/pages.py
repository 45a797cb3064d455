"""The texts of pages to read: keys and marks, how a knot is tied, remedies, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from textual.content import Content

from companion.core.cautions import cautions
from companion.core.design import KnotKind
from companion.core.knot_lore import lore
from companion.core.marks import legend
from companion.core.outlook import Outlook
from companion.core.plan import Plan
from companion.core.remedy import Remedy
from companion.core.words import cord_line, join_place
from companion.tui.commands import Command
from companion.tui.widgets.paragraphs import Paragraph
from companion.workshop import WorkPiece

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
    "question_mark": "?", "f1": "F1", "plus": "+", "slash": "/", "up": "↑", "down": "↓",
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


def remedies_text(work: WorkPiece, outlook: Outlook, found: Sequence[Remedy]) -> list[Paragraph]:
    """What would put the piece right, the first the one to begin with: its cord, then its length."""
    lines: list[str] = []
    cord = cord_line(work.plan, work.piece, outlook)
    if cord.loudness != "quiet":
        lines += [str(cord), f"Join new cord on (o). {join_place(work.plan, work.piece, outlook)}", ""]
    if outlook.verdict == "measure again":
        lines += ["First lay the ruler on again (m), or take the reading back (x)."]
    elif outlook.verdict == "recount":
        lines += ["First count the beads. If one is missing, u takes back a step that was counted and not made.", ""]
    elif not found:
        lines += ["The length is on plan: nothing needs doing for it."]
    for number, remedy in enumerate(found, start=1):
        chance = f"{remedy.p_in_tolerance:.0%}".replace("%", " %")
        lines += [f"{number}  {remedy.text}", f"   Chance of finishing within tolerance: {chance}.", ""]
    if found:
        keys = " or ".join(str(number) for number in range(1, len(found) + 1))
        lines += [f"Press {keys} to go on so: the steps that are left change with it, and u takes it back."]
    return [Paragraph(line, hang=3 if line[:1].isdigit() or line[:1] == " " else 0) for line in lines]


def cautions_page(plan: Plan) -> Content:
    """What to mind with this piece."""
    return Content("\n\n".join(caution.text for caution in cautions(plan)))
