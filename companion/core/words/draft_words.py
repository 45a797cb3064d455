"""A design that is being made, part by part in a line, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.draft.draft import BeadDraft, Draft, with_unit
from companion.core.draft.layout import AS_TYPED, FIT
from companion.core.draft.pattern import grouped
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out
from companion.core.values.measures.show_lengths import display_unit, over_or_short, show, show_both
from companion.core.values.text import count_of, join_words, percent, plain, plural
from companion.core.words.notices import Notice
from companion.core.words.plan_words import fit_line

NOT_YET = "not yet"


def size_words(draft: Draft) -> str:
    """How long, in a line: "wrist 165 mm + 20 mm, within 3 mm"."""
    if not draft.body.strip():
        return NOT_YET
    ease = f" + {with_unit(draft.ease, draft.unit)}" if draft.ease.strip() and draft.measured != "length" else ""
    turns = f", {draft.turns} times round" if draft.turns.strip() not in ("", "1") else ""
    within = with_unit(draft.tolerance, draft.unit) or "3 mm"
    return plain(f"{draft.measured} {with_unit(draft.body, draft.unit)}{ease}{turns}, within {within}", 100)


def cord_words(draft: Draft) -> str:
    """The cord, in a line: "twisted silk 0.45 mm, doubled, awl"."""
    if not draft.cord_diameter.strip():
        return NOT_YET
    layers = {"": "", "1": "", "2": ", doubled"}.get(draft.layers.strip(), f", {draft.layers} cords together")
    card = f", card {draft.card}" if draft.card else ""
    name = draft.cord.strip() or draft.material
    return plain(f"{name} {with_unit(draft.cord_diameter, draft.unit)}{layers}, {draft.tool}{card}", 100)


def knot_number_words(draft: Draft) -> str:
    """What knots take, in a line, where it was measured."""
    measured = (("single", draft.single_take_up), ("double", draft.double_take_up), ("triple", draft.triple_take_up))
    known = [f"{kind} {with_unit(take_up, draft.unit)}" for kind, take_up in measured if take_up.strip()]
    return plain(", ".join(known) or ("by the card" if draft.card else "estimated"), 100)


def bead_words(bead: BeadDraft, unit: str) -> str:
    """A bead, in a line: "P  Pink glass 8 mm, round, pink"."""
    parts = [f"{bead.name or bead.letter} {with_unit(bead.length, unit)}".strip(), bead.shape, bead.colour]
    return plain(f"{bead.letter}  {', '.join(part for part in parts if part)}", 100)


def pattern_words(draft: Draft) -> str:
    """The pattern, in a line, a middle dot for each knot that is typed."""
    if not draft.pattern.strip():
        return NOT_YET
    typed = plain(draft.pattern.replace(" ", "·"), 60)
    if grouped(draft.pattern):
        return typed
    times = "until it fits" if draft.times.strip() in ("", FIT) else f"{draft.times} times"
    knots = "" if draft.knots == AS_TYPED else f", a knot {draft.knots}"
    middle = f", mirrored about {draft.middle.strip()}" if draft.middle.strip() else ""
    return plain(f"{typed}{knots}, {times}{middle}", 140)


def ends_words(draft: Draft) -> str:
    """The ends, in a line."""
    finding = f", {draft.finding.strip()}" if draft.finding.strip() else ""
    size = f", {with_unit(draft.finding_size, draft.unit)}" if draft.finding_size.strip() else ""
    return plain(f"{draft.closure}{finding}{size}", 100)


def outcome(plan: Plan) -> Iterator[Notice]:
    """What the design comes to: its length beside the target, the cut, the beads."""
    unit = display_unit(plan.unit)
    own, other = show_both(plan.finished_length_mm, unit)
    off = ""
    if plan.target_mm is not None:
        off = f", {over_or_short(plan.finished_length_mm, plan.target_mm, unit)}"
    yield Notice("quiet", f"It will be {own} ({other}) long when closed{off}.")
    if fit := fit_line(plan):
        yield Notice("quiet", fit)
    cuts = [f"{show(cut.cut_mm, unit)}{f' ({cut.name})' if len(plan.cuts) > 1 else ''}" for cut in plan.cuts]
    yield Notice("quiet", f"Cut {join_words(cuts)}: {percent(plan.risk)} chance of running out.")
    beads = [f"{count} {plural(kind.name, count)}" for kind, count in beads_to_count_out(plan)]
    yield Notice("quiet", f"{join_words(beads)}; {count_of(plan.total_steps, 'step')}.")
