"""The design page: the parts at the left, what they come to beside or under them, changing with every key."""

from __future__ import annotations

from pathlib import Path

from textual import work
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content

from companion.core.draft.draft import Draft
from companion.core.values.errors import NotStored, WorkshopError
from companion.core.values.text import plain
from companion.core.words.draft_words import (
    bead_words,
    cord_words,
    ends_words,
    knot_number_words,
    outcome,
    pattern_words,
    size_words,
)
from companion.core.words.notices import Notice
from companion.tui.commands import ANEW, DESIGN, REDO_DRAFT, REMOVE, UNDO_DRAFT, Command, bindings
from companion.tui.design.form import PartDialog, form_of
from companion.tui.design.parts import part_form, with_answers, without_bead
from companion.tui.design.preview import Preview
from companion.tui.page import Page
from companion.tui.routes import ToBench, ToDesign
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop.drafts import JudgedDraft

# A row's value: a part of the draft, and for a bead its number.
PartRow = tuple[str, int]
MORE = "more"


class DesignScreen(Page):
    """One design being made."""

    BINDINGS = bindings(*DESIGN)
    COMMANDS_HERE = DESIGN

    def __init__(self, draft: Draft, said: Notice | None = None) -> None:
        super().__init__()
        self.draft, self.said_first = draft, said
        self.undone: list[Draft] = []
        self.done: list[Draft] = []
        self.judged = JudgedDraft(None, ())

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled("A design of your own", "bold"), id="heading")
        with Container(id="drawing-board"):
            yield Rows(id="rows")
            with Vertical(id="beside"):
                yield Preview()
                yield TextLine("", id="outcome")
                yield TextLine("", id="doubts")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*DESIGN)

    def on_mount(self) -> None:
        self.query_one(Rows).focus()
        if self.said_first:
            self.say(self.said_first)
        self.call_after_refresh(self.show_draft, self.draft)

    def on_resize(self) -> None:
        self.call_after_refresh(self.show_draft, self.draft)

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something with the cursor where it is."""
        chosen = self.query_one(Rows).chosen
        ready = {
            UNDO_DRAFT: bool(self.done),
            REDO_DRAFT: bool(self.undone),
            ANEW: self.draft != Draft(),
            REMOVE: isinstance(chosen, tuple) and chosen[0] == "beads",
        }
        return tuple(command for command in DESIGN if ready.get(command, True))

    def say(self, *notices: Notice) -> None:
        """Say these sentences, and no longer those from before."""
        self.query_one("#said", TextLine).say(notices)

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment."""
        self.say(Notice("watch", text))
        return True

    # -- showing ------------------------------------------------------------------------------------------------------

    def show_draft(self, draft: Draft) -> tuple[Notice, ...]:
        """Show a draft as far as it goes; gives back what there is to say of it."""
        self.judged = self.workshop.drafts.judge(draft)
        rows = self._rows(draft)
        if tuple(rows) != self.query_one(Rows).rows:
            self.query_one(Rows).set_rows(rows)
        plan = self.judged.plan
        self.query_one(Preview).show(plan)
        comes_to = tuple(outcome(plan)) if plan else self._missing()
        self.query_one("#outcome", TextLine).say(comes_to)
        self.query_one("#doubts", TextLine).say(self._doubts())
        if not self.is_current:
            self.call_after_refresh(self.show_behind_the_form)
        return comes_to

    def show_behind_the_form(self) -> None:
        """The form shows the page behind it as it was when the form itself was last drawn."""
        if not self.is_current:
            self.app.screen.refresh()

    def _doubts(self) -> tuple[Notice, ...]:
        plan = self.judged.plan
        return tuple(Notice("watch", warning.text) for warning in plan.warnings) if plan else ()

    def _missing(self) -> tuple[Notice, ...]:
        return tuple(Notice("quiet", finding.text) for finding in self.judged.findings)

    def _rows(self, draft: Draft) -> list[Row]:
        wrong = {finding.part for finding in self.judged.findings}

        def row(label: str, words: str, part: str, bead: int = -1) -> Row:
            return Row(f"{label:<11}{words}", (part, bead), "△" if part in wrong and bead < 1 else "")

        rows = [
            row("name", plain(draft.name, 60) or "not yet", "what"),
            row("length", size_words(draft), "size"),
            row("cord", cord_words(draft), "cord"),
            row("its knots", knot_number_words(draft), "knots"),
        ]
        for number, bead in enumerate(draft.beads):
            rows.append(row("" if number else "beads", bead_words(bead, draft.unit), "beads", number))
        more = "one more kind" if draft.beads else "the first kind"
        rows.append(Row(f"{'' if draft.beads else 'beads':<11}+ {more}", (MORE, len(draft.beads))))
        rows += [row("pattern", pattern_words(draft), "pattern"), row("ends", ends_words(draft), "ends")]
        return rows

    # -- changing -----------------------------------------------------------------------------------------------------

    @work
    async def action_open_row(self) -> None:
        """Fill in the part under the cursor."""
        chosen = self.query_one(Rows).chosen
        if not isinstance(chosen, tuple):
            return
        part, bead = chosen
        filled = await self._fill_in("beads" if part == MORE else part, bead)
        if part == MORE and len(self.draft.beads) > bead:
            self.query_one(Rows).begin_with((MORE, bead + 1))
        elif filled and part != "beads":
            self.query_one(Rows).move(1)  # on to what comes next in her thought

    async def _fill_in(self, part: str, bead: int) -> bool:
        """Ask for one part; whether it was filled in."""
        before = self.draft
        form = part_form(before, part, self._card_names(), bead)
        filled = await self.answer(PartDialog(form_of(before, form, self.show_draft)))
        draft = before if filled is None else with_answers(before, form, filled.typed)
        if draft == before:  # nothing to keep, but the form has shown others on the way
            self.show_draft(before)
        self.change(draft)
        return filled is not None

    def change(self, draft: Draft) -> None:
        """The draft is another one now; it is kept before it shows."""
        if draft == self.draft:
            return
        self.done.append(self.draft)
        self.undone.clear()
        self._take(draft)

    def _take(self, draft: Draft) -> None:
        try:
            self.workshop.drafts.keep(draft)
            self.say()
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
        self.draft = draft
        self.show_draft(draft)

    def _card_names(self) -> tuple[str, ...]:
        try:
            return tuple(card.name for card in self.workshop.cards())
        except WorkshopError:
            return ()

    def action_withdraw(self) -> None:
        """Leave out the bead under the cursor."""
        match self.query_one(Rows).chosen:
            case ("beads", int(bead)):
                self.change(without_bead(self.draft, bead))
            case _:
                self.say(Notice("quiet", "Only a bead can be taken out: put the cursor on one."))

    def action_undo(self) -> None:
        """The draft as it was before the latest change."""
        if self.done:
            self.undone.append(self.draft)
            self._take(self.done.pop())

    def action_begin_anew(self) -> None:
        """An empty design; u brings this one back."""
        self.change(Draft())

    def action_redo(self) -> None:
        """The change that was undone, again."""
        if self.undone:
            self.done.append(self.draft)
            self._take(self.undone.pop())

    # -- saving -------------------------------------------------------------------------------------------------------

    def action_save(self) -> None:
        """Save the design, and go back to the bench."""
        place = self._saved()
        if place is not None:
            said = f"Saved among your designs as {plain(place.name)}. Enter begins a piece of it."
            self.go(ToBench(Notice("quiet", said), ToDesign(place)))

    def action_save_and_begin(self) -> None:
        """Save the design, and begin a piece of it."""
        place = self._saved()
        if place is not None:
            self.go(ToDesign(place, new=True))

    def _saved(self) -> Path | None:
        self.show_draft(self.draft)
        if self.judged.plan is None:
            self.say(Notice("off", "It can't be saved yet."), *self._missing())
            return None
        place = self.workshop.drafts.place_for(self.draft)
        try:
            self.workshop.drafts.save(self.judged, place)
        except NotStored as error:
            self.say(Notice("off", str(error)))
            return None
        return place

    @work
    async def action_compare(self) -> None:
        """The same piece made in other ways, side by side."""
        from companion.tui.design.comparison import comparison_dialog

        self.show_draft(self.draft)
        if self.judged.plan is None:
            self.say(Notice("quiet", "There is nothing to compare yet."), *self._missing())
            return
        try:
            dialog = await comparison_dialog(self, self.judged)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
        else:
            await self.answer(dialog)

    def action_leave(self) -> None:
        """Back to the bench; the draft is kept, and offered again."""
        self.go(ToBench())

    def action_cursor_up(self) -> None:
        """The part above."""
        self.query_one(Rows).move(-1)

    def action_cursor_down(self) -> None:
        """The part below."""
        self.query_one(Rows).move(1)
