"""Put the verdict on the length to the test on simulated pieces: who is told to keep an eye on it, or that it is off?

    .venv/bin/python -m tests.benchmarks.simulation.length --pieces 100 --seed 9000

Each piece is read at each eighth, as in `pieces.py`, up to the last but one. Counted, by what really happens: it comes
out within what the maker allows, or outside. `ever` and `last`: the share, in %, that was told "watch" or "off" at any
reading, or after the last one; `again`: that was ever asked to measure again, `count`: to count beads.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from msgspec.structs import replace

from companion.core.forecast.counting import suspected_miscount
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from tests.benchmarks.simulation.pieces import EIGHTHS, SCENARIOS, simulate

TOLERANCE = 0.02  # a share of the planned length, for what hangs on being on length
LENGTH = ("watch", "off")


@dataclass(frozen=True)
class Told:
    """What became of one piece's length, what was said of it after each eighth, and whether beads were to be
    counted."""

    scenario: str
    within: bool
    verdicts: tuple[str, ...]
    counted: bool

    @property
    def warned(self) -> bool:
        """Whether the length was ever said to need an eye or to be off."""
        return any(one in LENGTH for one in self.verdicts)


def play(seed: int, scenario: str) -> Told:
    """One piece up to its last eighth but one."""
    made = simulate(seed, scenario)
    plan = compile_plan(made.design, made.card)
    allowed_mm = TOLERANCE * plan.finished_length_mm
    plan = replace(plan, target_mm=plan.finished_length_mm, tolerance_mm=allowed_mm)
    first = next(step.number for step in plan.strands[0].steps if step.kind == "string")
    cut_mm, readings, outlooks = plan.strands[0].cut_mm, [], {}
    forecaster = Forecaster(plan, faults=True)
    for eighth, kind, step, value in made.readings:
        if eighth == EIGHTHS:
            break
        at = first + step if step >= 0 else 0
        readings.append(Measured(kind, at, value if kind == "strand" else cut_mm + value, "", made.ruler_mm))
        piece = Piece(plan.total_steps, at, cuts=(CutEntered(0, cut_mm, ""),), readings=tuple(readings))
        outlooks[eighth] = forecaster.outlook(piece)  # strand and free cord read at one place are one occasion
    within = abs(made.length_mm - plan.strands[0].strand_length_mm) <= allowed_mm
    counted = any(suspected_miscount(plan, one) is not None for one in outlooks.values())
    return Told(scenario, within, tuple(one.verdict for one in outlooks.values()), counted)


def _one(job: tuple[int, str]) -> Told:
    return play(*job)


def table(told: Iterable[Told]) -> Iterable[str]:
    """What is counted, a line for each scenario and what came of it."""
    by = defaultdict(list)
    for one in told:
        by["all", one.within].append(one)
        by[one.scenario, one.within].append(one)
    yield f"{'':<20}{'came out':<10}{'pieces':>7}{'ever':>7}{'last':>7}{'again':>7}{'count':>7}"
    for (scenario, within), mine in sorted(by.items()):
        shares = (
            sum(one.warned for one in mine),
            sum(one.verdicts[-1] in LENGTH for one in mine),
            sum("measure again" in one.verdicts for one in mine),
            sum(one.counted for one in mine),
        )
        cells = "".join(f"{100 * share / len(mine):7.1f}" for share in shares)
        yield f"{scenario:<20}{'within' if within else 'outside':<10}{len(mine):7}{cells}"


def main() -> None:
    """Simulate, and print."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--pieces", type=int, default=100, help="of each scenario")
    options.add_argument("--seed", type=int, default=9000)
    options.add_argument("--workers", type=int, default=2)
    chosen = options.parse_args()
    jobs = [(chosen.seed * 1_000_000 + n, scenario) for scenario in SCENARIOS for n in range(chosen.pieces)]
    with ProcessPoolExecutor(chosen.workers) as pool:
        told = list(pool.map(_one, jobs, chunksize=8))
    print("\n".join(table(told)))


if __name__ == "__main__":
    main()
