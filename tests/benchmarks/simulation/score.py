"""Put the forecast to the test on simulated pieces: it is given only what a maker knows.

    .venv/bin/python -m tests.benchmarks.simulation.score --pieces 1000 --seed 1 [--scenario step] [--workers 2]
        [--with piece_cv=0.05]

`--with` sets one of the figures of `core/values/assumptions.py` otherwise, to see what it is worth. Figures are chosen
on one seed and reported on another.

Beside it: the plan alone, the rest scaled by measured over planned ("naive"), and the forecast without faults; beside
its cuts "finished + 20 %" and "twice the length". An alarm is weighed by the faults that matter to a length or a cord:
tension, beads, readings (a missed knot can hardly be told, and hardly matters).
"""

from __future__ import annotations

import argparse
import time
from collections import defaultdict
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field

import numpy as np
from msgspec.structs import replace

from companion.core.forecast.counting import suspected_miscount
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.verdicts import MISCOUNT, TENSION
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.cut import margin_mm
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL, Assumptions
from tests.benchmarks.simulation.pieces import LEFT_MM, OUTSIDE_THE_MODEL, SCENARIOS, TWO_SLIPS, Simulated, simulate

POINTS = {2: "25 %", 4: "50 %", 6: "75 %"}
METHODS = ("plan alone", "naive", "without faults", "forecast")
MATTERS = (*MISCOUNT, *TENSION, "misread")
RISKS = (0.002, 0.01, 0.05, 0.20)
TOLERANCE = 0.02  # a share of the planned length, for what hangs on being on length
WARNED_AT = 0.25  # chance of running out at which a maker is warned of the cord


@dataclass
class Result:
    """What came of one piece. Errors in per cent of its length."""

    scenario: str
    test_knots: int
    errors: dict[tuple[int, str], float] = field(default_factory=dict)
    inside: dict[tuple[int, str], bool] = field(default_factory=dict)
    p_fault: list[float] = field(default_factory=list)  # after each occasion: chance of a fault that matters
    leading: list[str] = field(default_factory=list)
    fault_reading: int | None = None  # the first reading that could show it
    begun: dict[int, bool] = field(default_factory=dict)
    ran_out: dict[str, bool] = field(default_factory=dict)  # by the rule of the cut
    left_share: dict[str, float] = field(default_factory=dict)
    p_run_out: dict[int, float] = field(default_factory=dict)  # after the readings of each eighth
    asked: list[bool] = field(default_factory=list)  # after each occasion: whether beads are to be counted
    seconds: list[float] = field(default_factory=list)


def play(seed: int, scenario: str, assumptions: Assumptions = USUAL) -> Result:
    """One piece from card to end."""
    tests = 3 if seed % 2 else 10
    piece = simulate(seed, scenario, tests)
    plan = compile_plan(piece.design, piece.card, assumptions)
    plan = replace(plan, target_mm=plan.finished_length_mm, tolerance_mm=TOLERANCE * plan.finished_length_mm)
    strand = plan.strands[0]
    cut_mm = strand.cut_mm
    result = Result(scenario, tests)
    _cut_by_each_rule(result, strand, float(piece.used[-1]) + LEFT_MM + strand.working_allowance_mm)
    first = next(step.number for step in strand.steps if step.kind == "string")
    with_faults, without = Forecaster(plan, assumptions, faults=True), Forecaster(plan, assumptions)
    readings: list[Measured] = []
    cuts = (CutEntered(0, cut_mm, ""),)
    for number, (eighth, kind, step, value) in enumerate(piece.readings):
        at = first + step if step >= 0 else 0
        length = value if kind == "strand" else cut_mm + value
        readings.append(Measured(kind, at, length, "", piece.ruler_mm))
        if result.fault_reading is None and _shows(piece, number, step):
            result.fault_reading = eighth
        begun = time.process_time()
        made = Piece(plan.total_steps, max(0, at), cuts=cuts, readings=tuple(readings))
        outlook = with_faults.outlook(made)
        result.seconds.append(time.process_time() - begun)
        last_of_eighth = number + 1 == len(piece.readings) or piece.readings[number + 1][0] > eighth
        if last_of_eighth:  # strand and free cord read at one place are one occasion
            result.p_fault.append(min(1.0, sum(fault.p for fault in outlook.faults if fault.kind in MATTERS)))
            result.p_run_out[eighth] = outlook.entries[0].cord.p_run_out
            result.leading.append(outlook.faults[0].kind if outlook.faults else "")
            result.asked.append(suspected_miscount(plan, outlook) is not None)
        if eighth in POINTS and last_of_eighth:
            _score(result, piece, plan, eighth, step, readings, outlook, without.outlook(made))
    return result


