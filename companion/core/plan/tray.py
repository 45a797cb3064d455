"""What to lay out before the first knot: tools, findings, the beads to count out and a few to spare."""

from __future__ import annotations

from collections import Counter
from math import ceil

from companion.core.closures.closure import Closure, Threading
from companion.core.closures.joint import Finding, Joint
from companion.core.closures.preparing import needed_to_prepare, needle_on_fold
from companion.core.closures.table import CLOSURES
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.design import BeadKind
from companion.core.values.measures.show_lengths import display_unit

SPARE_SHARE = 0.03  # holes too small, chips: a few in a hundred; common practice, no source


BLUNT = "blunt needle"  # the knots' own: the one that strings hangs at the end of the cord
FINE = "2 fine needles"


def tools(plan: Plan) -> tuple[str, ...]:
    """Every tool that a step needs, each once: for the knots, for measuring, for the cord, then for the closures."""
    wanted = [BLUNT if plan.cord.tool == "needle" else plan.cord.tool, "ruler"]
    on_fold = any(needle_on_fold(plan.cord, threading_of(strand)) for strand in plan.strands)
    if on_fold and plan.cord.tool != "needle":  # it hangs in the fold: another hand's tool ties the knots
        wanted.append("needle with a wide eye")
    if plan.cord.tool == "needle":
        wanted.append("needle")
    for strand in plan.strands:
        wanted += needed_to_prepare(plan.cord, threading_of(strand))
    if any(strand.side for strand in plan.strands):
        wanted.append("clip")
    for closure in closures_of(plan):
        wanted += [*closure.tools, closure.finishes_with(plan.cord.material)]
    found = dict.fromkeys(tool for tool in wanted if tool)
    if FINE in found:  # they string the beads as well
        found.pop("needle", None)
    if any(strand.clipped for strand in plan.strands):
        return tuple("2 clips" if tool == "clip" else tool for tool in found) if "clip" in found else (*found, "clip")
    return tuple(found)


def threading_of(strand: PlannedStrand) -> Threading:
    """How its cord meets the first beads; a strand worked from the middle has no start, but two ends."""
    return "both ends" if not strand.start_closure else CLOSURES[strand.start_closure].threading


def findings(plan: Plan) -> tuple[Finding, ...]:
    """Every finding with its count, one line a kind; several strands share one clasp."""
    counts: Counter[tuple[str, float | None, float | None]] = Counter()
    groups: dict[str, list[PlannedStrand]] = {}
    for strand in plan.strands:
        if strand.side != "second":
            groups.setdefault(strand.end_closure, []).append(strand)
    for name, strands in groups.items():
        one = strands[0]
        shared = len(strands) if not CLOSURES[name].both_ends else 1
        joint = Joint(plan.cord, display_unit(plan.unit), finding=one.finding, size_mm=one.finding_mm, strands=shared)
        for finding in CLOSURES[name].findings(joint):
            kind = finding.name, finding.size_mm, finding.hole_mm
            counts[kind] += finding.count * (len(strands) if shared == 1 else 1)
    return tuple(Finding(name, count, size_mm, hole_mm) for (name, size_mm, hole_mm), count in counts.items())


def beads_to_count_out(plan: Plan) -> tuple[tuple[BeadKind, int], ...]:
    """Every kind of bead that the plan uses and how many, over all strands and sides, in the order of the design."""
    total: Counter[str] = Counter()
    for strand in plan.strands:
        total.update(dict(strand.beads))
    return tuple((kind, total[kind.key]) for kind in plan.beads if total[kind.key])


def spare_beads(plan: Plan) -> tuple[tuple[BeadKind, int], ...]:
    """A few more of each kind: some beads have too small a hole, some chip."""
    return tuple((kind, ceil(SPARE_SHARE * count)) for kind, count in beads_to_count_out(plan))


def closures_of(plan: Plan) -> tuple[Closure, ...]:
    """The closures that the plan uses, each once."""
    names = (name for strand in plan.strands for name in (strand.start_closure, strand.end_closure))
    return tuple(CLOSURES[name] for name in dict.fromkeys(names) if name)  # a side has no closure in the middle
