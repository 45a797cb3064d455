"""One cord card: what it knows of each kind of knot, and its test knots in the order they were entered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from textual import work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from companion.core.cord.cards import CordCard
from companion.core.values.design import KNOT_KINDS
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.card_words import (
    card_test_words,
    cord_described,
    count_of_tests,
    kind_line,
    known_kinds,
    narrowing_line,
)
from companion.core.words.notices import Notice
from companion.tui.commands import CARD, bindings
from companion.tui.screens.base import Page
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine


class CardScreen(Page):
    """A card, and more test knots for it."""

    BINDINGS = bindings(*CARD)
    COMMANDS_HERE = CARD

    def __init__(self, card: CordCard) -> None:
        super().__init__()
        self.card = card

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled(f"Cord card · {plain(self.card.name, 40)}", "bold"), id="heading")
        with VerticalScroll(id="page"):
            yield Paragraphs(list(card_text(self.card)), id="card")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*CARD)

    def on_mount(self) -> None:
        self.query_one("#page").can_focus = False

    def on_screen_resume(self) -> None:
        try:
            self.show(self.workshop.card(self.card.name) or self.card)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))

    def show(self, card: CordCard) -> None:
        """Show the card as it is now."""
        self.card = card
        self.query_one("#card", Paragraphs).show(list(card_text(card)))

    def say(self, *words: Notice) -> None:
        """A sentence under the page."""
        self.query_one("#said", TextLine).say(words)

    @work
    async def action_begin_another(self) -> None:
        """Rows of test knots, one after another; each is on disk before it shows."""
        from companion.tui.card_forms import entry_form
        from companion.tui.dialogs.form import FormDialog

        self.say()
        typed: Mapping[str, str] | None = None
        said: tuple[Notice, ...] = ()
        while True:
            filled = await self.answer(FormDialog(entry_form(self.card, typed, said)))
            if filled is None:
                return
            test, typed = filled.value, filled.typed
            try:
                self.show(self.workshop.add_tests(self.card, test))
            except WorkshopError as error:
                said = (Notice("off", str(error)),)
                continue
            taken = f"Taken: {card_test_words(test)}."
            said = (Notice("quiet", taken), Notice("quiet", "The next row, or Esc when that was the last."))
            typed = {key: typed[key] for key in ("kind", "knots", "ruler")}

    def action_withdraw(self) -> None:
        """The latest row no longer counts."""
        if not self.card.tests:
            self.say(Notice("quiet", "There is no test to take back."))
            return
        last = card_test_words(self.card.tests[-1])
        try:
            self.show(self.workshop.withdraw_test(self.card))
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return
        self.say(Notice("quiet", f"Taken back: {last}."))

    def action_cursor_up(self) -> None:
        """Read on upward."""
        self.query_one("#page").scroll_up(animate=False)

    def action_cursor_down(self) -> None:
        """Read on downward."""
        self.query_one("#page").scroll_down(animate=False)

    def action_leave(self) -> None:
        """Back to the cards."""
        from companion.tui.screens.cords import CordsScreen

        self.app.switch_screen(CordsScreen())


def card_text(card: CordCard) -> Iterator[Paragraph]:
    """What the card knows, and its rows."""
    yield Paragraph(f"{cord_described(card)}, {count_of_tests(len(card.tests))}")
    yield Paragraph()
    tried = known_kinds(card)
    for kind in tried:
        yield Paragraph(kind_line(card, kind), hang=2)
        if more := narrowing_line(card, kind):
            yield Paragraph(f"  {more}", hang=2)
    if tried:
        yield Paragraph()
    yield Paragraph("Test knots", "bold")
    for number, test in enumerate(card.tests, start=1):
        yield Paragraph(f"{number:>3}  {card_test_words(test)}", hang=5)
    if not card.tests:
        yield Paragraph("  None yet. Measure some cord, tie a knot in it, and measure it again. Enter begins.", hang=2)
    yield Paragraph()
    untried = [kind for kind in KNOT_KINDS if kind not in tried]
    yield from (Paragraph(kind_line(card, kind), hang=2) for kind in untried)
    if untried:
        yield Paragraph()
    yield Paragraph(f"A design uses the card with «card: {plain(card.name)}» under «cord».", hang=2)
