"""What to lay out before the first knot: the tools, and the beads to count out."""

from __future__ import annotations

from collections import Counter

from companion.core.closures.closure import Closure
from companion.core.closures.table import CLOSURES
from companion.core.plan.plan import Plan
from companion.core.values.design import BeadKind


def tools(plan: Plan) -> tuple[str, ...]:
    """The tools that the plan needs, each once: for the knots, for measuring, then for the closures."""
    wanted = ["needle" if plan.cord.needle else "awl", "ruler"]
    for closure in closures_of(plan):
        wanted += closure.tools
    return tuple(dict.fromkeys(wanted))


def beads_to_count_out(plan: Plan) -> tuple[tuple[BeadKind, int], ...]:
    """Every kind that the plan uses and how many of it, over all strands and sides, in the order of the design."""
    total: Counter[str] = Counter()
    for strand in plan.strands:
        total.update(dict(strand.beads))
    return tuple((kind, total[kind.key]) for kind in plan.beads if total[kind.key])


def closures_of(plan: Plan) -> tuple[Closure, ...]:
    """The closures that the plan uses, each once."""
    names = (name for strand in plan.strands for name in (strand.start_closure, strand.end_closure))
    return tuple(CLOSURES[name] for name in dict.fromkeys(names) if name)  # a side has no closure in the middle