def _cut_by_each_rule(result: Result, strand, needed_mm: float) -> None:
    """Whether a cord cut by each rule would have run out, and what share of it would have been left."""
    allowed_mm = LEFT_MM + strand.working_allowance_mm  # the rules of thumb are given tail and working length too
    cuts = {f"{risk:.1%}": strand.need_mm + margin_mm(strand.need_sd_mm, strand.need_degrees, risk) for risk in RISKS}
    cuts["finished + 20 %"] = 1.2 * strand.strand_length_mm + allowed_mm
    cuts["twice the length"] = 2 * strand.strand_length_mm + allowed_mm
    for rule, cut_mm in cuts.items():
        result.ran_out[rule] = needed_mm > cut_mm
        result.left_share[rule] = (cut_mm - needed_mm) / cut_mm


def _shows(piece: Simulated, number: int, step: int) -> bool:
    """Whether that reading could show what went wrong."""
    if piece.fault_reading is not None:
        return number == piece.fault_reading
    return piece.fault_at is not None and step >= 0 and piece.steps[step] > piece.fault_at


def _score(result, piece, plan, eighth, step, readings, outlook, plain) -> None:
    true = piece.length_mm
    planned = plan.strands[0].strand_length_mm
    measured = [reading.length_mm for reading in readings if reading.kind == "strand"][-1]
    here = [s for s in plan.strands[0].steps if s.kind == "string"][step].strand_mm
    guesses = {
        "plan alone": planned,
        "naive": measured + (planned - here) * measured / here,
        "without faults": plain.finished.mean_mm,
        "forecast": outlook.finished.mean_mm,
    }
    for method, guess in guesses.items():
        result.errors[eighth, method] = 100 * (guess - true) / true
    for method, given in (("without faults", plain), ("forecast", outlook)):
        expected = given.finished
        result.inside[eighth, method] = expected.low95_mm <= true <= expected.high95_mm
    result.begun[eighth] = result.fault_reading is not None


def _one(job: tuple[int, str, Assumptions]) -> Result:
    return play(*job)


def table(results: list[Result], scenarios: list[str]) -> None:
    """Print everything."""
    by: dict[str, list[Result]] = defaultdict(list)
    for result in results:
        by[result.scenario].append(result)
    print("error of the forecast strand length, RMSE in % of the length at 25 / 50 / 75 %")
    for scenario in scenarios:
        cells = []
        for method in METHODS:
            rmse = [np.sqrt(np.mean([r.errors[e, method] ** 2 for r in by[scenario]])) for e in POINTS]
            cells.append(f"{method} " + "/".join(f"{value:.2f}" for value in rmse))
        print(f"  {scenario:<20}" + "   ".join(cells))
    print("95 % intervals that hold the truth, % (half way; faults that have begun)")
    for scenario in scenarios:
        chosen = [r for r in by[scenario] if scenario in ("nothing wrong", *OUTSIDE_THE_MODEL) or r.begun[4]]
        for e in POINTS:
            held = [f"{m} {percent([r.inside[e, m] for r in chosen])}" for m in ("forecast", "without faults")]
            print(f"  {scenario:<20}{POINTS[e]}  {'  '.join(held)}")
    if "nothing wrong" in by:
        _alarms(by, scenarios)
    _counts(by, scenarios)
    for scenario in ("nothing wrong", "looser by 8 %"):
        if scenario in by:
            _cuts(by[scenario], scenario)
    _cord_checks(by)
    slow = np.array([s for r in results for s in r.seconds]) * 1000
    middle, slowest = np.median(slow), np.quantile(slow, 0.99)
    print(f"a reading taken in: {middle:.1f} ms in the middle, {slowest:.1f} ms the slowest in a hundred")


def percent(values: Sequence[float], digits: int = 1) -> str:
    """The mean in per cent, a dash where there is nothing to take it of."""
    return f"{100 * sum(values) / len(values):.{digits}f}" if values else "-"


