"""The steps of a plan as the cord was really cut: what the maker entered, not what she was told to cut."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from companion.core.closures.joint import Joint
from companion.core.closures.preparing import cut_words
from companion.core.closures.table import CLOSURES
from companion.core.journal.events import CutEntered
from companion.core.plan.cut import share_a_layer_mm, told_cut_mm
from companion.core.plan.ends import side_clip_words
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.measures.show_lengths import display_unit, show, show_up
from companion.core.values.measures.units import UNNOTICED_MM


def told_as_cut(plan: Plan, cuts: Iterable[CutEntered]) -> Plan:
    """The plan with these cuts in the steps that ask for them. A plan kept from before, whose steps were told in other
    words, stays as it is."""
    for entered in cuts:
        if abs(entered.length_mm - told_cut_mm(plan, entered.cord)) > UNNOTICED_MM:
            entry = plan.cuts[entered.cord].entries[0]
            strand = _told(plan, entry, entered)
            plan = replace(plan, strands=(*plan.strands[:entry], strand, *plan.strands[entry + 1 :]))
    return plan


def _told(plan: Plan, entry: int, entered: CutEntered) -> PlannedStrand:
    strand, unit = plan.strands[entry], display_unit(plan.unit)
    joint, material, planned_mm = Joint(plan.cord, unit), plan.cord.material, told_cut_mm(plan, entered.cord)
    apart_mm = CLOSURES[strand.end_closure].cord_apart_mm(joint) if strand.side is None else 0.0
    name = strand.name if len(plan.cuts) > 1 else ""
    rest = name, show_up(apart_mm, unit) if apart_mm else "", entry > 0 and strand.side is None
    planned_share_mm, share_mm = (
        share_a_layer_mm(plan, entered.cord, entry, mm) for mm in (planned_mm, entered.length_mm)
    )
    instead = {
        cut_words(material, show(planned_mm, unit), *rest): cut_words(
            material, show(entered.length_mm, unit), *rest, entered=True
        ),
        side_clip_words(joint, planned_share_mm): side_clip_words(joint, share_mm),
    }
    steps = tuple(replace(step, text=instead.get(step.text, step.text)) for step in strand.steps)
    return replace(strand, steps=steps)
