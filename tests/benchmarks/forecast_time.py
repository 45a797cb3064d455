"""What a reading costs: processor time of taking in one more at 400 knots, by how many there are already.

    .venv/bin/python -m tests.benchmarks.forecast_time [--knots 400] [--readings 30] [--runs 7] [--profile]

Processor time of this process alone. A busy machine still slows it, so the least of the runs is told too. Each reading
is taken in by a forecaster that knows those before it, as while a piece is followed.
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
import time
from statistics import median

import numpy as np

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand

CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)), ("double", KnotNumbers(10, 3))))
GLASS, SILVER = BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 2, 5, 1.2)
REPEAT = (Bead("g"), Knot("single"), Bead("g"), Knot("single"), Bead("s"), Knot("double"))
LOOSER_CV, RULER_MM = 0.02, 1.0  # this piece against its plan, a share of the length; one reading


def plan_of(knots: int) -> Plan:
    """A piece of so many knots."""
    layout = (Repeat(knots // 3, REPEAT),)
    return compile_plan(Design("Bench", CORD, (GLASS, SILVER), (Strand(layout),), Size("length", 22.0 * knots / 3)))


def piece_of(plan: Plan, readings: int, seed: int) -> Piece:
    """Readings at equal distances, every fourth of the free cord: a piece that runs a little looser or tighter."""
    draw = np.random.default_rng([seed, 11])
    looser = draw.normal(0, LOOSER_CV)
    steps = [step for step in plan.strands[0].steps if step.kind == "string"]
    taken = []
    for number in range(1, readings + 1):
        step = steps[len(steps) * number // (readings + 1)]
        free = number % 4 == 0
        more_mm = looser * step.strand_mm
        mm = step.free_cord_mm - 2 * more_mm if free else step.strand_mm + more_mm
        mm = round(mm + draw.normal(0, RULER_MM * (2 if free else 1)))
        taken.append(Measured("free" if free else "strand", step.number, mm, ""))
    return Piece(plan.total_steps, taken[-1].step, readings=tuple(taken))


def milliseconds(plan: Plan, piece: Piece) -> list[float]:
    """What each of the piece's readings takes, one after the other."""
    forecaster = Forecaster(plan, faults=True)
    found = []
    for count in range(1, len(piece.readings) + 1):
        readings = piece.readings[:count]
        begun = time.process_time()
        forecaster.outlook(Piece(piece.total_steps, readings[-1].step, readings=readings))
        found.append(1000 * (time.process_time() - begun))
    return found


def main() -> None:
    """Measure, and print; or say where the time goes."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--knots", type=int, default=400)
    parser.add_argument("--readings", type=int, default=30)
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--profile", action="store_true")
    asked = parser.parse_args()
    plan = plan_of(asked.knots)
    if asked.profile:
        profile = cProfile.Profile()
        profile.runcall(milliseconds, plan, piece_of(plan, asked.readings, 1))
        pstats.Stats(profile).sort_stats("tottime").print_stats(25)
        return
    runs = [milliseconds(plan, piece_of(plan, asked.readings, seed)) for seed in range(asked.runs)]
    for number in sorted({1, 5, 10, 20, asked.readings} & set(range(1, asked.readings + 1))):
        taken = [run[number - 1] for run in runs]
        least, middle = min(taken), median(taken)
        print(f"reading {number:3} of {asked.knots} knots: {least:6.1f} ms at least, {middle:6.1f} in the middle")


if __name__ == "__main__":
    main()
