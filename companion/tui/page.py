"""What all pages share: the way to the next one, the help, the colours. And the two kinds that most of them are: a list
to choose from, and a text to read."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from contextlib import suppress
from typing import TYPE_CHECKING, Protocol, cast

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from companion.core.plan.plan import Plan
from companion.core.values.colour_sets import COLOUR_SETS
from companion.core.values.errors import NotPossible, WorkshopError
from companion.core.values.setting_list import COLOURS
from companion.core.words.notices import Notice
from companion.tui.commands import ONLY_KEYS, SET_ASIDE, Command
from companion.tui.ground import BlankGround
from companion.tui.keys import KeysInTurnScreen
from companion.tui.moving import MovesThrough, TextScroll
from companion.tui.routes import Route, ToBench
from companion.tui.setting_aside import can_be_set_aside
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.rows import Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine

if TYPE_CHECKING:
    from companion.workshop import Workshop

TALL_ROWS = 24  # a screen of fewer is a low one
ROOMY_COLUMNS = 100  # of a screen that has room for something beside what it says


class Tallycord(Protocol):
    """The app, as its pages know it."""

    @property
    def workshop(self) -> Workshop:
        """The workshop that the app was given."""

    def go(self, route: Route) -> None:
        """Show another page in place of this one. Raises WorkshopError or NotPossible where it can't be shown."""

    def leave(self) -> None:
        """Leave Tallycord."""


class Page(KeysInTurnScreen[None], BlankGround):
    """A whole screen with its commands."""

    COMMANDS_HERE: tuple[Command, ...] = ()
    help_plan: Plan | None = None
    how_to_leave = "Esc goes back to the bench, and Esc there leaves Tallycord. Nothing is lost."

    @property
    def workshop(self) -> Workshop:
        """The workshop that the app was given."""
        return cast("Tallycord", self.app).workshop

    def go(self, route: Route) -> None:
        """Leave for another page: once, for then this one is on top no more."""
        if not self.is_active:
            return
        try:
            cast("Tallycord", self.app).go(route)
        except (WorkshopError, NotPossible) as error:
            self.cannot_show(str(error))

    def leave(self) -> None:
        """Leave Tallycord, or the sample piece."""
        cast("Tallycord", self.app).leave()

    def cannot_show(self, why: str) -> None:
        """Another page can't be shown: the bench says why."""
        cast("Tallycord", self.app).go(ToBench(Notice("watch", why)))

    def tell(self, text: str) -> bool:
        """Say a sentence of the moment; whether this page has a place for one."""
        return False

    def say_how_to_leave(self) -> None:
        """Ctrl+C ends nothing: it says how to leave."""
        if not self.tell(self.how_to_leave):
            self.query_one("#said", TextLine).say((Notice("watch", self.how_to_leave),))

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something as the page stands now."""
        return self.COMMANDS_HERE

    @work
    async def action_show_help(self) -> None:
        """All keys and marks; the command that is clicked there is done."""
        from companion.tui.dialogs.help import help_dialog

        commands = self.COMMANDS_HERE if sys.platform == "win32" else (*self.COMMANDS_HERE, SET_ASIDE)
        await self._do(await self.answer(help_dialog(commands, self.help_plan, self.app.size.width)))

    @work
    async def action_show_palette(self) -> None:
        """All that can be done here now, to find by its words; the one that is chosen is done."""
        from companion.tui.dialogs.palette import PaletteDialog

        aside = (SET_ASIDE,) if can_be_set_aside() else ()
        commands = [one for one in (*self.commands_now(), *aside) if one.action not in ONLY_KEYS]
        await self._do(await self.answer(PaletteDialog(commands)))

    async def _do(self, command: Command | None) -> None:
        if command is not None:
            await self.run_action(command.action)

    def action_next_theme(self) -> None:
        """The next set of colours, with which the app begins from now on."""
        self.app.theme = COLOUR_SETS[(COLOUR_SETS.index(self.app.theme) + 1) % len(COLOUR_SETS)]
        with suppress(WorkshopError):  # a full disk is said where work is lost, not where a colour is
            self.workshop.set_setting(COLOURS, self.app.theme)


class HeadedPage(Page):
    """A page with a heading, and a place for sentences of the moment over its keys."""

    heading = ""

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled(self.heading, "bold"), id="heading")
        yield from self.body()
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*self.COMMANDS_HERE)

    def body(self) -> Iterable[Widget]:
        """What stands under the heading."""
        raise NotImplementedError

    def on_mount(self) -> None:
        self.show_keys()

    def say(self, *notices: Notice) -> None:
        """Say these sentences, and no longer those from before."""
        self.query_one("#said", TextLine).say(notices)

    def show_keys(self) -> None:
        """The keys at the foot: those that do something as the page stands."""
        self.query_one(KeyLine).offer(*self.commands_now())


class ListPage(MovesThrough, HeadedPage):
    """A list to choose from. The first command opens the row under the cursor; a click on a row does the same."""

    def body(self) -> Iterable[Widget]:
        return TextLine(""), Rows(id="rows")

    def on_mount(self) -> None:
        self.rows.focus()

    @on(Rows.Moved)
    def show_keys_of_row(self) -> None:
        """Another row may have other keys."""
        self.show_keys()

    @property
    def rows(self) -> Rows:
        """The list."""
        return self.query_one(Rows)

    @on(Rows.Chosen)
    async def row_clicked(self) -> None:
        await self.click(self.COMMANDS_HERE[0].action)


class TextPage(MovesThrough, HeadedPage):
    """A text to read, as far as it goes."""

    def body(self) -> Iterable[Widget]:
        return (TextScroll(Paragraphs(self.text(), id="text"), id="page"),)

    def text(self) -> list[Paragraph]:
        """What there is to read."""
        raise NotImplementedError

    def show_text(self) -> None:
        """Show the text as it is now."""
        self.query_one("#text", Paragraphs).show(self.text())
        self.show_keys()

    def action_next_section(self) -> None:
        """To the heading below the top line."""
        page = self.query_one("#page")
        below = [line for line in self._headings() if line > page.scroll_y]
        page.scroll_to(y=min(below, default=page.max_scroll_y), animate=False)

    def action_last_section(self) -> None:
        """To the heading above it."""
        page = self.query_one("#page")
        above = [line for line in self._headings() if line < page.scroll_y]
        page.scroll_to(y=max(above, default=0), animate=False)

    def _headings(self) -> list[float]:
        """The lines of the page on which the headings stand that show at this width."""
        page = self.query_one("#page")
        top = page.content_region.y - page.scroll_y
        texts = [text for text in page.query(Paragraphs) if text.region]
        return [text.region.y - top + line for text in texts for line in text.headings()]
