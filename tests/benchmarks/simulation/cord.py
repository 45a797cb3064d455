"""Put the cord's verdict to the test on simulated pieces: who is told that the cord ends before the last knot?

    .venv/bin/python -m tests.benchmarks.simulation.cord --pieces 100 --seed 5000

Each piece is read at each eighth, as in `pieces.py`, from a cord of the planned length or from one that is up to 25 %
shorter and entered as it is. Counted, by what really happens: the cord ends before the last knot; it reaches, with less
left than the hands need to tie; it reaches with room to spare. An alarm says that the cord ends before the last knot; a
warning is any word but "enough". `last` is the word after the last reading before the end, `ever` that of any reading.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import Literal

import numpy as np

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from tests.benchmarks.simulation.pieces import EIGHTHS, SCENARIOS, simulate

Came = Literal["ran out", "reached, little left", "room to spare"]
CUTS = ("as planned", "shorter")
LEAST_CUT = 0.75  # of the planned one
READ = EIGHTHS - 1  # eighths; at the last one all knots are tied


@dataclass(frozen=True)
class Told:
    """What became of one piece's cord, and what was said of it at each eighth."""

    cut: str
    came: Came
    verdicts: tuple[str, ...]

    @property
    def alarmed(self) -> bool:
        """Whether it was ever said that the cord ends before the last knot."""
        return "runs out" in self.verdicts

    @property
    def warned(self) -> bool:
        """Whether anything but "enough" was ever said."""
        return any(one != "enough" for one in self.verdicts)


def play(seed: int, scenario: str, cut: str) -> Told:
    """One piece from its first to its last eighth but one."""
    made = simulate(seed, scenario)
    plan = compile_plan(made.design, made.card)
    strand = plan.strands[0]
    draw = np.random.default_rng([seed, 5])
    cut_mm = strand.cut_mm * (draw.uniform(LEAST_CUT, 1.0) if cut == "shorter" else 1.0)
    left_mm = cut_mm - float(made.used[-1])  # at the last knot
    came: Came = "ran out" if left_mm < 0 else "reached, little left"
    if left_mm >= strand.working_allowance_mm:
        came = "room to spare"
    first = next(step.number for step in strand.steps if step.kind == "string")
    forecaster = Forecaster(plan, faults=True)
    readings: list[Measured] = []
    verdicts = []
    for eighth in range(READ + 1):
        for at, kind, step, value in made.readings:
            if at == eighth and (step < 0 or made.used[step] < cut_mm):  # a cord that has ended is not measured
                length_mm = value if kind == "strand" else cut_mm + value
                readings.append(
                    Measured(kind, first + step if step >= 0 else 0, max(length_mm, 1.0), "", made.ruler_mm)
                )
        done = readings[-1].step if readings else 0
        piece = Piece(plan.total_steps, done, cuts=(CutEntered(0, cut_mm, ""),), readings=tuple(readings))
        verdicts.append(forecaster.outlook(piece).entries[0].cord.verdict)
    return Told(cut, came, tuple(verdicts))


def table(results: Iterable[Told]) -> None:
    """How many of each sort were told what, in per cent."""
    groups: dict[tuple[str, Came], list[Told]] = defaultdict(list)
    for one in results:
        groups[one.cut, one.came].append(one)
        groups["all", one.came].append(one)
    print("cut          came to                 pieces  ever alarmed  ever warned  last alarmed  last warned")
    for (cut, came), told in sorted(groups.items()):
        shares = (
            [one.alarmed for one in told],
            [one.warned for one in told],
            [one.verdicts[-1] == "runs out" for one in told],
            [one.verdicts[-1] != "enough" for one in told],
        )
        said = "".join(f"{100 * sum(share) / len(told):13.1f}" for share in shares)
        print(f"{cut:12} {came:22} {len(told):7} {said}")


def main() -> None:
    """Simulate, and print the table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--pieces", type=int, default=100, help="of each scenario and each sort of cut")
    parser.add_argument("--seed", type=int, default=5000)
    asked = parser.parse_args()
    wanted = [
        (asked.seed + number, scenario, cut) for number in range(asked.pieces) for scenario in SCENARIOS for cut in CUTS
    ]
    with ProcessPoolExecutor() as pool:
        table(pool.map(play, *zip(*wanted, strict=True), chunksize=8))


if __name__ == "__main__":
    main()
