"""How long to cut, and the risk of cutting another length. In mm of each layer, unless a name says whole."""

from __future__ import annotations

from msgspec import Struct

from companion.core.maths.distributions import student_quantile, student_sf
from companion.core.plan.plan import BRACELET_UNDER_MM, Plan, PlannedStrand
from companion.core.values.assumptions import Assumptions
from companion.core.values.measures.show_lengths import display_unit, rounded_up_mm

# The arm of the arm rule, wrist to armpit: medians of women and men, Gordon et al., "2012 Anthropometric Survey of U.S.
# Army Personnel" (axilla height less wrist height, from the public data; adults fit to serve).
ARM_WOMEN_MM = 444.0
ARM_MEN_MM = 481.0


def margin_mm(sd_mm: float, degrees: float, risk: float) -> float:
    """How much to add to the expected need, mm, so that more is needed with only that chance (0 to 1)."""
    return student_quantile(1 - risk, degrees) * sd_mm


def run_out_risk(strand: PlannedStrand, free_mm: float) -> float:
    """The chance that one layer of that length, mm, is too short for the entry, before anything is measured."""
    over_mm = free_mm - strand.need_mm
    if strand.need_sd_mm == 0:
        return 0.0 if over_mm >= 0 else 1.0
    return student_sf(over_mm / strand.need_sd_mm, strand.need_degrees)


def working_allowance_mm(needle: bool, assumptions: Assumptions) -> float:
    """What the hands need beyond the last knot to tie it, mm a layer."""
    return assumptions.allowance_needle_mm if needle else assumptions.allowance_awl_mm


class ArmRule(Struct, frozen=True):
    """The trade's rule for one cord: a bracelet one arm, a necklace two, twice that when doubled; whole cord, mm."""

    arms: int
    low_mm: float
    high_mm: float


def arm_rule(plan: Plan, layers: int, own_arm_mm: float | None = None) -> ArmRule:
    """The arm rule beside a computed cut, by the maker's own arm where it is known. Common practice, no source; it
    knows one layer and two."""
    kind = plan.size.kind if plan.size else "length"
    bracelet = kind == "wrist" or (kind == "length" and plan.finished_length_mm < BRACELET_UNDER_MM)
    arms = (1 if bracelet else 2) * layers
    low_mm, high_mm = (own_arm_mm, own_arm_mm) if own_arm_mm else (ARM_WOMEN_MM, ARM_MEN_MM)
    return ArmRule(arms, arms * low_mm, arms * high_mm)


def share_a_layer_mm(plan: Plan, cut: int, entry: int, length_mm: float) -> float:
    """What one entry has of a cord cut `length_mm` long (whole, mm), per layer.

    A strand worked from the middle shares its cord between two sides: each has its planned share and half of what the
    cord is longer or shorter than planned.
    """
    cord, strand = plan.cuts[cut], plan.strands[entry]
    return (strand.cut_mm + (length_mm - cord.cut_mm) / len(cord.entries)) / cord.layers


def told_cut_mm(plan: Plan, cut: int) -> float:
    """How long the maker is told to cut that cord (whole, mm): rounded up. So long it is, unless she says otherwise."""
    return rounded_up_mm(plan.cuts[cut].cut_mm, display_unit(plan.unit))


def rounded_up_by_mm(plan: Plan, entry: int) -> float:
    """What an entry has more of it than the plan needs, mm a layer."""
    cut = next(number for number, cord in enumerate(plan.cuts) if entry in cord.entries)
    strand = plan.strands[entry]
    return share_a_layer_mm(plan, cut, entry, told_cut_mm(plan, cut)) - strand.cut_mm / strand.layers


def cut_risk(plan: Plan, cut: int, length_mm: float) -> float:
    """The chance that a cord cut to `length_mm` (whole, mm) runs out: that of the entry most at risk."""
    return max(
        run_out_risk(plan.strands[entry], share_a_layer_mm(plan, cut, entry, length_mm))
        for entry in plan.cuts[cut].entries
    )