def _alarms(by: dict[str, list[Result]], scenarios: list[str]) -> None:
    worst = [max(r.p_fault) for r in by["nothing wrong"]]
    level = float(np.quantile(worst, 0.95))
    print(f"alarms: level {level:.3f} of P(fault), at which 5 % of faultless pieces have one")
    for scenario in scenarios:
        if scenario in ("nothing wrong", *OUTSIDE_THE_MODEL):
            shares = [percent([max(r.p_fault) > above for r in by[scenario]]) for above in (level, USUAL.alarm_above)]
            print(f"  {scenario:<20}false alarms {shares[0]} % at that level, {shares[1]} % at the program's own")
    for scenario in scenarios:
        chosen = [r for r in by[scenario] if r.fault_reading is not None]
        if not chosen or scenario in ("nothing wrong", *OUTSIDE_THE_MODEL):
            continue
        seen = {"first": [], "second": [], "end": []}
        right = []
        for r in chosen:
            flags = [p > level for p in r.p_fault[r.fault_reading :]]
            seen["first"].append(any(flags[:1]))
            seen["second"].append(any(flags[:2]))
            seen["end"].append(any(flags))
            if any(flags):
                right.append(r.leading[-1] == _called(scenario))
        shares = "/".join(percent(values) for values in seen.values())
        print(f"  {scenario:<20}{shares}  of {len(chosen)}; called by its name at the end {percent(right)} %")


def _counts(by: dict[str, list[Result]], scenarios: list[str]) -> None:
    """How often beads are to be counted: of all pieces, and at the first, second or any occasion after a fault."""
    print("pieces (and readings) whose beads are to be counted, in %; after a fault: at the first/second/by the end")
    for scenario in scenarios:
        mine = by[scenario]
        readings = percent([asked for r in mine for asked in r.asked])
        cells = [f"{percent([any(r.asked) for r in mine])} ({readings})"]
        begun = [r.asked[r.fault_reading :] for r in mine if r.fault_reading is not None]
        if begun:
            cells.append("/".join(percent([any(asked[:most]) for asked in begun]) for most in (1, 2, None)))
        print(f"  {scenario:<20}{'   '.join(cells)}")


def _called(scenario: str) -> str:
    return {"drift": "tension drifting", "step": "tension changed"}.get(scenario, scenario)


def _cuts(results: list[Result], scenario: str) -> None:
    for tests in (3, 10):
        mine = [r for r in results if r.test_knots == tests]
        print(f"cuts, {scenario}, {tests} test knots, {len(mine)} pieces: run out, and left over on average, in %")
        for rule in mine[0].ran_out:
            left = percent([r.left_share[rule] for r in mine])
            print(f"  {rule:<18}{percent([r.ran_out[rule] for r in mine], 2):>6} {left:>6}")


def _cord_checks(by: dict[str, list[Result]]) -> None:
    """Of the pieces whose tension changed and whose 1 % cut runs out: how many were warned of it, and when."""
    tense = [*by.get("step", []), *by.get("drift", [])]
    if tense:
        out = [r for r in tense if r.ran_out["1.0%"]]
        enough = [r for r in tense if not r.ran_out["1.0%"]]
        print(f"cord checks, step and drift: {len(out)} of {len(tense)} run out at their 1 % cut")
        for name, last in (("half way", 4), ("three quarters", 6)):
            print(f"  warned by {name}: {percent([_warned(r, last) for r in out])} % of them")
        print(f"  warned without need by three quarters: {percent([_warned(r, 6) for r in enough])} %")
    calm = [r for r in by.get("nothing wrong", []) if not r.ran_out["1.0%"]]
    if calm:
        print(f"  warned without need with nothing wrong: {percent([_warned(r, 6) for r in calm])} %")


def _warned(result: Result, last_eighth: int) -> bool:
    return any(p >= WARNED_AT for eighth, p in result.p_run_out.items() if eighth <= last_eighth)


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--pieces", type=int, default=200)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--workers", type=int, default=2)
    options.add_argument("--scenario", action="append", choices=[*SCENARIOS, *OUTSIDE_THE_MODEL, TWO_SLIPS])
    options.add_argument("--with", dest="otherwise", action="append", default=[], metavar="FIGURE=VALUE")
    chosen = options.parse_args()
    scenarios = chosen.scenario or list(SCENARIOS)
    figures = dict(one.split("=") for one in chosen.otherwise)
    assumptions = replace(USUAL, **{name: float(value) for name, value in figures.items()})
    jobs = [
        (chosen.seed * 1_000_000 + n, scenario, assumptions) for scenario in scenarios for n in range(chosen.pieces)
    ]
    with ProcessPoolExecutor(chosen.workers) as pool:
        results = list(pool.map(_one, jobs, chunksize=16))
    table(results, scenarios)


if __name__ == "__main__":
    main()
