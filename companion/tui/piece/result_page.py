"""What a finished piece came to, and what can be done with it."""

from __future__ import annotations

from pathlib import Path

from textual import work

from companion.core.picture.block_digits import block_digits
from companion.core.plan.plan import Plan
from companion.core.values.errors import NotPossible, WorkshopError
from companion.core.values.measures.show_lengths import display_unit, number_and_unit
from companion.core.words.notices import Notice, PieceLine, heading
from companion.core.words.result_words import as_wanted, good_sentence, result_figures, result_lines, result_remarks
from companion.tui.commands import ANOTHER, RESULT, Command, bindings
from companion.tui.pictured_page import PicturedPage, WidePage
from companion.tui.piece.plan_page import paragraphs_of
from companion.tui.routes import ToBench, ToDesign, ToPiece, ToPlan, ToSteps
from companion.tui.widgets.figures import times_on
from companion.tui.widgets.paragraphs import Paragraph
from companion.workshop import OpenPiece, Workshop


class ResultScreen(PicturedPage):
    """A finished piece."""

    BINDINGS = bindings(*RESULT)
    COMMANDS_HERE = RESULT
    LETTERED = False  # it is finished: nothing is to be told apart any more

    def __init__(self, workshop: Workshop, opened: OpenPiece, said: Notice | None = None) -> None:
        super().__init__()
        self.opened, self.help_plan, self.heading = opened, opened.plan, heading(opened.began_with, opened.name)
        self.took, self.left_mm, self.said_first = workshop.worked(opened), workshop.left_at_the_end(opened), said
        self.set_aside = workshop.set_aside(opened)

    def on_mount(self) -> None:
        if self.said_first:
            self.say(self.said_first)

    def text(self) -> list[Paragraph]:
        """The result."""
        opened, scrap_mm = self.opened, self.workshop.settings.scrap_mm
        came_to = (self.took, self.left_mm, scrap_mm, self.set_aside)
        return paragraphs_of(list(result_lines(opened.plan, opened.began_with, opened.piece, *came_to)))

    def pictured(self) -> Plan:
        """The piece as it was made."""
        return self.opened.plan

    def spread(self) -> WidePage:
        """What it came to in the middle of the piece; figures beside what was measured and noted."""
        opened, scrap_mm = self.opened, self.workshop.settings.scrap_mm
        well = as_wanted(opened.began_with, opened.piece)
        sentence = Paragraph(good_sentence(opened.began_with, opened.piece), "bold $success" if well else "bold")
        figures = result_figures(opened.plan, opened.began_with, opened.piece, self.took, self.left_mm, scrap_mm)
        sections = result_remarks(opened.plan, opened.piece, self.set_aside)
        remarks = [line for section in sections for line in (*section, PieceLine(""))]
        left = [PieceLine("What it came to", heading=True), *figures]
        return WidePage([sentence], (), (), self._came_out(), paragraphs_of(left), paragraphs_of(remarks), ())

    def _came_out(self) -> tuple[str, ...]:
        """The length that it came out at, large; nothing where it was not measured."""
        finished_mm = self.opened.piece.finished_mm
        if finished_mm is None:
            return ()
        number, unit = number_and_unit(finished_mm, display_unit(self.opened.plan.unit))
        *above, last = block_digits(number, times_on(self.app.size))
        return (*(line + " " * (len(unit) + 1) for line in above), f"{last} {unit}")

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something: another piece needs the design's file."""
        there = Path(self.opened.design_path).exists()
        return tuple(command for command in RESULT if command is not ANOTHER or there)

    @work
    async def action_show_readings(self) -> None:
        """All readings, as they were."""
        from companion.tui.follow.session import PieceSession
        from companion.tui.piece.reading_list import go_over_readings

        await go_over_readings(self, PieceSession(self.workshop, self.opened, lambda wait: None))

    def action_show_plan(self) -> None:
        """The plan, steps and journal of the piece."""
        self.go(ToPlan(self.opened))

    @work
    async def action_show_chart(self) -> None:
        """What was measured against the plan, and how it came out."""
        from companion.tui.dialogs.chart import show_chart

        await show_chart(self, lambda: self.opened)

    def action_begin_another(self) -> None:
        """Another piece of the same design."""
        path = Path(self.opened.design_path)
        if not path.exists():
            self.say(Notice("watch", "The design's file is no longer where it was. Begin it from the bench."))
            return
        self.go(ToDesign(path, new=True))

    def action_undo(self) -> None:
        """Open the piece again: finishing it is undone."""
        try:
            self.go(ToSteps(self.workshop.reopen(self.opened)))
        except (WorkshopError, NotPossible) as error:
            self.say(Notice("off", str(error)))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench(at=ToPiece(self.opened.name)))
