"""The cursor on the picture: the strand large, and the bead or knot under the cursor to be changed where it lies."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from msgspec.structs import replace
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.draft.apart import stood_apart
from companion.core.draft.draft import Draft, strands_of
from companion.core.draft.layout import layout_of
from companion.core.draft.pattern import Typed
from companion.core.draft.places import (
    Edit,
    Path,
    Place,
    edited,
    item_at,
    move_by,
    next_kind,
    one_more_of_the_run,
    places_of,
    put_after,
    put_before,
    put_in_place,
    reach_of,
    rewritten,
    take_out,
)
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead, BeadRun, Knot
from companion.core.words.drafting.place_words import (
    apart_already,
    apart_asked,
    apart_words,
    changed_words,
    here_words,
    no_further,
    run_words,
)
from companion.core.words.notices import Notice
from companion.tui.commands import ON_PICTURE, bindings
from companion.tui.design.preview import Cursor, Preview
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.text import KeyLine, Rule, TextLine

MOST_SCALE = 3.5  # pixels per mm: the picture has the page to itself


class DraftInHand(Protocol):
    """The design page, as the picture knows it."""

    @property
    def draft(self) -> Draft:
        """The design as it is now."""

    @property
    def plan(self) -> Plan | None:
        """What the draft comes to."""

    def change(self, draft: Draft) -> None:
        """The draft is another one now; it is kept before it shows."""

    def action_undo(self) -> None:
        """The draft as it was before the latest change."""

    def action_redo(self) -> None:
        """The change that was undone, again."""


class PictureDialog(Dialog[None]):
    """Moves along the elements of the strands; what is changed is changed in the draft at once, and can be undone."""

    BINDINGS = bindings(*ON_PICTURE)

    def __init__(self, page: DraftInHand) -> None:
        super().__init__()
        self.page = page
        self.at = Cursor(0, 0)
        self.places: list[Place] = []
        self.items: tuple[Typed, ...] = ()
        self.asked = False  # whether it was just asked if this shall stand apart

    def compose(self) -> ComposeResult:
        with Vertical(id="both"):
            yield TextLine(Content.styled("On the picture", "bold"), id="heading")
            yield Preview(self.page.plan, most_scale=MOST_SCALE)
            yield TextLine("", id="judged")
            yield Rule()
            yield KeyLine(*ON_PICTURE)

    def on_mount(self) -> None:
        self.call_after_refresh(self.show_place)

    @property
    def here(self) -> Typed:
        """What is under the cursor."""
        return item_at(self.items, self.place.path)

    @property
    def place(self) -> Place:
        """Where that stands in the pattern."""
        return self.places[self.at.element]

    def show_place(self, *said: Notice) -> None:
        """Show the strand as the draft has it now, and say what is under the cursor."""
        plan, draft, self.asked = self.page.plan, self.page.draft, False
        if plan is None or not self.is_active:
            self.dismiss(None)
            return
        strand = min(self.at.strand, len(strands_of(draft)) - 1)
        self.items = layout_of(draft, strand)
        self.places = places_of(self.items, plan.fit or 1)
        self.at = Cursor(strand, min(self.at.element, len(self.places) - 1))
        self.query_one(Preview).show(plan, self.at)
        reach = reach_of(self.items, self.place.path)
        words = here_words(draft, self.here, self.at.element + 1, len(self.places), reach)
        self.query_one("#judged", TextLine).say((Notice("quiet", words), *said))

    # -- moving the cursor --------------------------------------------------------------------------------------------

    def _go(self, element: int) -> None:
        self.at = replace(self.at, element=min(max(0, element), len(self.places) - 1))
        self.show_place()

    def action_other_before(self) -> None:
        """To the element before."""
        self._go(self.at.element - 1)

    def action_other(self) -> None:
        """To the next element."""
        self._go(self.at.element + 1)

    def action_cursor_top(self) -> None:
        """To the first element."""
        self._go(0)

    def action_cursor_bottom(self) -> None:
        """To the last one."""
        self._go(len(self.places) - 1)

    def action_next_section(self) -> None:
        """To the next strand."""
        self.at = Cursor((self.at.strand + 1) % len(strands_of(self.page.draft)), self.at.element)
        self.show_place()

    # -- changing what is under it ------------------------------------------------------------------------------------

    def action_insert(self) -> None:
        """One more like it, after it; of a run, one more in it."""
        if isinstance(self.here, BeadRun):
            self._edit(one_more_of_the_run(1))
        else:
            self._insert(self.here)

    def action_insert_knot(self) -> None:
        """A knot after it."""
        self._insert(Knot("single"))

    def _insert(self, new: Typed) -> None:
        """After what is under the cursor, as it lies."""
        if isinstance(self.here, BeadRun):
            self.show_place(Notice("quiet", run_words()))
        elif self.place.backward:
            self._edit(put_before(new))
        else:
            self._edit(put_after(new), on=1)

    def action_withdraw(self) -> None:
        """Take it out; of a run, one of its beads."""
        self._edit(one_more_of_the_run(-1) if isinstance(self.here, BeadRun) else take_out)

    def action_move_left(self) -> None:
        """Move it to before the one before it."""
        self._move(-1)

    def action_move_right(self) -> None:
        """Move it to after the next one."""
        self._move(1)

    def _move(self, by: int) -> None:
        in_list = -by if self.place.backward else by
        if isinstance(self.here, BeadRun):
            self.show_place(Notice("quiet", run_words()))
        else:
            self._edit(move_by(in_list), on=in_list)

    def action_other_kind(self) -> None:
        """Another kind of bead, or of knot, in its place."""
        other = next_kind(self.here, [bead.letter for bead in self.page.draft.beads])
        if other is not None:
            self._edit(put_in_place(other))
        else:
            self.show_place(Notice("quiet", "There is no other kind."))

    def action_stand_apart(self) -> None:
        """Let the repeat or the run under the cursor stand apart there, once that is asked for twice."""
        plan, reach = self.page.plan, reach_of(self.items, self.place.path)
        items = stood_apart(self.items, self.at.element, plan.fit or 1 if plan else 1)
        if items is None:
            self.show_place(Notice("quiet", apart_already()))
        elif not self.asked:
            self.show_place(Notice("quiet", apart_asked(reach)))
            self.asked = True
        elif self._taken(items):
            self.show_place()
            reach = reach_of(self.items, self.place.path)
            self.show_place(Notice("quiet", apart_words(reach.repeats or reach.run)))

    def _edit(self, edit: Edit, on: int = 0) -> None:
        """Change the pattern at the cursor, and go with what was changed: `on` by so many places in its list."""
        path, before = self.place.path, self.items
        items = edited(before, path, edit)
        if items == before:
            is_run = isinstance(self.here, BeadRun)
            self.show_place(Notice("quiet", run_words(fitted=True) if is_run else no_further(len(path) > 1)))
            return
        reach, which = reach_of(before, path), [one.path for one in self.places[: self.at.element]].count(path)
        if self._taken(items):
            self._follow(items, (*path[:-1], path[-1] + on), which)
            self.show_place(Notice("quiet", changed_words(reach)))

    def _taken(self, items: tuple[Typed, ...]) -> bool:
        """Whether the draft has these items now; where it can't, it stays as it was, and that is said."""
        draft = rewritten(self.page.draft, self.at.strand, items)
        if draft is None or not any(isinstance(item_at(items, one.path), Bead | BeadRun) for one in places_of(items)):
            self.show_place(Notice("quiet", "Nothing would be left to string."))
            return False
        self.page.change(draft)
        if self.page.plan is None:  # it can't be planned so: it stays as it was
            self.page.action_undo()
            self.show_place(Notice("watch", "That can't be planned. It stays as it was."))
            return False
        return True

    def _follow(self, items: Sequence[Typed], path: Path, which: int) -> None:
        plan = self.page.plan
        fit = plan.fit or 1 if plan else 1
        places = [at for at, one in enumerate(places_of(items, fit)) if one.path == path]
        if places:
            self.at = replace(self.at, element=places[min(which, len(places) - 1)])

    def action_undo(self) -> None:
        """The draft as it was before the latest change."""
        self.page.action_undo()
        self.show_place(Notice("quiet", "Undone."))

    def action_redo(self) -> None:
        """The change that was undone, again."""
        self.page.action_redo()
        self.show_place()
