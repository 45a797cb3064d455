"""Put the remedies to the test on simulated pieces that are forecast out of tolerance half way.

    .venv/bin/python -m tests.benchmarks.simulation.remedies --pieces 200 --seed 3 [--scenario step] [--tolerance 2%]

Each piece is to come out at its plan's length, within a tolerance of 2 % of it unless another is asked for (a share, or
mm). Half way, where the forecast leaves the tolerance, the listed remedies are worked out to the end as its maker
really works: true means, its own scatter, the fault going on. Counted: how many would have come inside by themselves,
with the first remedy, and with the best of those listed, known by the truth. Where Tallycord says "measure again"
that is done first. Going back is strung again from there with the fault put right.
"""

from __future__ import annotations

import argparse
from collections import Counter, defaultdict
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

import numpy as np
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import Remedy, remedies
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, Element, Size
from tests.benchmarks.simulation.pieces import LEFT_MM, OUTSIDE_THE_MODEL, SCENARIOS, Simulated, simulate

HALF_WAY = 4  # eighths


@dataclass
class Result:
    """What came of one piece: None where it was not forecast out of tolerance."""

    scenario: str
    out: bool = False
    off_share: float = 0.0  # how far the forecast was off, in tolerances
    by_itself: bool = False
    listed: int = 0
    first: bool = False
    best: bool = False
    family: str = ""
    first_runs_out: bool = False
    promised: float = 0.0  # the chance that the first was given


def play(seed: int, scenario: str, tolerance: float) -> Result:
    """One piece to half way, and its remedies to the end."""
    piece = simulate(seed, scenario, 3 if seed % 2 else 10)
    bare = compile_plan(piece.design, piece.card)
    tolerance_mm = tolerance * bare.finished_length_mm if tolerance < 1 else tolerance
    size = Size("length", bare.finished_length_mm, 0.0, tolerance_mm)
    plan = compile_plan(replace(piece.design, size=size), piece.card)
    made, outlook = _half_way(np.random.default_rng([seed, 4]), piece, plan)
    assert plan.target_mm is not None
    off_mm = abs(outlook.finished.mean_mm - plan.target_mm)
    result = Result(scenario, out=off_mm > tolerance_mm, off_share=off_mm / tolerance_mm)
    if not result.out:
        return result
    found = remedies(plan, made, outlook)
    result.by_itself = abs(piece.length_mm - plan.target_mm) <= tolerance_mm
    result.listed = len(found)
    if found:
        ends = [end(seed, piece, plan, made, one) for one in found]
        inside = [abs(length_mm - plan.target_mm) <= tolerance_mm for length_mm, _ in ends]
        result.first, result.best = inside[0], any(inside)
        result.family, result.promised = "+".join(found[0].family), found[0].p_in_tolerance or 0.0
        needed_mm = ends[0][1] + LEFT_MM + plan.strands[0].working_allowance_mm
        result.first_runs_out = needed_mm > plan.strands[0].cut_mm and not found[0].join
    return result


def _half_way(draw, piece: Simulated, plan: Plan) -> tuple[Piece, Outlook]:
    """The piece with its readings so far, and what is expected of it; a reading that is doubted is taken again."""
    strand = plan.strands[0]
    first = next(step.number for step in strand.steps if step.kind == "string")
    readings: list[Measured] = []
    true_mm: list[float] = []
    for eighth, kind, step, value in piece.readings:
        if eighth <= HALF_WAY:
            at = first + step if step >= 0 else 0
            readings.append(
                Measured(kind, at, value if kind == "strand" else strand.cut_mm + value, "", piece.ruler_mm)
            )
            used_mm = piece.used[step] if step >= 0 else 0.0
            true_mm.append(piece.strand[step] if kind == "strand" else strand.cut_mm - used_mm)
    cuts = (CutEntered(0, strand.cut_mm, ""),)
    forecaster = Forecaster(plan, USUAL, faults=True)
    made = Piece(plan.total_steps, readings[-1].step, cuts=cuts, readings=tuple(readings))
    outlook = forecaster.outlook(made)
    for _ in range(2):
        misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
        if outlook.verdict != "measure again" or misread is None:
            break
        for number, one in enumerate(readings):
            if one.kind == misread.detail and one.step == misread.to_step:
                again = round((true_mm[number] + draw.normal(0, 1)) / piece.ruler_mm) * piece.ruler_mm
                readings[number] = replace(one, length_mm=float(again))
        made = replace(made, readings=tuple(readings))
        outlook = forecaster.outlook(made)
    return made, outlook


