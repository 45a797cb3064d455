"""What would put a piece right, in its length or in its cord: changes a maker could really make, with what each gives.

The kinds of change are in the files beside this one. Here they are screened by the length they would give, the best are
forecast exactly, and those for which there is too little cord are dropped.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from companion.core.forecast.outlook import Outlook
from companion.core.forecast.verdicts import near_enough_mm, worth_telling_mm
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.ending import at_the_end, other_closure
from companion.core.remedies.evaluation import LEAST_GAIN, Baseline
from companion.core.remedies.fresh_cut import fresh_cut
from companion.core.remedies.going_back import going_back
from companion.core.remedies.joining import go_on, join
from companion.core.remedies.knots import every_third, other_knots, singles_for_doubles
from companion.core.remedies.ranking import ranked
from companion.core.remedies.remedy import Candidate, Remedy
from companion.core.remedies.repeats import fewer_repeats, more_or_fewer_repeats
from companion.core.remedies.tension import other_tension
from companion.core.values.assumptions import USUAL, Assumptions

MOST_FORECAST = 12
MOST_OF_A_FAMILY = 2
LEAST_SHORT_MM = 1.0  # of cord: fewer repeats save at least so much


def remedies(
    plan: Plan,
    piece: Piece,
    outlook: Outlook,
    assumptions: Assumptions = USUAL,
    faults: bool = True,
    nearer: bool = False,
) -> tuple[Remedy, ...]:
    """Changes that would bring the piece to its target, or make its cord reach; about six at most, the best first.

    `outlook`: the forecast for the piece as it stands; `faults`: whether it includes what may have gone wrong;
    `nearer`: whether a length that is on plan should still be brought nearer to its target. Nothing is offered for the
    length without a target, or if she should measure again first; nothing for the cord while there is enough. Empty
    once nothing is left that could be changed.
    """
    baseline = Baseline(plan, piece, outlook, assumptions, faults)
    found: list[Remedy] = []
    if _length_matters(plan, piece, outlook, nearer):
        found += other_tension(baseline)
        found += _for_length(baseline)
        found += going_back(baseline)
    if baseline.cord.verdict != "enough" and piece.done < plan.total_steps:
        found += _for_cord(baseline)
    if baseline.cord.verdict == "runs out":  # those that leave it so go, unless only joining is left then
        reach = [one for one in found if one.family[0] == "join" or one.p_run_out < 1 - assumptions.held_above]
        found = reach if any(one.family[0] != "join" for one in reach) else found
    return ranked(found)


def _length_matters(plan: Plan, piece: Piece, outlook: Outlook, nearer: bool) -> bool:
    """Whether the length needs putting right. One that is on plan may still be brought nearer, if the maker asks for it
    or has counted beads that are missing or too many."""
    if plan.target_mm is None or outlook.verdict in ("no target", "measure again"):
        return False
    if outlook.verdict != "on plan":
        return True
    asked = nearer or any(one.beads for one in piece.counted)
    return asked and abs(outlook.finished.mean_mm - plan.target_mm) >= worth_telling_mm(plan, piece)


# -- the length -------------------------------------------------------------------------------------------------------


def _for_length(baseline: Baseline) -> Iterator[Remedy]:
    """What brings the length nearer: each change alone, and repeats together with something smaller."""
    basis = baseline.basis(baseline.plan.longest)
    off_mm = -baseline.over_mm
    found = _length_candidates(basis, off_mm, near_enough_mm(baseline.plan))
    for candidate in _screened(((one, _left_mm(basis, one, off_mm)) for one in found), off_mm):
        remedy = baseline.remedy(candidate) if basis.all_hold(candidate.edits) else None
        if remedy and baseline.is_bettered_by(remedy):
            yield remedy


def _length_candidates(basis: RemedyBasis, off_mm: float, enough_mm: float) -> Iterator[Candidate]:
    for repeats in more_or_fewer_repeats(basis, off_mm):
        yield repeats
        left_mm = _left_mm(basis, repeats, off_mm)
        if abs(left_mm) >= enough_mm:
            yield from (repeats.and_also(other) for other in other_knots(basis, left_mm, repeats.edits))
            yield from (repeats.and_also(other) for other in at_the_end(basis, left_mm))
    yield from other_knots(basis, off_mm)
    yield from at_the_end(basis, off_mm)


def _left_mm(basis: RemedyBasis, candidate: Candidate, off_mm: float) -> float:
    """What is still missing after a change, mm, as far as can be told without a forecast."""
    return off_mm - basis.gain_mm(candidate.edits) - candidate.closure_mm


def _screened(candidates: Iterable[tuple[Candidate, float]], off_mm: float) -> list[Candidate]:
    """The candidates that come nearest, the best two of each family; within a millimetre, one that changes less is
    better.

    `candidates`: each with the length, mm, that would still be missing. Those that come no nearer than doing nothing
    are left out.
    """
    nearer = [(candidate, abs(left_mm)) for candidate, left_mm in candidates if abs(left_mm) < abs(off_mm)]
    nearer.sort(key=lambda one: (one[0].uneven, round(one[1]), one[0].effort))
    counts = Counter[tuple[str, ...]]()
    kept = []
    for candidate, _ in nearer:
        counts[candidate.family] += 1
        if counts[candidate.family] <= MOST_OF_A_FAMILY:
            kept.append(candidate)
    return kept[:MOST_FORECAST]


# -- the cord ---------------------------------------------------------------------------------------------------------


def _for_cord(baseline: Baseline) -> Iterator[Remedy]:
    """What makes a cord reach that otherwise would not: changes, each with the cord it saves, and joining on new
    cord."""
    basis = baseline.basis(baseline.strand_of(baseline.outlook.worst_cord))
    short_mm = max(baseline.cord.short_mm, LEAST_SHORT_MM)
    repeats = sorted(fewer_repeats(basis, short_mm), key=lambda candidate: (candidate.uneven, candidate.effort))
    candidates = [*every_third(basis), *singles_for_doubles(basis), *other_closure(basis), *repeats[:1]]
    for candidate in candidates:
        remedy = baseline.remedy(candidate) if basis.all_hold(candidate.edits) else None
        if remedy and remedy.cord_mm < 0 and _helps_cord(baseline, remedy):
            yield replace(remedy, family=("cord", *remedy.family))
    yield from go_on(baseline)
    cut = list(fresh_cut(baseline))
    yield from cut or join(baseline)


def _helps_cord(baseline: Baseline, remedy: Remedy) -> bool:
    """Whether it makes the cord more likely to reach the last knot, or to be enough after it."""
    cord = baseline.cord
    return remedy.p_run_out < cord.p_run_out - LEAST_GAIN or remedy.p_short < cord.p_short - LEAST_GAIN
