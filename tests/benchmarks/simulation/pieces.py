"""Simulated pieces: designs, cords, makers, rulers and faults, drawn by code that shares nothing with the forecast.

A piece knows what really happened; `card`, `design` and the readings are all that a maker knows.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from companion.core.cord.cord import CardFigures
from companion.core.cord.knot_tests import KnotTest, TouchingRow, figures_from_tests
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Element, End, Knot, Strand

LEFT_MM = 100.0  # cord that must be left at the end
MEANS = {"single": (2.8, 9.0), "double": (4.0, 17.0)}  # length and take-up in cord diameters
SCENARIOS = (
    "nothing wrong", "drift", "step", "bead missed", "bead too many", "knot missed", "misread",
)  # fmt: skip
OUTSIDE_THE_MODEL = ("heavy tails", "piece effect 12 %", "looser by 8 %", "ruler 1 mm long", "tightens overnight")
TWO_SLIPS = "two slips"
PAIRS = (("step", "bead missed"), ("step", "misread"), ("bead missed", "misread"))
TIGHTENS = 0.02  # of a knot's length, overnight
LOOSER = 1.08  # this piece's knots against its maker's test knots
LOST = {"bead missed": Bead, "bead too many": Bead, "knot missed": Knot}
EIGHTHS = 8
INCH = 25.4


@dataclass(frozen=True)
class Truth:
    """What the tension, the cord and the beads of one piece really are: enough to go on with it otherwise. Means and
    `piece` (this piece's factors) are of (length, take-up); `lots` by bead kind; `begin`, `lost`: elements."""

    means: dict[str, tuple[float, float]]
    scatter: float
    piece: tuple[float, float]
    kinds: dict[str, float]
    lots: dict[str, float]
    bead_sd: float
    tension: float
    total: int
    begin: int
    lost: int | None
    heavy: bool
    slips: tuple[str, ...] = ()  # what went wrong


@dataclass
class Simulated:
    """One piece. Lengths in mm. `strand`, `used`: true length and cord used (from the first element) after each step;
    `readings`: (eighth, kind, step index, value); `fault_at`: the element count at which the fault began, or None."""

    design: Design
    card: CardFigures
    diameter_mm: float
    ruler_mm: float
    scenario: str
    steps: list[int]  # elements made after each bead-and-knot step
    strand: np.ndarray
    used: np.ndarray
    planned_knots: int
    free_at_start_mm: float = 0.0
    fault_at: int | None = None
    fault_reading: int | None = None
    readings: list[tuple[int, str, int, float]] = field(default_factory=list)
    truth: Truth | None = None

    @property
    def length_mm(self) -> float:
        return float(self.strand[-1])


def simulate(seed: int, scenario: str, test_knots: int | None = None) -> Simulated:
    """One piece of that scenario; the same seed gives the same one."""
    draw = np.random.default_rng([seed, 20261201])
    cord_mm = draw.uniform(0.5, 1.2)
    ruler_mm = 1.0 if draw.random() < 0.6 else INCH / 16
    kinds, elements, steps, knots = _layout(draw)
    means = {
        k: (w * cord_mm * draw.uniform(0.9, 1.1), t * cord_mm * draw.uniform(0.85, 1.15)) for k, (w, t) in MEANS.items()
    }
    scatter = draw.uniform(0.08, 0.15)
    heavy = scenario == "heavy tails"
    tests = test_knots or int(draw.choice([3, 10]))
    used_kinds = sorted({e.kind for e in elements if isinstance(e, Knot)})
    cord = CordDesign("cord", cord_mm, card="card")
    card = CardFigures("card", tuple((k, _card(draw, cord, k, means[k], scatter, tests, ruler_mm)) for k in used_kinds))
    beads = tuple(BeadKind(key, key, mm, mm) for key, mm in kinds.items())
    tail = End("plain tail", tail_mm=LEFT_MM)
    design = Design("Simulated", cord, beads, (Strand(tuple(elements), End("plain tail", tail_mm=0.0), tail),))
    piece_cv = 0.12 if scenario == "piece effect 12 %" else draw.uniform(0.04, 0.06)
    lengths, takes, fault_at, truth = _work(draw, elements, kinds, means, scatter, piece_cv, scenario, heavy)
    made = _after_steps(lengths, steps)
    cord_used = made + _after_steps(takes, steps)
    piece = Simulated(design, card, cord_mm, ruler_mm, scenario, steps, made, cord_used, knots, fault_at=fault_at)
    if scenario == "tightens overnight":
        knot_part = _after_steps(
            [x if isinstance(e, Knot) else 0.0 for e, x in zip(elements, lengths, strict=True)], steps
        )
        piece.strand = made - TIGHTENS * knot_part[-1] * (np.arange(len(steps)) == len(steps) - 1)
    piece.free_at_start_mm = 0.0
    piece.truth = truth
    _read(draw, piece, made, cord_used)
    return piece


def _layout(draw) -> tuple[dict[str, float], list[Element], list[int], int]:
    knots = int(draw.integers(30, 121))
    kinds = {f"b{n}": float(draw.uniform(4, 12)) for n in range(int(draw.integers(1, 4)))}
    every = int(draw.choice([1, 3]))
    style = draw.choice(["single", "double", "mixed"])
    each = int(draw.integers(2, 7))
    elements: list[Element] = []
    steps = []
    for number in range(1, knots + 1):
        for _ in range(every):
            elements.append(Bead(f"b{int(draw.integers(len(kinds)))}"))
        double = style == "double" or (style == "mixed" and number % each == 0)
        elements.append(Knot("double" if double else "single"))
        steps.append(len(elements))
    return kinds, elements, steps, knots


def _pair(draw, mean, cv, rho, heavy=False):
    """One knot's length and take-up: correlated, each with that scatter."""
    one, two = (draw.standard_t(4) / np.sqrt(2), draw.standard_t(4) / np.sqrt(2)) if heavy else draw.normal(size=2)
    return mean[0] * (1 + cv * one), mean[1] * (1 + cv * (rho * one + np.sqrt(1 - rho**2) * two))


def _ruled(draw, length, step, sd=0.5):
    return float(np.round((length + draw.normal(0, sd)) / step) * step)


def _card(draw, cord, kind, mean, scatter, tests, ruler_mm):
    """A card of so many test knots, each length read with the ruler; then the row of them, touching."""
    rows, row_mm = [], 0.0
    for _ in range(tests):
        w, t = _pair(draw, mean, scatter, 0.5)
        row_mm += w
        before = draw.uniform(180, 320)
        rows.append(KnotTest(_ruled(draw, before, ruler_mm), _ruled(draw, before - t, ruler_mm), 1, ruler_mm))
    touching = (TouchingRow(_ruled(draw, row_mm, ruler_mm), tests, ruler_mm),)
    return figures_from_tests(cord, kind, tuple(rows), touching)


def _work(draw, elements, kinds, means, scatter, piece_cv, scenario, heavy):
    """True length and take-up of every element as it was really made; where the fault began."""
    one, two = draw.normal(size=2)
    looser = LOOSER if scenario == "looser by 8 %" else 1.0
    piece = (looser * (1 + piece_cv * one), looser * (1 + piece_cv * (0.7 * one + np.sqrt(1 - 0.49) * two)))
    lot_sd, bead_sd = draw.uniform(0.01, 0.02), draw.uniform(0.007, 0.013)
    lots = {key: draw.normal(0, lot_sd) for key in kinds}
    total, count = sum(isinstance(e, Knot) for e in elements), len(elements)
    begin = int(draw.uniform(0.05, 0.95) * count)
    slips = PAIRS[int(draw.integers(len(PAIRS)))] if scenario == TWO_SLIPS else (scenario,)
    tension = draw.choice([-1, 1]) * (draw.uniform(0.20, 0.35) if "step" in slips else draw.uniform(0.08, 0.25))
    lost = _lost(elements, int(draw.uniform(0.05, 0.95) * count) if scenario == TWO_SLIPS else begin, slips)
    lengths, takes, number = [], [], 0
    for place, element in enumerate(elements):
        if isinstance(element, Bead):
            mm = kinds[element.key]
            length, take = mm * (1 + lots[element.key] + draw.normal(0, bead_sd)), 0.0
        else:
            number += 1
            factor = 1 + tension * number / total if "drift" in slips else 1.0
            if "step" in slips and place >= begin:
                factor = 1 + tension
            length, take = _pair(draw, means[element.kind], scatter, 0.5, heavy)
            length, take = length * piece[0] * factor, take * piece[1] * factor
        if place == lost:
            times = 2 if "bead too many" in slips else 0
            length, take = length * times, take * times
        lengths.append(length)
        takes.append(take)
    begun = [begin] if "drift" in slips or "step" in slips else []  # a drift is counted from there, though it began at
    begun += [lost] if lost is not None else []  # the first knot
    truth = Truth(means, scatter, piece, kinds, lots, bead_sd, tension, total, begin, lost, heavy, slips)
    return lengths, takes, max(begun, default=None), truth


def _lost(elements, begin, slips):
    """The element that is left out, or strung twice."""
    wanted = next((w for fault, w in LOST.items() if fault in slips), None)
    if wanted is None:
        return None
    after = [n for n in range(begin, len(elements)) if isinstance(elements[n], wanted)]
    return after[0] if after else max(n for n, e in enumerate(elements) if isinstance(e, wanted))


def _after_steps(values, steps) -> np.ndarray:
    sums = np.concatenate([[0.0], np.cumsum(values)])
    return sums[np.array(steps)]


def _read(draw, piece: Simulated, made: np.ndarray, used: np.ndarray) -> None:
    """Strand at each eighth, free cord at every other: what the ruler said."""
    strand_sd, free_sd = draw.uniform(0.7, 1.3), draw.uniform(1.5, 2.5)
    for eighth in range(EIGHTHS + 1):
        step = min(len(piece.steps) - 1, max(0, round(len(piece.steps) * eighth / EIGHTHS) - 1))
        if eighth:
            true = made[step] + (1.0 if piece.scenario == "ruler 1 mm long" else 0.0)
            piece.readings.append((eighth, "strand", step, _ruled(draw, true, piece.ruler_mm, strand_sd)))
        if eighth % 2 == 0:
            spent = used[step] if eighth else 0.0
            piece.readings.append(
                (eighth, "free", step if eighth else -1, -_ruled(draw, spent, piece.ruler_mm, free_sd))
            )
    if "misread" in piece.truth.slips:
        place = int(draw.integers(1, len(piece.readings)))
        if piece.readings[place][0] == 0:
            place += 1
        eighth, kind, step, value = piece.readings[place]
        off = draw.choice([-1, 1]) * draw.choice([5.0, 10.0, INCH])
        piece.readings[place] = (eighth, kind, step, value + off)
        if piece.scenario == "misread":
            piece.fault_reading = place
        piece.fault_at = max(piece.fault_at or 0, piece.steps[max(step, 0)])
