"""One cord card: what it knows of each kind of knot, and its test knots in the order they were entered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from textual import work

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
from companion.tui.commands import CARD, TAKE_TEST_BACK, Command, bindings
from companion.tui.page import TextPage
from companion.tui.routes import ToCords
from companion.tui.widgets.paragraphs import Paragraph


class CardScreen(TextPage):
    """A card, and more test knots for it."""

    BINDINGS = bindings(*CARD)
    COMMANDS_HERE = CARD

    def __init__(self, card: CordCard) -> None:
        super().__init__()
        self.card = card
        self.heading = f"Cord card · {plain(card.name, 40)}"

    def text(self) -> list[Paragraph]:
        """What the card knows, and its rows."""
        return list(card_text(self.card))

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something to the card as it is."""
        return tuple(command for command in CARD if command is not TAKE_TEST_BACK or self.card.tests)

    def on_screen_resume(self) -> None:
        try:
            self.show(self.workshop.card(self.card.name) or self.card)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))

    def show(self, card: CordCard) -> None:
        """Show the card as it is now."""
        self.card = card
        self.show_text()

    @work
    async def action_begin_another(self) -> None:
        """Rows of test knots, one after another; each is on disk before it shows."""
        from companion.tui.cords.forms import card_test_form
        from companion.tui.dialogs.form import FormDialog

        self.say()
        typed: Mapping[str, str] | None = None
        said: tuple[Notice, ...] = ()
        while True:
            filled = await self.answer(FormDialog(card_test_form(self.card, typed, said)))
            if filled is None:
                return
            test, typed = filled.value, filled.typed
            try:
                self.show(self.workshop.add_tests(self.card, test))
            except WorkshopError as error:
                said = (Notice("off", str(error)),)
                continue
            taken = f"Saved: {card_test_words(test)}."
            said = (Notice("quiet", taken), Notice("quiet", "The next row, or Esc when that was the last."))
            typed = {key: typed[key] for key in ("kind", "knots", "ruler")}

    def action_withdraw(self) -> None:
        """The latest row no longer counts."""
        if not self.card.tests:
            self.say(Notice("quiet", "There is no row to take out."))
            return
        last = card_test_words(self.card.tests[-1])
        try:
            self.show(self.workshop.withdraw_test(self.card))
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
            return
        self.say(Notice("quiet", f"Taken out: {last}."))

    def action_leave(self) -> None:
        """Back to the cards."""
        self.go(ToCords())


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
    yield Paragraph(f'In a design file the line "card: {plain(card.name)}" under "cord:" chooses this card.', hang=2)