def end(seed: int, piece: Simulated, plan: Plan, made: Piece, remedy: Remedy) -> tuple[float, float]:
    """True finished length and cord used, mm, if the maker goes on as that remedy says."""
    strand = plan.strands[0]
    right_again = remedy.back_to is not None
    done = made.done if remedy.back_to is None else remedy.back_to
    elements = strand.steps[done - 1].elements
    rest = remedy.rests[0].elements if remedy.rests else strand.elements[elements:]
    before = [step for step, count in enumerate(piece.steps) if count <= elements]
    length_mm, used_mm = (float(sums[before[-1]]) if before else 0.0 for sums in (piece.strand, piece.used))
    number = len(before)  # every step of these pieces has one knot
    longer = remedy.knots_longer
    more, cord = _rest(np.random.default_rng([seed, 5]), piece, rest, elements, number, right_again, longer)
    return length_mm + more + remedy.closure_mm, used_mm + cord


def _rest(
    draw, piece: Simulated, rest: Sequence[Element], begin: int, knots: int, right_again: bool, longer: float
) -> tuple[float, float]:
    """Length of these elements strung from element `begin` on, and the cord they take; what has been drawn for one
    place is the same whatever is strung there."""
    truth = piece.truth
    noise = draw.normal(size=(len(rest) + 200, 2))
    lost = None if right_again else _lost_again(piece, rest, begin)
    length_mm = take_up_mm = 0.0
    for place, element in enumerate(rest):
        one, two = noise[place]
        if isinstance(element, Bead):
            length, take = truth.kinds[element.key] * (1 + truth.lots[element.key] + truth.bead_sd * one), 0.0
        elif hasattr(element, "kind"):
            knots += 1
            factor = _tension(piece, knots, begin + place, right_again) * (1 + longer)
            mean, both = truth.means[element.kind], 0.5 * one + np.sqrt(0.75) * two
            length = mean[0] * (1 + truth.scatter * one) * truth.piece[0] * factor
            take = mean[1] * (1 + truth.scatter * both) * truth.piece[1] * factor
        else:
            length, take = element.length_mm, 0.0
        times = 1 if place != lost else 2 if piece.scenario == "bead too many" else 0
        length_mm, take_up_mm = length_mm + times * length, take_up_mm + times * take
    return float(length_mm), float(length_mm + take_up_mm)


def _tension(piece: Simulated, knot: int, place: int, right_again: bool) -> float:
    truth = piece.truth
    if piece.scenario == "drift":  # a drift has no place to go back to
        return 1 + truth.tension * knot / truth.total
    if piece.scenario == "step" and place >= truth.begin and not right_again:
        return 1 + truth.tension
    return 1.0


def _lost_again(piece: Simulated, rest: Sequence[Element], begin: int) -> int | None:
    """Where in the rest the fault still comes, if it does: at the same place, or the next of its kind."""
    lost = piece.truth.lost
    if lost is None or lost < begin:
        return None
    beads = piece.scenario != "knot missed"
    return next((n for n in range(lost - begin, len(rest)) if isinstance(rest[n], Bead) == beads), None)


def _one(job: tuple[int, str, float]) -> Result:
    return play(*job)


def table(results: Sequence[Result], scenarios: Sequence[str]) -> None:
    """Print everything."""
    by: dict[str, list[Result]] = defaultdict(list)
    for result in results:
        by[result.scenario].append(result)
    print(f"{'of pieces forecast out of tolerance':<22} pieces   out  none   by itself  first  best listed  promised")
    for scenario in [*scenarios, "all"]:
        mine = results if scenario == "all" else by[scenario]
        out = [r for r in mine if r.out]
        if not out:
            print(f"{scenario:<36}{len(mine):>6}{0:>6}")
            continue
        share = {
            name: f"{100 * np.mean([getattr(r, name) for r in out]):.0f} %" for name in ("by_itself", "first", "best")
        }
        none = sum(r.listed == 0 for r in out)
        promised = 100 * np.mean([r.promised for r in out])
        print(
            f"{scenario:<36}{len(mine):>6}{len(out):>6}{none:>6}{share['by_itself']:>12}{share['first']:>7}"
            f"{share['best']:>13}{promised:>8.0f} %"
        )
    out = [r for r in results if r.listed]
    print(
        "first remedies:",
        ", ".join(f"{family} {count}" for family, count in Counter(r.family for r in out).most_common()),
    )
    print(f"ran out of cord on the first remedy: {sum(r.first_runs_out for r in out)} of {len(out)}")


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--pieces", type=int, default=200)
    options.add_argument("--seed", type=int, default=3)
    options.add_argument("--workers", type=int, default=2)
    options.add_argument("--tolerance", default="2%", help="a share such as 2%%, or mm")
    options.add_argument("--scenario", action="append", choices=[*SCENARIOS, *OUTSIDE_THE_MODEL])
    chosen = options.parse_args()
    text = chosen.tolerance
    tolerance = float(text[:-1]) / 100 if text.endswith("%") else float(text)
    scenarios = chosen.scenario or list(SCENARIOS)
    jobs = [(chosen.seed * 1_000_000 + n, one, tolerance) for one in scenarios for n in range(chosen.pieces)]
    with ProcessPoolExecutor(chosen.workers) as pool:
        results = list(pool.map(_one, jobs, chunksize=16))
    table(results, scenarios)


if __name__ == "__main__":
    main()
