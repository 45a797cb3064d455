"""A design that is being made, part by part in a line, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.draft.draft import BeadDraft, Draft, StrandDraft, with_unit
from companion.core.draft.every import EveryReading
from companion.core.draft.layout import AS_TYPED, FIT
from companion.core.draft.pattern import has_groups
from companion.core.draft.wanting import beads_in_hand
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out
from companion.core.values.measures.show_lengths import display_unit, over_or_short, show, show_both
from companion.core.values.text import count_of, join_words, percent, plain, plural, sentences
from companion.core.variants.reach import Reach
from companion.core.words.notices import Notice
from companion.core.words.plan_words import fit_line, fitted_noun, target_line

NOT_YET = "not yet"
USUAL_TOLERANCE_MM = 3.0


def size_words(draft: Draft, plan: Plan | None = None) -> str:
    """How long, in a line: "wrist 165 mm + 20 mm, within 3 mm; beads add 24 mm: 209 mm", what is not typed in the
    draft's own unit. `plan`: the draft's, which knows what the beads take; None where there is none yet."""
    if not draft.body.strip():
        return NOT_YET
    ease = f" + {with_unit(draft.ease, draft.unit)}" if draft.ease.strip() and draft.measured != "length" else ""
    turns = f", {draft.turns} times round" if draft.turns.strip() not in ("", "1") else ""
    within = with_unit(draft.tolerance, draft.unit) or usual_tolerance(draft)
    return plain(
        f"{draft.measured} {with_unit(draft.body, draft.unit)}{ease}{turns}, within {within}{_of_beads(plan)}", 100
    )


def _of_beads(plan: Plan | None) -> str:
    """What beads that lie outside the wrist add to the target of one turn, and that; "" where they add nothing."""
    if plan is None or plan.size is None or plan.target_mm is None or plan.size.kind != "wrist":
        return ""
    size, unit = plan.size, display_unit(plan.unit)
    round_mm = plan.target_mm / size.turns
    return f"; beads add {show(round_mm - size.body_mm - size.ease_mm, unit)}: {show(round_mm, unit)}"


def usual_tolerance(draft: Draft) -> str:
    """How near it is to come where nothing is said of that, in the draft's unit."""
    return show(USUAL_TOLERANCE_MM, display_unit(draft.unit))


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
    in_hand = f"you have {bead.in_hand.strip()}" if bead.in_hand.strip() else ""
    parts = [f"{bead.name or bead.letter} {with_unit(bead.length, unit)}".strip(), bead.shape, bead.colour, in_hand]
    return plain(f"{bead.letter}  {', '.join(part for part in parts if part)}", 100)


def pattern_words(strand: StrandDraft) -> str:
    """The pattern of a strand, in a line, a middle dot for each knot that is typed."""
    name = f"{strand.name.strip()}: " if strand.name.strip() else ""
    if not strand.pattern.strip():
        return plain(f"{name}{NOT_YET}", 60)
    typed = plain(strand.pattern.replace(" ", "·"), 60)
    if has_groups(strand.pattern):
        return plain(f"{name}{typed}", 140)
    times = "until it fits" if strand.times.strip() in ("", FIT) else f"{strand.times} times"
    knots = "" if strand.knots == AS_TYPED else f", a knot {strand.knots}"
    middle = f", mirrored about {strand.middle.strip()}" if strand.middle.strip() else ""
    return plain(f"{name}{typed}{knots}, {times}{middle}", 140)


def short_notices(draft: Draft, plan: Plan) -> Iterator[Notice]:
    """The beads of which the maker has fewer than the piece takes."""
    in_hand = {bead.key or bead.letter: beads_in_hand(bead) for bead in draft.beads}
    for kind, count in beads_to_count_out(plan):
        have = in_hand.get(kind.key)
        if have is not None and have < count:
            name = plain(plural(kind.name, count), 60)
            yield Notice("watch", f"It takes {count} {name} and you have {have}: {count - have} short.")


