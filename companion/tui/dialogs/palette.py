"""Everything that can be done on a page, found by its words."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Input

from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.commands import PALETTE_KEYS, Command, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.moving import MovesThrough
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine

KEY_COLUMN = 9
EDGES = 5  # of a list: the mark of the cursor, and the scroll bar
MOST_TYPED = 40


class PaletteDialog(MovesThrough, Dialog[Command]):
    """Gives back what is to be done, or None when the maker leaves it. What is typed is looked for at once, so an Enter
    that follows fast never does what was found before."""

    BINDINGS = bindings(*PALETTE_KEYS)

    def __init__(self, commands: Sequence[Command]) -> None:
        super().__init__()
        self.commands, self.sought = tuple(commands), ""

    def compose(self) -> ComposeResult:
        with Vertical(id="palette"):
            yield Rule()
            yield Input(placeholder="What do you want to do?", max_length=MOST_TYPED, compact=True)
            yield Rows(id="choices")
            yield TextLine("", id="whole")
            yield KeyLine(*PALETTE_KEYS)

    def on_mount(self) -> None:
        self.query_one(Input).focus()
        self.look_for("")

    @on(Input.Changed)
    def typed(self, event: Input.Changed) -> None:
        if self.is_active and event.value != self.sought:
            self.look_for(event.value)

    def look_for(self, text: str) -> None:
        """Show what has these words, with the best of it under the cursor."""
        self.sought = text
        rows = self.query_one(Rows)
        rows.set_rows([Row(row_text(one), one) for one in found(self.commands, text)])
        rows.to_first()
        self.say_whole()

    @on(Rows.Moved)
    def say_whole(self) -> None:
        """The sentence under the cursor, where the list has no room for its end."""
        chosen = self.query_one(Rows).chosen
        if not isinstance(chosen, Command):
            said = Notice("watch", f'Nothing here has "{plain(self.sought, MOST_TYPED)}" in its words.')
        else:
            said = Notice("quiet", "" if fits(chosen, self.app.size.width) else chosen.text)
        self.query_one("#whole", TextLine).say((said,))

    def _look_for_what_is_typed(self) -> Rows:
        text = self.query_one(Input).value
        if text != self.sought:
            self.look_for(text)
        return self.query_one(Rows)

    def action_take(self) -> None:
        """Do the one under the cursor."""
        chosen = self._look_for_what_is_typed().chosen
        if isinstance(chosen, Command):
            self.dismiss(chosen)

    @on(Rows.Chosen)
    async def row_clicked(self) -> None:
        await self.click("take")

    @property
    def moved(self) -> Rows:
        """The list of what is found by now."""
        return self._look_for_what_is_typed()

    def action_clear(self) -> None:
        """Type again."""
        self.query_one(Input).value = ""


def row_text(command: Command) -> str:
    """Its key, and what it does."""
    return f"{command.shown:<{KEY_COLUMN}}{command.text}"


def fits(command: Command, columns: int) -> bool:
    """Whether a list on a screen of so many columns shows all of it."""
    return len(row_text(command)) <= columns - EDGES


def found(commands: Sequence[Command], text: str) -> list[Command]:
    """Those that have all the words that are typed, as far as they are typed: first where they begin words of the key
    line, then words of the sentence, then anywhere in it."""
    sought = text.lower().split()
    ranked = [(_rank(command, sought), command) for command in commands]
    return [command for rank in range(3) for at, command in ranked if at == rank]


def _rank(command: Command, sought: Sequence[str]) -> int | None:
    short, whole = f" {command.short}", f" {command.short} {command.text} {command.shown}"
    if all(_holds(short, f" {word}") for word in sought):
        return 0
    if all(_holds(whole, f" {word}") for word in sought):
        return 1
    return 2 if all(_holds(whole, word) for word in sought) else None


def _holds(text: str, letters: str) -> bool:
    return letters in text.lower()
