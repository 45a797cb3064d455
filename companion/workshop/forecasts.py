"""What is to be expected of the piece that is open: at once where that costs little, else worked out beside the screen.

A forecaster keeps what it has worked out and is no good to two threads at once. What is worked out beside the screen is
done by one of its own, which is handed over whole once nobody else has it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import Changed
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.workshop.open_piece import OpenPiece

if TYPE_CHECKING:
    from concurrent.futures import Future

    from companion.core.chart.drift import Drift

# What a key may wait for: a reading takes 4 to 10 ms to take in, a plan of so many elements 20 ms; our own measurement.
MOST_READINGS_AT_ONCE = 6
MOST_ELEMENTS_AT_ONCE = 6000


class Charted(Struct, frozen=True):
    """What was measured against the plan, and where it leads, of each entry that is begun; and what it comes to."""

    drifts: tuple[Drift, ...]
    outlook: Outlook


class WorkedOut(Struct, frozen=True):
    """An outlook that was worked out beside the screen, and the forecaster that did it, which nobody else has."""

    opened: OpenPiece
    outlook: Outlook
    forecaster: Forecaster


def new_forecaster(plan: Plan) -> Forecaster:
    """A forecaster of its own for a plan, as the app uses it."""
    return Forecaster(plan, faults=True)


def work_out(opened: OpenPiece) -> WorkedOut:
    """The outlook of that piece, from nothing but its values: safe in any thread."""
    forecaster = new_forecaster(opened.plan)
    return WorkedOut(opened, forecaster.outlook(opened.piece), forecaster)


def charted(opened: OpenPiece) -> Charted:
    """The readings' chart of that piece, from nothing but its values: safe in any thread."""
    from companion.core.chart.drift import drifts

    forecaster = new_forecaster(opened.plan)
    return Charted(drifts(forecaster, opened.piece), forecaster.outlook(opened.piece))


class Forecasts:
    """The forecaster and the latest outlook of one piece. Belongs to one thread."""

    def __init__(self) -> None:
        self._forecasters: dict[tuple[int, tuple[Changed, ...]], Forecaster] = {}
        self._outlooks: dict[tuple[int, int], Outlook] = {}
        self._beside: Future[WorkedOut] | None = None

    def outlook(self, opened: OpenPiece) -> Outlook:
        """What is to be expected of the piece as it stands."""
        key = (opened.id, opened.revision)
        if key not in self._outlooks:
            self.keep(opened, self.suppose(opened, opened.piece))
        return self._outlooks[key]

    def suppose(self, opened: OpenPiece, piece: Piece) -> Outlook:
        """What would be expected of the piece if it stood so. Not kept."""
        return self.forecaster(opened).outlook(piece)

    def keep(self, opened: OpenPiece, outlook: Outlook) -> None:
        """That is the outlook of the piece."""
        self._outlooks = {(opened.id, opened.revision): outlook}

    def forecaster(self, opened: OpenPiece) -> Forecaster:
        """The forecaster of the piece's plan; kept, for it is built once."""
        key = (opened.id, opened.piece.changes)
        if key not in self._forecasters:
            self._forecasters = {key: new_forecaster(opened.plan)}
        return self._forecasters[key]

    # -- beside the screen --------------------------------------------------------------------------------------------

    def costs_little(self, opened: OpenPiece) -> bool:
        """Whether a key can wait for the outlook of the piece."""
        if (opened.id, opened.revision) in self._outlooks:
            return True
        known = self._forecasters.get((opened.id, opened.piece.changes))
        if known is not None:
            return known.new_readings(opened.piece) <= MOST_READINGS_AT_ONCE
        elements = sum(len(strand.elements) for strand in opened.plan.strands)
        return elements <= MOST_ELEMENTS_AT_ONCE and len(opened.piece.readings) <= MOST_READINGS_AT_ONCE

    def beside(self, opened: OpenPiece) -> Future[WorkedOut]:
        """The outlook of the piece, worked out in a thread; where one is under way, that one: one at a time."""
        if self._beside is None or self._beside.done():
            from companion.workshop.beside import started  # threads, for a long piece

            self._beside = started(lambda: work_out(opened), "forecast")
        return self._beside

    def take(self, worked_out: WorkedOut, opened: OpenPiece) -> None:
        """Go on with what was worked out beside. `opened`: the piece as it stands now. Where it has moved on, the late
        outlook is dropped, but the forecaster has less left to do; where its plan is another one, both are."""
        before = worked_out.opened
        if (before.id, before.piece.changes) == (opened.id, opened.piece.changes):
            self._forecasters = {(opened.id, opened.piece.changes): worked_out.forecaster}
            if before.revision == opened.revision:
                self.keep(opened, worked_out.outlook)