def reach_words(draft: Draft, reach: Reach | None) -> str:
    """What the cord in hand makes, in a line."""
    if not draft.cord_in_hand.strip():
        return "how long? Then you see what it makes"
    long = plain(with_unit(draft.cord_in_hand, draft.unit), 30)
    if reach is None:
        return long
    if reach.made is None:
        return f"{long} is too short for any of it"
    own = show(reach.made.plan.finished_length_mm, display_unit(reach.made.plan.unit))
    if not reach.made.count:
        return f"{long} is enough for it"
    return f"{long} makes {count_of(reach.made.count, fitted_noun(reach.made.plan, reach.made.count))}, {own} long"


def saved_words(file: str, leaves_comments: bool) -> str:
    """That a design is saved. `leaves_comments`: the file that it was made from has comments, and this one has not."""
    comments = "The comments stay in the file that you opened." if leaves_comments else ""
    return sentences(f"Saved among your designs as {plain(file)}.", comments, "Enter begins a piece of it.")


def opened_words(name: str, own: bool) -> str:
    """That a design was opened; `own`: one of the maker's own, which can be saved over."""
    if own:
        return f"This is {plain(name, 40)}. Saving asks whether over it or as a design of its own."
    return f"A copy of {plain(name, 40)}: the design itself stays as it is."


def over_words(file: str, loses_comments: bool) -> str:
    """To save a design over the one that it was opened from."""
    return plain(f"over {file}, which you opened{'; its comments are lost' if loses_comments else ''}", 100)


def beside_words() -> str:
    """To save a design as one of its own."""
    return "as a design of its own; the one you opened stays as it is"


def bead_choice(bead: BeadDraft) -> str:
    """A bead to choose: "P Pink glass"."""
    return plain(f"{bead.letter} {bead.name}", 40)


def boxed_words(bead: BeadDraft) -> str:
    """A bead of the bead box, in a line: "Pink glass 8 mm, round, pink, you have 40"."""
    in_hand = f"you have {bead.in_hand}" if bead.in_hand else ""
    return plain(", ".join(filter(None, (f"{bead.name} {bead.length}", bead.shape, bead.colour, in_hand))), 100)


def ask_out_of_box(bead: BeadDraft) -> str:
    """Whether a bead is really to be taken out of the bead box."""
    return plain(f"x again takes {bead.name} {bead.length} out of your bead box. Designs that have it keep it.", 200)


def out_of_box_words(bead: BeadDraft) -> str:
    """That a bead was taken out of the bead box."""
    return plain(f"{bead.name} {bead.length} is out of your bead box. Describing it again puts it back.", 200)


def every_words(number: int, reading: EveryReading, plan: Plan | None) -> str:
    """A reading of "every fifth bead", with its number: "1  4 + 1: PPPPS, 209 mm"."""
    long = f", {show(plan.finished_length_mm, display_unit(plan.unit))} long" if plan else ", no length yet"
    return plain(f"{number}  {reading.most} + 1: {reading.pattern}{long}", 140)


def ends_words(draft: Draft) -> str:
    """The ends, in a line."""
    finding = f", {draft.finding.strip()}" if draft.finding.strip() else ""
    size = f", {with_unit(draft.finding_size, draft.unit)}" if draft.finding_size.strip() else ""
    return plain(f"{draft.closure}{finding}{size}", 100)


# Where a warning of a plan can be mended, by the first word of its place: the parts of a draft.
_MENDED_IN = {"bead": ("beads", "cord", "knots"), "cord": ("cord",), "size": ("size",), "closure": ("ends",)}
_SAID_ELSEWHERE = ("estimates", "length outside tolerance")


def part_notices(part: str, draft: Draft, plan: Plan | None) -> Iterator[Notice]:
    """What is to be said of one part while it is typed, before all else: what is wrong there, and of the length what it
    is made to and why. `plan`: None where there is none yet."""
    if part == "size" and plan is not None and (why := target_line(plan)):
        yield Notice("quiet", why)
    elif part == "size" and draft.measured == "wrist" and draft.body.strip():
        yield Notice("quiet", "Beads lie outside the wrist: what they take is added once they are described.")
    for warning in plan.warnings if plan else ():
        if part in _MENDED_IN.get(warning.where.partition(" ")[0], ()) and warning.code not in _SAID_ELSEWHERE:
            yield Notice("watch", warning.text)


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
