"""What would put a piece right, in its length or in its cord: changes a maker could really make, with what each gives.

The sorts of change are in `companion.core.remedies`; here they are screened by the length they would come to, each of
the best is forecast exactly (its own plan, the same readings), and what the cord does not allow is left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import CordCheck, Outlook
from companion.core.journal.events import Jumped
from companion.core.journal.fold import after
from companion.core.journal.piece import Piece
from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Plan
from companion.core.plan.replan import changed_plan
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.ending import at_the_end, other_end
from companion.core.remedies.going_back import way_back
from companion.core.remedies.knots import by_knots, every_third, fewer_doubles
from companion.core.remedies.ranking import ranked
from companion.core.remedies.remaining_layout import RemainingLayout, edited
from companion.core.remedies.remedy import Idea, Remedy, Rest
from companion.core.remedies.repeats import by_repeats, fewer_for_cord
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.show_lengths import display_unit, show, show_plus_minus
from companion.core.words.verdict_words import join_place

__all__ = ["Remedy", "remedies"]

MOST_FORECAST = 12
# Nearer than this, nothing more is added to a change: a length, or a share of the tolerance.
ENOUGH_MM, ENOUGH_SHARE = 1.0, 0.4
BETTER = 0.01  # chance that a remedy has to win over leaving alone
EFFORT_JOIN = 4.0
UNEVEN = "; the two sides will then differ"


@dataclass(frozen=True, slots=True)
class _Now:
    """The piece as it stands, and how to forecast it otherwise."""

    plan: Plan
    piece: Piece
    outlook: Outlook
    assumptions: Assumptions
    faults: bool

    def otherwise(self, plan: Plan, piece: Piece) -> Outlook:
        """What is to be expected with that plan, or that piece."""
        return Forecaster(plan, self.assumptions, self.faults).outlook(piece)

    @property
    def cord(self) -> CordCheck:
        """The cord that is likeliest to run out."""
        return self.outlook.entries[self.outlook.worst_cord].cord


def remedies(
    plan: Plan, piece: Piece, outlook: Outlook, assumptions: Assumptions = USUAL, faults: bool = True
) -> tuple[Remedy, ...]:
    """Changes that would bring the piece to its target, or let its cord reach; about six at most, the best first.

    `outlook`: what is expected of the piece as it stands; `stories`: whether it was made with them. Nothing is said of
    the length without a target, while it is on plan, or where the ruler is to be laid on again first; nothing of the
    cord while it is enough. Empty once the rest leaves nothing to change.
    """
    now = _Now(plan, piece, outlook, assumptions, faults)
    found: list[Remedy] = []
    if plan.target_mm is not None and outlook.verdict in ("watch", "off", "recount"):
        found += _for_length(now)
        found += _back(now)
    if now.cord.verdict != "enough" and piece.done < plan.total_steps:
        found += _for_cord(now)
    if now.cord.verdict == "runs out":  # what leaves it so is no way out while something else is one
        reach = [one for one in found if one.join or one.p_run_out < 1 - assumptions.runs_out_below]
        found = reach if any(not one.join for one in reach) else found
    return ranked(found)


def _for_length(now: _Now) -> Iterator[Remedy]:
    """What brings the length nearer: each change alone, and repeats made good by something smaller."""
    assert now.plan.target_mm is not None
    basis = RemedyBasis.of(now.plan, RemainingLayout.of(now.plan, now.piece, now.plan.longest), now.outlook)
    off_mm = now.plan.target_mm - now.outlook.finished.mean_mm
    enough_mm = max(ENOUGH_MM, ENOUGH_SHARE * (now.plan.tolerance_mm or 0.0))
    ideas = [(idea, _left_mm(basis, idea, off_mm)) for idea in _length_ideas(basis, off_mm, enough_mm)]
    for idea in _screened(ideas, off_mm):
        remedy = _forecast(now, idea) if basis.all_hold(idea.edits) else None
        if remedy and _better(now, remedy):
            yield remedy


def _length_ideas(basis: RemedyBasis, off_mm: float, enough_mm: float) -> Iterator[Idea]:
    for idea in by_repeats(basis, off_mm):
        yield idea
        left_mm = _left_mm(basis, idea, off_mm)
        if abs(left_mm) >= enough_mm:
            yield from (idea.and_also(other) for other in by_knots(basis, left_mm, idea.edits))
            yield from (idea.and_also(other) for other in at_the_end(basis, left_mm))
    yield from by_knots(basis, off_mm)
    yield from at_the_end(basis, off_mm)


def _left_mm(basis: RemedyBasis, idea: Idea, off_mm: float) -> float:
    """What is still missing after an idea, mm, as far as its length can be told without a forecast."""
    return off_mm - basis.gain_mm(idea.edits) - idea.closure_mm


def _screened(ideas: Iterable[tuple[Idea, float]], off_mm: float) -> list[Idea]:
    """The ideas that come nearest, of each family the two best; those that come no nearer than doing nothing left out.

    Within a millimetre, the one that changes less.
    """
    nearer = [(idea, abs(left_mm)) for idea, left_mm in ideas if abs(left_mm) < abs(off_mm)]
    nearer.sort(key=lambda one: (one[0].uneven, round(one[1]), one[0].effort))
    counts: dict[tuple[str, ...], int] = {}
    kept = []
    for idea, _ in nearer:
        counts[idea.family] = counts.get(idea.family, 0) + 1
        if counts[idea.family] <= 2:
            kept.append(idea)
    return kept[:MOST_FORECAST]


def _better(now: _Now, remedy: Remedy) -> bool:
    """Whether a remedy wins something over leaving the piece alone, and the cord in hand allows it."""
    p_now, p = now.outlook.p_in_tolerance or 0.0, remedy.p_in_tolerance or 0.0
    assert now.plan.target_mm is not None
    miss_mm = abs(remedy.finished_mm - now.plan.target_mm)
    nearer = p >= p_now and miss_mm < 0.8 * abs(now.outlook.finished.mean_mm - now.plan.target_mm)
    return (p > p_now + BETTER or nearer) and _cord_allows(now, remedy)


def _cord_allows(now: _Now, remedy: Remedy) -> bool:
    """Whether the cord stays enough, or as likely to reach as it is now.

    The maker's risk is not the measure by itself: it was chosen for a piece that goes well, and the forecast counts
    what may still go wrong besides, which alone is more than one in a hundred.
    """
    most = max(now.plan.risk, 1 - now.assumptions.enough_above, now.cord.p_run_out)
    return remedy.p_run_out <= most + 1e-9


def _forecast(now: _Now, idea: Idea) -> Remedy | None:
    """The idea as a remedy; None where it would change a step that is made already."""
    layout = RemainingLayout.of(now.plan, now.piece, _group(now.plan, idea.entry))
    rests = tuple(
        Rest(side.entry, side.made, edited(side, idea.edits)[side.made :])
        for side in sorted(layout.sides, key=lambda side: side.entry != idea.entry)
        if side.entry == idea.entry or any(edit.entry == side.entry for edit in idea.edits)
    )
    what = f"{idea.words}{UNEVEN if idea.uneven else ''}"
    draft = Remedy(
        "", what, 0.0, 0.0, None, 0.0, 0.0, rests, idea.closure_mm, idea.end_closure,
        family=idea.family, effort=idea.effort, uneven=idea.uneven,
    )  # fmt: skip
    plan = changed_plan(now.plan, (draft.event(0),))
    if not same_steps_made(now.plan, plan, now.piece.done):
        return None
    outlook = now.otherwise(plan, now.piece)
    cord_mm = sum(plan.strands[rest.entry].need_mm - now.plan.strands[rest.entry].need_mm for rest in rests)
    return replace(
        draft,
        text=f"{what}: it would finish at {_finishes(now.plan, outlook)}.",
        finished_mm=outlook.finished.mean_mm,
        half95_mm=outlook.finished.half95_mm,
        p_in_tolerance=outlook.p_in_tolerance,
        cord_mm=cord_mm,
        p_run_out=outlook.entries[outlook.worst_cord].cord.p_run_out,
    )


def _group(plan: Plan, entry: int) -> tuple[int, ...]:
    return next(group for group in strand_groups(plan.strands) if entry in group)


def same_steps_made(plan: Plan, other: Plan, done: int) -> bool:
    """Whether the steps that are made are the same in both plans: each ends at the same element of the same entry."""
    for step in range(1, done + 1):
        try:
            (entry, number), place = plan.place(step), other.place(step)
        except IndexError:
            return False
        mine, theirs = plan.strands[entry].steps[number - 1], other.strands[entry].steps[number - 1]
        if place != (entry, number) or mine.elements != theirs.elements or mine.kind != theirs.kind:
            return False
    return True


def _finishes(plan: Plan, outlook: Outlook) -> str:
    return show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, display_unit(plan.unit))


def _back(now: _Now) -> Iterator[Remedy]:
    """Going back to where the fault began."""
    way = way_back(now.plan, now.piece, now.outlook)
    if way is None:
        return
    outlook = now.otherwise(now.plan, after(now.piece, Jumped(way.step)))
    remedy = Remedy(
        f"{way.words}: it would finish at {_finishes(now.plan, outlook)}.",
        way.words,
        outlook.finished.mean_mm,
        outlook.finished.half95_mm,
        outlook.p_in_tolerance,
        0.0,
        outlook.entries[outlook.worst_cord].cord.p_run_out,
        back_to=way.step,
        family=("back",),
        effort=float(way.knots),
    )
    if _better(now, remedy):
        yield remedy


def _for_cord(now: _Now) -> Iterator[Remedy]:
    """What lets a cord reach that would not: each with the cord it saves."""
    number = now.outlook.worst_cord
    basis = RemedyBasis.of(now.plan, RemainingLayout.of(now.plan, now.piece, _group(now.plan, number)), now.outlook)
    ideas = [
        *every_third(basis),
        *fewer_doubles(basis),
        *other_end(basis),
        *sorted(fewer_for_cord(basis, max(now.cord.short_mm, 1.0)), key=lambda idea: (idea.uneven, idea.effort))[:1],
    ]
    for idea in ideas:
        remedy = _forecast(now, idea) if basis.all_hold(idea.edits) else None
        if remedy and remedy.cord_mm < 0 and remedy.p_run_out < now.cord.p_run_out - BETTER:
            yield replace(remedy, family=("cord", *remedy.family))
    yield _join(now)


def _join(now: _Now) -> Remedy:
    """New cord joined on: the length stays as it is, and the rest of the strand is the maker's own again."""
    least_mm = max(now.cord.short_mm, 0.0)
    shown = show(least_mm, display_unit(now.plan.unit))
    what = f"Join new cord on, at least {shown} more a layer" if least_mm else "Join new cord on"
    what = f"{what}. {join_place(now.plan, now.piece, now.outlook)}".removesuffix(".")
    return Remedy(
        f"{what}.",
        what,
        now.outlook.finished.mean_mm,
        now.outlook.finished.half95_mm,
        now.outlook.p_in_tolerance,
        -least_mm,
        now.plan.risk,
        join=True,
        family=("join",),
        effort=EFFORT_JOIN,
    )
