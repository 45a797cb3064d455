"""Design files, read and planned."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace

from companion.core.cord.cord import CardFigures, CordChoice
from companion.core.plan.card_choice import with_card, with_estimate
from companion.core.plan.plan import Plan
from companion.core.plan.planner import CannotPlan, compile_plan
from companion.core.values.design import Design
from companion.core.values.design_reading import DesignReading, Problem
from companion.core.values.errors import WorkshopError
from companion.core.values.settings import Settings
from companion.core.values.text import plain
from companion.storage.design.files import design_schema, read_design
from companion.workshop.cord_cards import CordCards
from companion.workshop.results import Planned

if TYPE_CHECKING:
    from companion.core.sheet.sheet import StepSheet
    from companion.core.variants.reach import Reach
    from companion.core.variants.variants import Variant


class ReadyDesign(Struct, frozen=True):
    """A design in the maker's unit, its cord card's figures, and the chance of running out that it is planned for. From
    values alone: safe in any thread."""

    design: Design
    card: CardFigures | None
    risk: float

    def variants(self) -> tuple[Variant, ...]:
        """The same piece made in other ways, each planned as the design is."""
        from companion.core.variants.variants import variants

        return variants(self.design, self.card, self.risk)

    def reach(self, cord_mm: float) -> Reach:
        """What a cord of that length, whole, mm, makes of the design."""
        from companion.core.variants.reach import reach

        return reach(self.design, cord_mm, self.card, self.risk)


class Designs:
    """Plans of design files, by the cord cards, the risk of running out and the unit that are kept."""

    def __init__(self, cards: CordCards, settings: Callable[[], Settings]) -> None:
        self._cards, self._settings = cards, settings

    def plan(self, path: Path, choice: CordChoice | None = None) -> Planned:
        """The plan of a design file; with `choice`, by other cord numbers than its own. Raises as `planned_by`."""
        reading = read_design(path)
        if reading.design is None:
            return Planned(None, reading.problems, reading)
        return self._planned(path, reading, reading.design, choice)

    def planned_by(self, path: Path, planned: Planned, choice: CordChoice) -> Planned:
        """The same design, as it was read, by other cord numbers. Raises WorkshopError where that card is not there."""
        design = planned.reading.design
        return planned if design is None else self._planned(path, planned.reading, design, choice)

    def _planned(self, path: Path, reading: DesignReading, design: Design, choice: CordChoice | None) -> Planned:
        ready = self._ready(design, choice)
        try:
            plan = compile_plan(ready.design, ready.card, risk=ready.risk)
            return Planned(plan, reading.problems, reading)
        except CannotPlan as error:
            problem = Problem(plain(str(path)), 0, 0, "error", "cannot plan", str(error), "")
            return Planned(None, (*reading.problems, problem), reading)

    def _ready(self, design: Design, choice: CordChoice | None) -> ReadyDesign:
        """What a plan of the design rests on."""
        if choice is not None:
            design = self._chosen(design, choice)
        settings = self._settings()
        unit = settings.unit or design.unit
        return ReadyDesign(replace(design, unit=unit), self._cards.figures(design.cord.card), settings.risk)

    def ready(self, planned: Planned, choice: CordChoice | None = None) -> ReadyDesign:
        """A design that was read, to be made otherwise; with `choice`, by other cord numbers than its own. Raises
        WorkshopError for one with errors, or where that card is not there."""
        if planned.reading.design is None:
            raise WorkshopError("\n".join(str(problem) for problem in planned.problems))
        return self._ready(planned.reading.design, choice)

    def _chosen(self, design: Design, choice: CordChoice) -> Design:
        if choice.source == "design":
            return design
        if choice.card is None:
            return with_estimate(design)
        card = self._cards.figures(choice.card)
        if card is None:
            raise WorkshopError(self._cards.none_named(choice.card))
        return with_card(design, card)

    def save_picture(self, plan: Plan, place: Path, over: bool = False) -> None:
        """Write a plan's picture to a new SVG file, whole or not at all. Raises NotStored."""
        from companion.core.drawing.svg import picture_svg
        from companion.storage.export.writing import write_new

        write_new(place, iter(picture_svg(plan).splitlines()), over)

    def save_sheet(self, sheet: StepSheet, plan: Plan, place: Path, over: bool = False) -> None:
        """Write a sheet as a page to a new file, whole or not at all. Raises NotStored."""
        from companion.core.sheet.sheet_html import sheet_page
        from companion.storage.export.writing import write_new

        write_new(place, sheet_page(sheet, plan), over)

    def planned_from(self, reading: DesignReading) -> Planned:
        """The plan of a design that was read."""
        if reading.design is None:
            return Planned(None, reading.problems, reading)
        return self._planned(Path(), reading, reading.design, None)

    def schema(self) -> dict[str, Any]:
        """The JSON Schema of design files."""
        return design_schema()
