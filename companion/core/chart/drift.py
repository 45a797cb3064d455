"""How far a strand is from its plan, along its length: what was read of it, what is still to come, and where it has to
end. All of it comes from the forecast; nothing is added up in a second place."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.forecast.forecaster import Forecaster, expected
from companion.core.forecast.observations import elements_made, elements_read, ruler_mm
from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import NAMED_FROM
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import STRAND, Quantity
from companion.core.values.expected import Expected

MOST_PLACES = 24  # still to come, at which the band is worked out; between them it is straight
CORD_FAULTS = ("cut shorter", "cut longer", "cord shortened")  # these leave the strand as long as it is


class ReadStrand(Struct, frozen=True):
    """A ruler reading of the strand after step `step` of the piece. `set_aside`: later ones contradict it."""

    step: int
    planned_mm: float
    length_mm: float
    set_aside: bool = False

    @property
    def off_mm(self) -> float:
        """Measured minus planned, mm."""
        return self.length_mm - self.planned_mm


class Foretold(Struct, frozen=True):
    """The strand as it will be after step `step` of the piece. `off`: expected minus planned."""

    step: int
    planned_mm: float
    off: Expected


class Gate(Struct, frozen=True):
    """How far off the plan the strand may end, from low to high, for the piece to be within its tolerance, mm."""

    low_mm: float
    high_mm: float


class Suspected(Struct, frozen=True):
    """Something that may have gone wrong, and where along the strand it began, as planned."""

    kind: str
    p: float
    planned_mm: float


class Drift(Struct, frozen=True):
    """One entry of a piece (from 0). `length_mm`: its whole strand as planned; `now_mm`: what is done of it, as
    planned; `coming`: from now to its end, none where nothing is left; `finished_off_mm`: how far the piece came out
    from its plan, where that is known and this entry alone made its length; `finished_mm`: that length itself."""

    entry: int
    length_mm: float
    now_mm: float
    readings: tuple[ReadStrand, ...]
    coming: tuple[Foretold, ...]
    gate: Gate | None
    suspected: Suspected | None
    finished_off_mm: float | None = None
    finished_mm: float | None = None


def drifts(forecaster: Forecaster, piece: Piece) -> tuple[Drift, ...]:
    """The drift of every entry that is begun, the one being worked on first."""
    plan, outlook = forecaster.plan, forecaster.outlook(piece)
    in_hand = plan.place(max(1, min(piece.done + 1, plan.total_steps)))[0]
    begun = [entry for entry in range(len(plan.strands)) if elements_made(plan, entry, piece.done)]
    order = dict.fromkeys((in_hand, *begun))
    return tuple(_drift(forecaster, piece, outlook, entry) for entry in order)


def _drift(forecaster: Forecaster, piece: Piece, outlook: Outlook, entry: int) -> Drift:
    plan = forecaster.plan
    strand, done = plan.strands[entry], outlook.entries[entry].done
    ended = piece.state == "finished" or elements_made(plan, entry, piece.done) == len(strand.elements)
    return Drift(
        entry,
        max(strand.strand_length_mm, *(ruler_mm(plan, entry, number) for number in (done, len(strand.steps)))),
        ruler_mm(plan, entry, done),
        tuple(_readings(plan, piece, outlook, entry)),
        () if ended else tuple(_coming(forecaster, piece, entry, done)),
        _gate(plan, outlook, entry),
        None if _came_out_well(plan, piece) else _suspected(plan, outlook, entry),
        _finished_off_mm(plan, piece, outlook, entry),
        piece.finished_mm,
    )


def _readings(plan: Plan, piece: Piece, outlook: Outlook, entry: int) -> Iterator[ReadStrand]:
    for reading in piece.readings:
        if reading.kind == "strand" and elements_read(plan, reading):
            place, number = plan.place(reading.step)
            if place == entry:
                planned_mm = ruler_mm(plan, entry, number)
                aside = any(reading is other for other in outlook.set_aside)
                yield ReadStrand(reading.step, planned_mm, reading.length_mm, aside)


def _coming(forecaster: Forecaster, piece: Piece, entry: int, done: int) -> Iterator[Foretold]:
    plan, (evidence, _, _) = forecaster.plan, forecaster.believed(piece)
    for number in _places(plan, entry, done):
        step = plan.strands[entry].steps[number - 1] if number else None
        quantity = Quantity(entry, step.elements if step else 0, STRAND)
        planned_mm = step.strand_mm if step else 0.0
        found = expected(forecaster.estimator.mixture(evidence, [quantity]))
        off = Expected(
            found.mean_mm - planned_mm, found.sd_mm, found.low95_mm - planned_mm, found.high95_mm - planned_mm
        )
        yield Foretold(plan.piece_step(entry, number), ruler_mm(plan, entry, number), off)


def _places(plan: Plan, entry: int, done: int) -> list[int]:
    """The steps of an entry at which the band is worked out: the present one, evenly on, and the last that adds to
    the strand."""
    last = max(step.number for step in plan.strands[entry].steps if step.kind == "string")
    left = last - done
    parts = min(MOST_PLACES, left)
    return [done + left * part // parts for part in range(parts + 1)] if parts > 0 else [last]


def _gate(plan: Plan, outlook: Outlook, entry: int) -> Gate | None:
    """What closes the piece, how far the knots settle and, of two sides, the other side are taken as expected."""
    if plan.target_mm is None or plan.tolerance_mm is None or entry not in plan.longest:
        return None
    here = outlook.entries[entry].strand_end.mean_mm
    aim_mm = plan.target_mm - (outlook.finished.mean_mm - here) - plan.strands[entry].strand_length_mm
    return Gate(aim_mm - plan.tolerance_mm, aim_mm + plan.tolerance_mm)


def _finished_off_mm(plan: Plan, piece: Piece, outlook: Outlook, entry: int) -> float | None:
    if piece.finished_mm is None or plan.longest != (entry,):
        return None
    beside_mm = outlook.finished.mean_mm - outlook.entries[entry].strand_end.mean_mm
    return piece.finished_mm - beside_mm - plan.strands[entry].strand_length_mm


def _came_out_well(plan: Plan, piece: Piece) -> bool:
    """Whether it is finished within what was allowed: then nothing has gone wrong."""
    if piece.finished_mm is None or plan.target_mm is None or plan.tolerance_mm is None:
        return False
    return abs(piece.finished_mm - plan.target_mm) <= plan.tolerance_mm


def _suspected(plan: Plan, outlook: Outlook, entry: int) -> Suspected | None:
    """The likeliest fault of this strand, where it is likely enough to be told."""
    found = [fault for fault in outlook.faults if fault.entry == entry and _is_seen(fault)]
    if not found:
        return None
    fault = max(found, key=lambda one: one.p)
    number = fault.to_step if fault.kind == "misread" else fault.from_step - 1
    begins = 0 if fault.kind == "tension drifting" or number < 1 else number
    return Suspected(fault.kind, fault.p, ruler_mm(plan, entry, begins))


def _is_seen(fault: Fault) -> bool:
    of_strand = fault.kind not in CORD_FAULTS and (fault.kind != "misread" or fault.detail == "strand")
    return of_strand and fault.p >= NAMED_FROM
