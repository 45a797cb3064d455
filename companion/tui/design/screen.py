"""The design page: the parts at the left, what they come to beside or under them, changing with every key."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from textual import work
from textual.app import ComposeResult
from textual.content import Content

from companion.core.draft.draft import Draft, without_strand
from companion.core.plan.plan import Plan
from companion.core.values.errors import NotStored, WorkshopError
from companion.core.words.compared.reach_words import reach_lines
from companion.core.words.drafting.cure_words import taken_words
from companion.core.words.drafting.draft_words import part_notices
from companion.core.words.notices import Notice
from companion.tui.commands import (
    ANEW,
    COMPARE,
    DESIGN,
    EVERY,
    PICTURE,
    REDO_DRAFT,
    REMOVE,
    TAKE_WAY,
    UNDO_DRAFT,
    Command,
    bindings,
)
from companion.tui.design.board import DrawingBoard, comes_to, missing
from companion.tui.design.every import ask_every
from companion.tui.design.form import PartDialog, form_of
from companion.tui.design.further import Further, further
from companion.tui.design.history import DraftHistory
from companion.tui.design.page_rows import can_be_taken_out, is_new
from companion.tui.design.parts import part_form, with_answers, with_bead, without_bead
from companion.tui.design.picture import PictureDialog
from companion.tui.moving import MovesThrough
from companion.tui.page import Page
from companion.tui.routes import ToBench, ToDesign
from companion.tui.widgets.rows import Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.workshop.drafts import JudgedDraft

NOTHING = Draft()
STRUNG_PARTS = ("beads", "cord", "knots")  # of which something can be said before there is a pattern


class DesignScreen(MovesThrough, Page):
    """One design being made. `empty`: one of which nothing is typed yet, in the maker's unit."""

    BINDINGS = bindings(*DESIGN)
    COMMANDS_HERE = DESIGN

    def __init__(self, draft: Draft, said: Notice | None = None, empty: Draft = NOTHING) -> None:
        super().__init__()
        self.history, self.said_first, self.empty = DraftHistory(draft), said, empty
        self.judged = JudgedDraft(None, ())
        self.further = Further()

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled("A design of your own", "bold"), id="heading")
        yield DrawingBoard()
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*DESIGN)  # fewer once it is known what there is to do

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
            UNDO_DRAFT: bool(self.history.done),
            REDO_DRAFT: bool(self.history.undone),
            ANEW: self.draft != self.empty,
            REMOVE: isinstance(chosen, tuple) and can_be_taken_out(self.draft, *chosen),
            TAKE_WAY: bool(self.further.cured),
            PICTURE: self.plan is not None,
            COMPARE: self.plan is not None,
            EVERY: len(self.draft.beads) > 1,
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

    @property
    def draft(self) -> Draft:
        """The design as it is now."""
        return self.history.draft

    @property
    def plan(self) -> Plan | None:
        """What the draft comes to, where it can be planned."""
        return self.judged.plan

    def show_draft(self, draft: Draft, part: str = "") -> tuple[Notice, ...]:
        """Show a draft as far as it goes; gives back what there is to say of it in that part's form."""
        self.judged = self.workshop.drafts.judge(draft)
        if self.is_current or part == "reach":
            self.further = further(self.workshop.drafts, draft, self.judged)
        self.query_one(DrawingBoard).show(draft, self.judged, self.further, with_ways=self.is_current)
        self.query_one(KeyLine).offer(*self.commands_now())
        if not self.is_current:
            self.call_after_refresh(self.show_behind_the_form)
        if part == "reach" and self.further.reach:
            return tuple(Notice("quiet", line) for line in reach_lines(self.further.reach))
        if not part:
            return comes_to(self.judged)
        seen = self.plan or (self.workshop.drafts.as_if_strung(draft) if part in STRUNG_PARTS else None)
        return (*part_notices(part, draft, seen), *(comes_to(self.judged) if self.plan else missing(self.judged, part)))

    def show_behind_the_form(self) -> None:
        """The form shows the page behind it as it was when the form itself was last drawn."""
        if not self.is_current:
            self.app.screen.refresh()

    def _can_be_planned(self, if_not: Notice) -> bool:
        """Whether there is a plan of the draft as it stands; what is missing is said, where there is none."""
        self.show_draft(self.draft)
        if self.plan is None:
            self.say(if_not, *missing(self.judged))
        return self.plan is not None

    # -- changing -----------------------------------------------------------------------------------------------------

    @work
    async def action_open_row(self) -> None:
        """Fill in the part under the cursor."""
        chosen = self.query_one(Rows).chosen
        if not isinstance(chosen, tuple):
            return
        part, number = chosen
        adding = is_new(self.draft, part, number)
        if part == "beads" and adding and await self._take_from_box():
            self.query_one(Rows).begin_with((part, number + 1))
            return
        filled = await self._fill_in(part, number)
        if adding and filled and not is_new(self.draft, part, number):
            self.query_one(Rows).begin_with((part, number + 1))
        elif filled and part != "beads":
            self.query_one(Rows).move(1)  # on to what comes next in her thought

    async def _take_from_box(self) -> bool:
        """Offer the beads of earlier designs, where there are any; False where a new one is wanted."""
        from companion.tui.design.box import NEW, ask_box

        bead = await ask_box(self, self.draft)
        if bead is not None and bead != NEW:
            try:
                self.change(with_bead(self.draft, bead))
            except ValueError:
                self.say(Notice("watch", "No letter is left for one more kind of bead."))
        return bead != NEW

    async def _fill_in(self, part: str, number: int) -> bool:
        """Ask for one part; whether it was filled in."""
        before = self.draft
        form = part_form(before, part, self._card_names(), number)
        shown = form_of(before, form, self.show_draft)
        filled = await self.answer(PartDialog(shown, self._keep_typing, self._leave_room))
        self._leave_room(0)
        draft = before if filled is None else with_answers(before, form, filled.typed)
        if draft == before:  # nothing to keep, but the form has shown others on the way
            self.show_draft(before)
            self._keep_typing(before)
        self.change(draft)
        return filled is not None

    def _leave_room(self, lines: int) -> None:
        """Keep the whole drawing above a form that lies over so many lines; on a low screen it has no room at all."""
        filling = bool(lines) and self.has_class("-high")
        self.set_class(filling, "-filling")  # the form says what the draft comes to
        below = sum(one.outer_size.height for one in self.query("#said, Rule, KeyLine"))
        self.query_one("#drawing-board").styles.margin = (0, 0, max(0, lines - below) if filling else 0, 0)

    def _keep_typing(self, draft: Draft) -> None:
        with suppress(WorkshopError):  # a full disk is said when the part is done
            self.workshop.drafts.keep_typing(draft)

    def change(self, draft: Draft) -> None:
        """The draft is another one now; it is kept before it shows."""
        if self.history.change(draft):
            self._keep()

    def _keep(self) -> None:
        try:
            self.workshop.drafts.keep(self.draft)
            self.say()
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
        self.show_draft(self.draft)

    def _card_names(self) -> tuple[str, ...]:
        try:
            return tuple(card.name for card in self.workshop.cards())
        except WorkshopError:
            return ()

    def action_withdraw(self) -> None:
        """Leave out the bead or the strand under the cursor."""
        match self.query_one(Rows).chosen:
            case ("beads", int(number)) if not is_new(self.draft, "beads", number):
                self.change(without_bead(self.draft, number))
            case ("pattern", int(number)) if self.draft.others and not is_new(self.draft, "pattern", number):
                self.change(without_strand(self.draft, number))
            case _:
                said = "Only a bead, or one of several strands, can be taken out: put the cursor on it."
                self.say(Notice("quiet", said))

    def action_take_way(self, key: str) -> None:
        """Take the way of that number (from 1) to let it come out."""
        if int(key) <= len(self.further.cured):
            taken = self.further.cured[int(key) - 1]
            self.change(taken.cure.draft)
            self.say(Notice("quiet", taken_words(taken)))

    @work
    async def action_on_picture(self) -> None:
        """Change a bead or knot where it lies."""
        if self._can_be_planned(Notice("quiet", "There is no picture yet.")):
            await self.answer(PictureDialog(self))
            self.show_draft(self.draft)

    @work
    async def action_every(self) -> None:
        """Every fifth bead another: which reading of that is meant."""
        if len(self.draft.beads) < 2:
            self.say(Notice("quiet", "That takes two kinds of bead: describe them first."))
            return
        picked = await ask_every(self, self.draft, self._strand())
        if picked is not None:
            self.change(picked)

    def _strand(self) -> int:
        """The strand under the cursor; the first where none is."""
        match self.query_one(Rows).chosen:
            case ("pattern", int(number)) if not is_new(self.draft, "pattern", number):
                return number
        return 0

    def action_undo(self) -> None:
        """The draft as it was before the latest change."""
        if self.history.undo():
            self._keep()

    def action_begin_anew(self) -> None:
        """An empty design; u brings this one back."""
        self.change(self.empty)

    def action_redo(self) -> None:
        """The change that was undone, again."""
        if self.history.redo():
            self._keep()

    # -- saving -------------------------------------------------------------------------------------------------------

    @work
    async def action_save(self) -> None:
        """Save the design, and go back to the bench."""
        saved = await self._saved()
        if saved is not None:
            place, said = saved
            self.go(ToBench(Notice("quiet", said), ToDesign(place)))

    @work
    async def action_save_and_begin(self) -> None:
        """Save the design, and begin a piece of it."""
        saved = await self._saved()
        if saved is not None:
            self.go(ToDesign(saved[0], new=True))

    async def _saved(self) -> tuple[Path, str] | None:
        from companion.tui.design.saving import save

        if not self._can_be_planned(Notice("off", "It can't be saved yet.")):
            return None
        try:
            return await save(self, self.draft, self.judged)
        except NotStored as error:
            self.say(Notice("off", str(error)))
            return None

    @work
    async def action_compare(self) -> None:
        """The same piece made in other ways, side by side."""
        from companion.tui.design.comparison import compare

        if not self._can_be_planned(Notice("quiet", "There is nothing to compare yet.")):
            return
        try:
            await compare(self, self.judged)
        except WorkshopError as error:
            self.say(Notice("off", str(error)))

    def action_leave(self) -> None:
        """Back to the bench; the draft is kept, and offered again."""
        self.go(ToBench())
