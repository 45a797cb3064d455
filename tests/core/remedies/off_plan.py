"""Pieces that are off their length or short of cord, and what is offered for them."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.observations import ruler_mm
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import remedies
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Strand,
)

G, S, K, D = Bead("g"), Bead("s"), Knot("single"), Knot("double")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 2, 5, 1.0))
CORD = CordDesign(
    "silk", 0.45, 2, "silk", knots=(("single", KnotNumbers(6, 2)), ("double", KnotNumbers(10, 3)))
)  # a single knot of two layers is 1.85 mm across: it holds both beads
CLASP = End("bead tip and clasp")
SIDE = (Repeat(8, (G, K)), S, K)


def planned(layout, length_mm, opened="along", end=End(), kinds=KINDS, tolerance_mm=3.0):  # noqa: B008
    strand = Strand(tuple(layout), end if end.closure in ("bead tip and clasp",) else End(), end, "", opened)
    return compile_plan(Design("Light", CORD, kinds, (strand,), Size("length", length_mm, 0, tolerance_mm)))


def what_to_do(plan, done, cut_share=1.15):
    """A piece with one reading that is as planned, and cord to spare; what is offered where its length is off."""
    cuts = (CutEntered(0, cut_share * plan.cuts[0].cut_mm, ""),)
    entry, number = plan.place(done) if done else (0, 0)
    here_mm = ruler_mm(plan, entry, number)
    readings = (Measured("strand", done, here_mm, ""),) if here_mm else ()
    piece = Piece(plan.total_steps, done, cuts=cuts, readings=readings)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    off = plan.target_mm is not None and abs(plan.target_mm - outlook.finished.mean_mm) > plan.tolerance_mm
    outlook = replace(outlook, verdict="off" if off else outlook.verdict)
    return piece, outlook, remedies(plan, piece, outlook)


def aimed(plan, length_mm):
    """The plan with another target, so that the piece is off without any reading."""
    return replace(plan, target_mm=length_mm, size=Size("length", length_mm, 0, 3.0), tolerance_mm=3.0)


def whole(plan, entries):
    first, *second = (plan.strands[entry].elements for entry in entries)
    return (*reversed(second[0]), *first) if second else first


def mirror_plan(opened="along"):
    return planned((K, Mirror(SIDE, (G,)), K), 178.0, opened)  # 142 + 14 … as it comes: the target is set by `aimed`


def family(found, *names):
    return next((one for one in found if one.family == names), None)


def short_of_cord(cut_share=0.72, verdict="scant"):
    """A piece without a length to aim at, so that only its cord is put right."""
    plan = planned((Repeat(25, (G, D)),), 200.0, end=CLASP)
    plan = replace(plan, target_mm=None, tolerance_mm=None, size=None)
    before = sum(step.kind == "start" for step in plan.strands[0].steps)
    _, outlook, found = what_to_do(plan, before + 9, cut_share=cut_share)
    assert outlook.entries[0].cord.verdict == verdict
    return plan, outlook, found
