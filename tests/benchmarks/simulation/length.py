"""Put the verdict on the length to the test on simulated pieces: who is told that it is off, and what comes of it?

    .venv/bin/python -m tests.benchmarks.simulation.length --pieces 100 --seed 9000

Each piece is read at each eighth, as in `pieces.py`; a maker who is asked to count beads or to measure again does so.
Counted, by what really happens: it comes out within what she allows, or outside. In %, by all readings but the last:

- `act`: told that it is off; `last`: after the last of them; `mark`: never told so, but marked as to be watched;
- `mended`: told that it is off, and within what is allowed with the first remedy, chosen then (as in `remedies.py`);
- `again`: asked to measure again; `count`: to count beads;
- `end`: after the last reading, if it is within what is allowed: told anything but that it is well.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from itertools import groupby
from math import nan
from operator import itemgetter

import numpy as np
from msgspec.structs import replace

from companion.core.forecast.counting import suspected_miscount
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import remedies
from companion.core.values.design import Size
from companion.core.words.measured.verdict_words import verdict_line
from tests.benchmarks.simulation.answers import answered
from tests.benchmarks.simulation.pieces import SCENARIOS, Simulated, simulate
from tests.benchmarks.simulation.remedies import end

TOLERANCE = 0.02  # a share of the planned length, for what hangs on being on length


@dataclass(frozen=True)
class Told:
    """What became of one piece's length, and what was said of it by all readings but the last. `again`, `counted`:
    whether she was to measure again, or to count beads. `mended`: whether the first remedy would have brought it within
    what is allowed. `calm`: whether all was said to be well in the end, None if the last reading is not within that."""

    scenario: str
    within: bool
    verdicts: tuple[str, ...]
    again: bool
    counted: bool
    mended: bool
    calm: bool | None

    @property
    def marked(self) -> bool:
        """Whether it was ever to be watched, and never off."""
        return "watch" in self.verdicts and "off" not in self.verdicts


def play(seed: int, scenario: str) -> Told:
    """One piece, and the first remedy to its end where it is said to be off."""
    made = simulate(seed, scenario)
    bare = compile_plan(made.design, made.card)
    allowed_mm = TOLERANCE * bare.finished_length_mm
    size = Size("length", bare.finished_length_mm, 0.0, allowed_mm)
    plan = compile_plan(replace(made.design, size=size), made.card)
    occasions = list(_read(made, plan, np.random.default_rng([seed, 6])))
    *before, last = occasions
    piece, outlook = last.answered
    last_mm = next(one.length_mm for one in reversed(piece.readings) if one.kind == "strand")
    return Told(
        scenario,
        _is_within(plan, made.length_mm),
        tuple(one.answered[1].verdict for one in before),
        any(one.asked.verdict == "measure again" for one in before),
        any(suspected_miscount(plan, one.asked) is not None for one in before),
        next((_is_mended(seed, made, plan, *one.answered) for one in before if one.is_off), False),
        verdict_line(plan, piece, outlook).level == "quiet" if _is_within(plan, last_mm) else None,
    )


@dataclass(frozen=True)
class Occasion:
    """What is expected when all is read at one place, and the piece and what is expected once she has answered."""

    asked: Outlook
    answered: tuple[Piece, Outlook]

    @property
    def is_off(self) -> bool:
        """Whether the length is then said to be off."""
        return self.answered[1].verdict == "off"


def _read(made: Simulated, plan: Plan, draw: np.random.Generator) -> Iterator[Occasion]:
    """Each eighth: strand and free cord read at one place are one occasion."""
    first = next(step.number for step in plan.strands[0].steps if step.kind == "string")
    cut_mm, forecaster = plan.strands[0].cut_mm, Forecaster(plan, faults=True)
    piece = Piece(plan.total_steps, cuts=(CutEntered(0, cut_mm, ""),))
    for eighth, taken in groupby(made.readings, key=itemgetter(0)):
        for _, kind, step, value in taken:
            length_mm = value if kind == "strand" else cut_mm + value
            reading = Measured(kind, first + step if step >= 0 else 0, length_mm, "", made.ruler_mm)
            piece = replace(piece, done=reading.step, readings=(*piece.readings, reading))
        if eighth:
            asked = forecaster.outlook(piece)
            piece, outlook = answered(draw, made, plan, forecaster, piece)
            yield Occasion(asked, (piece, outlook))


def _is_within(plan: Plan, length_mm: float) -> bool:
    assert plan.target_mm is not None
    assert plan.tolerance_mm is not None
    return abs(length_mm - plan.target_mm) <= plan.tolerance_mm


def _is_mended(seed: int, made: Simulated, plan: Plan, piece: Piece, outlook: Outlook) -> bool:
    """Whether the first remedy for the length, chosen there, would bring it within what is allowed."""
    found = next((one for one in remedies(plan, piece, outlook) if not one.leaves_length), None)
    return found is not None and _is_within(plan, end(seed, made, plan, piece, found)[0])


def _one(job: tuple[int, str]) -> Told:
    return play(*job)


def table(told: Iterable[Told]) -> Iterable[str]:
    """What is counted, a line for each scenario and what came of it."""
    by = defaultdict(list)
    for one in told:
        by["all", one.within].append(one)
        by[one.scenario, one.within].append(one)
    names = ("act", "mark", "last", "mended", "again", "count", "end")
    yield f"{'':<20}{'came out':<10}{'pieces':>7}" + "".join(f"{name:>8}" for name in names)
    for (scenario, within), mine in sorted(by.items()):
        calm = [one.calm for one in mine if one.calm is not None]
        shares = (
            sum("off" in one.verdicts for one in mine) / len(mine),
            sum(one.marked for one in mine) / len(mine),
            sum(one.verdicts[-1] == "off" for one in mine) / len(mine),
            sum(one.mended for one in mine) / len(mine),
            sum(one.again for one in mine) / len(mine),
            sum(one.counted for one in mine) / len(mine),
            1 - sum(calm) / len(calm) if calm else nan,
        )
        cells = "".join(f"{100 * share:8.1f}" for share in shares)
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
