"""Designs and cord cards: what a plan is made from. The readers come in when they are first needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from companion.core.plan.plan import Plan
from companion.core.values.errors import WorkshopError
from companion.storage.folders import shipped_designs

if TYPE_CHECKING:
    from companion.core.cord.cards import CardTest, CordCard
    from companion.core.cord.cord import CardFigures
    from companion.core.plan.card_choice import CordChoice
    from companion.core.values.design import Design
    from companion.core.values.design_reading import DesignReading, Problem
    from companion.storage.cards import CardStore
    from companion.storage.database import Database


@dataclass(frozen=True, slots=True)
class Planned:
    """A design file and its plan; `plan` is None where the file has errors. `problems`: all of the file's findings."""

    plan: Plan | None
    problems: tuple[Problem, ...]
    reading: DesignReading


class DesignDesk:
    """Reading designs, and the cord cards that they name."""

    def __init__(self, database: Database, now: Callable[[], datetime]) -> None:
        self._database = database
        self._now = now

    @cached_property
    def _cards(self) -> CardStore:
        from companion.storage.cards import CardStore

        return CardStore(self._database)

    # -- designs ------------------------------------------------------------------------------------------------------

    def read_design(self, path: Path) -> DesignReading:
        """A design file with all that is wrong with it."""
        from companion.storage.design.files import read_design

        return read_design(path)

    def plan(self, path: Path, choice: CordChoice | None = None) -> Planned:
        """The plan of a design file; with `choice`, by other cord numbers than its own. Raises as `planned_by`."""
        reading = self.read_design(path)
        if reading.design is None:
            return Planned(None, reading.problems, reading)
        return self._planned(path, reading, reading.design, choice)

    def planned_by(self, path: Path, planned: Planned, choice: CordChoice) -> Planned:
        """The same design, as it was read, by other cord numbers. Raises WorkshopError where that card is not there."""
        design = planned.reading.design
        return planned if design is None else self._planned(path, planned.reading, design, choice)

    def _planned(self, path: Path, reading: DesignReading, design: Design, choice: CordChoice | None) -> Planned:
        from companion.core.plan.planner import CannotPlan, compile_plan

        if choice is not None:
            design = self._chosen(design, choice)
        try:
            plan = compile_plan(design, self._figures(design.cord.card), risk=self.run_out_risk)
            return Planned(plan, reading.problems, reading)
        except CannotPlan as error:
            from companion.core.values.design_reading import Problem
            from companion.core.values.text import plain

            problem = Problem(plain(str(path)), 0, 0, "error", "cannot plan", str(error), "")
            return Planned(None, (*reading.problems, problem), reading)

    def _chosen(self, design: Design, choice: CordChoice) -> Design:
        from companion.core.plan.card_choice import with_card, with_estimate

        if choice.source == "design":
            return design
        if choice.card is None:
            return with_estimate(design)
        card = self._figures(choice.card)
        if card is None:
            raise WorkshopError(self._no_card(choice.card))
        return with_card(design, card)

    @property
    def run_out_risk(self) -> float:
        """The chance of running out that new plans are cut for. Raises WorkshopError for unreadable settings."""
        from companion.core.values.assumptions import USUAL
        from companion.storage.settings import read_run_out_risk

        risk = read_run_out_risk(self._database)
        return USUAL.run_out_risk if risk is None else risk

    def set_run_out_risk(self, risk: float) -> None:
        """From now on plans are cut for that chance, 0.0001 to 0.5. Raises NotStored."""
        from companion.storage.settings import write_run_out_risk

        write_run_out_risk(self._database, risk)

    def design_schema(self) -> dict[str, Any]:
        """The JSON Schema of design files."""
        from companion.storage.design.files import design_schema

        return design_schema()

    def shipped_designs(self) -> tuple[Path, ...]:
        """The designs that come with the companion."""
        return shipped_designs()

    # -- cords --------------------------------------------------------------------------------------------------------

    def cards(self) -> tuple[CordCard, ...]:
        """Every cord card, by name."""
        return self._cards.cards()

    def card(self, name: str) -> CordCard | None:
        """The cord card of that name, capitals or not; None where there is none."""
        wanted = name.strip().lower()
        return next((card for card in self.cards() if card.name.lower() == wanted), None)

    def _no_card(self, name: str) -> str:
        from companion.core.values.text import join_words, plain

        names = [plain(card.name, 60) for card in self.cards()]
        there = f"There are {join_words(names)}." if len(names) > 1 else f"There is {names[0]}." if names else ""
        return f"There is no cord card named {plain(name, 60)}. {there or '`companion cord NAME` makes one.'}"

    def add_tests(self, card: CordCard, *tests: CardTest) -> CordCard:
        """Tests added to that card, which is made where there is none of its name; the card as it is then."""
        self._cards.add(card, tests, self._now())
        found = self.card(card.name)
        assert found is not None  # it was just stored
        return found

    def withdraw_test(self, card: CordCard) -> CordCard:
        """That card without its latest test. Taking back is an entry too; nothing is lost. Raises NotStored."""
        self._cards.withdraw(card.name, self._now())
        found = self.card(card.name)
        assert found is not None  # cards are never taken away
        return found

    def _figures(self, name: str | None) -> CardFigures | None:
        """What the card of that name knows, for a plan."""
        card = self.card(name) if name is not None else None
        if card is None:
            return None
        from companion.core.cord.cards import card_figures

        return card_figures(card)
