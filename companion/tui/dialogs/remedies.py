"""What would bring the piece back, and choosing one of it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content

from companion.core.forecast.outlook import Outlook
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import outcome_words
from companion.core.words.cord_words import cord_line
from companion.tui.commands import SHOW, bindings, choosing
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.paragraphs import CommandText, Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop import OpenPiece

MOST_CHOICES = 9  # one digit each
HANG = 3


class RemediesDialog(Dialog[int]):
    """Gives back which remedy (from 0) to go on with, or None. A digit chooses, or a click on it."""

    BINDINGS = bindings(*SHOW)

    def __init__(self, opened: OpenPiece, outlook: Outlook, found: Sequence[Remedy]) -> None:
        super().__init__()
        self.plan = opened.plan
        self.found = found[:MOST_CHOICES]
        self.introduction = introduction(opened, outlook, found)
        self.choices = [choosing(number) for number in range(1, len(self.found) + 1)]
        for choice in self.choices:
            self._bindings.bind(choice.keys, choice.action, choice.text, show=False)

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled("What to do", "bold"), id="heading")
            with VerticalScroll(id="page"):
                if self.introduction:
                    yield Paragraphs(self.introduction)
                for choice, remedy in zip(self.choices, self.found, strict=True):
                    yield CommandText(choice, f"{choice.shown}  {remedy.what}.", HANG)
                    meant = " " * HANG + outcome_words(self.plan, remedy)
                    yield Paragraphs([Paragraph(meant, "$secondary", HANG), Paragraph()])
                if self.found:
                    yield Paragraphs([Paragraph(how_to_choose(len(self.found)))])
            yield Rule()
            yield KeyLine(*self.choices, *SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    def action_choose(self, number: int) -> None:
        """Go on as that one says (from 1)."""
        self.dismiss(number - 1)

    def action_close(self) -> None:
        """Leave the piece as it is."""
        self.dismiss(None)


def introduction(opened: OpenPiece, outlook: Outlook, found: Sequence[Remedy]) -> list[Paragraph]:
    """What there is to put right: the cord, then the length."""
    lines: list[str] = []
    cord = cord_line(opened.plan, outlook)
    if cord.level != "quiet":
        lines += [str(cord), ""]
    if outlook.verdict == "measure again":
        again = "measure the free cord again (c)" if outlook.doubted == "free" else "lay the ruler on again (m)"
        lines += [f"First {again}, or take the reading back (x).", ""]
    elif outlook.verdict == "recount":
        lines += ["First count the beads. If one is missing, u takes back a step that was counted and not made.", ""]
    elif outlook.verdict in ("on plan", "no target"):
        lines += ["The length is on plan: nothing needs doing for it.", ""] if outlook.verdict == "on plan" else []
    elif not found:
        lines += ["Nothing is left to change that would bring the length nearer.", ""]
    return [Paragraph(line) for line in lines]


def how_to_choose(count: int) -> str:
    """How one of so many is chosen."""
    keys = "1" if count == 1 else f"1 to {count}"
    return f"Press {keys} to go on so: the steps that are left change with it, and u takes it back."
