"""The sentences that screens and line-at-a-time commands share: short, kind, exact, and good to hear."""

from __future__ import annotations

from math import hypot

from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import MISCOUNT
from companion.core.journal.events import ReadingKind
from companion.core.journal.piece import Piece
from companion.core.plan.cut import cut_risk
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, Knot
from companion.core.values.expected import Expected
from companion.core.values.show_lengths import DisplayUnit, difference, display_unit, show, show_plus_minus
from companion.core.words.notices import Level, Notice

# A reading this near what is expected is as good as any: one standard deviation of laying a ruler on, mm.
NOISE_MM: dict[ReadingKind, float] = {"strand": USUAL.strand_handling_mm, "free": USUAL.free_cord_handling_mm}


def step_name(plan: Plan, step: int) -> str:
    """How a step is written: its number, with its entry where the design has several."""
    entry, number = plan.place(step)
    return f"{plan.strands[entry].label}:{number}" if len(plan.strands) > 1 else str(number)


def step_line(plan: Plan, step: int) -> str:
    """A step for the ear: "Silver daisy, then a single knot. Step 13 of 26."."""
    entry, number = plan.place(step)
    text = plan.strands[entry].steps[number - 1].text
    return f"{text}{'' if text.endswith('.') else '.'} Step {step} of {plan.total_steps}."


def verdict_line(plan: Plan, piece: Piece, outlook: Outlook) -> Notice:
    """Whether the piece will come out at its length, in one sentence or two with the number that matters."""
    unit = display_unit(plan.unit)
    if outlook.verdict in ("recount", "measure again"):
        return fault_line(plan, outlook)
    if outlook.verdict == "no target":
        return Notice("quiet", f"No length is set. {_next_reading(plan, piece, outlook)}".strip())
    if outlook.verdict == "on plan":
        return Notice("quiet", f"On plan. {_next_reading(plan, piece, outlook)}".strip())
    assert plan.target_mm is not None
    finished = show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, unit)
    miss = _miss(plan, outlook, unit)
    if outlook.verdict == "watch":
        return Notice("watch", f"Watch. It would finish at {finished}, {miss}. Measure again soon.")
    return Notice(
        "off",
        f"Off. It would finish at {finished}, {miss}.{_reason(plan, piece, outlook)}{_due_now(plan, piece, outlook)}",
    )


def _miss(plan: Plan, outlook: Outlook, unit: DisplayUnit) -> str:
    assert plan.target_mm is not None
    over_mm = outlook.finished.mean_mm - plan.target_mm
    word = "over" if over_mm > 0 else "short of"
    return f"{difference(abs(over_mm), unit)} {word} {show(plan.target_mm, unit)}"


SUSPECTED = 0.05  # chance of a lost bead at which it is named among the reasons; our own choice
PLAN_OFF_MM = 0.8  # half a sixteenth of an inch: a plan off by less is not


def _reason(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """The likely reason: beads that were counted; tension that changed, if a story says so; knots that differ from the
    cord's figures; a bead only where one is suspected; the plan itself where that is off."""
    assert plan.target_mm is not None
    counted = sum(one.beads for one in piece.counted)
    if counted and (counted > 0) == (outlook.finished.mean_mm > plan.target_mm):
        beads = "a bead is" if abs(counted) == 1 else f"{abs(counted)} beads are"
        return f" As you counted, {beads} {'too many' if counted > 0 else 'missing'}."
    over = outlook.finished.mean_mm > plan.target_mm
    bead = "a bead is too many" if over else "a bead is missing"
    suspected = sum(fault.p for fault in outlook.faults if fault.kind in MISCOUNT) > SUSPECTED
    fault = outlook.faults[0] if outlook.faults else None
    ratio = outlook.knot_ratio
    if fault and fault.kind == "tension changed" and fault.p > 0.3:
        return f" Likeliest: your tension has changed since about step {_named(plan, fault.entry, fault.from_step)}."
    if fault and fault.kind == "tension drifting" and fault.p > 0.3:
        return " Likeliest: your tension has been drifting since the first knots."
    if ratio is None or not 0.03 <= abs(ratio.mean_mm - 1) <= 0.5 or abs(ratio.mean_mm - 1) < ratio.sd_mm:
        planned_mm = plan.finished_length_mm
        if (planned_mm > plan.target_mm) == over and abs(planned_mm - plan.target_mm) > PLAN_OFF_MM and not suspected:
            return f" The plan itself comes to {show(planned_mm, display_unit(plan.unit))}."
        return f" Perhaps {bead}: count them." if suspected else ""
    share = f"{abs(ratio.mean_mm - 1):.0%}".replace("%", " %")
    run = "looser" if ratio.mean_mm > 1 else "tighter"
    also = f" Or {bead}: count." if suspected else ""
    return f" Likeliest: knots {share} {run} than the cord's figures.{also}"


def fault_line(plan: Plan, outlook: Outlook) -> Notice:
    """A miscount or a misreading that is likelier than not: what it may be, and the cheapest test that tells."""
    miscounts = [fault for fault in outlook.faults if fault.kind in MISCOUNT]
    misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
    if outlook.verdict == "measure again" and misread:
        step = _named(plan, misread.entry, misread.to_step)
        off = difference(abs(misread.off_mm), display_unit(plan.unit))
        side = "too much" if misread.off_mm > 0 else "too little"
        which = "free-cord reading" if misread.detail == "free" else "strand reading"
        second = " Or a bead is lost: one more reading tells." if sum(fault.p for fault in miscounts) > 0.15 else ""
        text = f"Measure again ({odds(misread.p)}). The {which} after step {step} may be {off} {side}.{second}"
        return Notice("watch", text)
    fault = miscounts[0]
    first, last = fault.from_step, fault.to_step
    strand = plan.strands[fault.entry]
    beads = sum(len(strand.steps[number - 1].beads) for number in range(first, last + 1))
    what = "A bead fewer" if fault.kind == "bead missed" else "A bead more"
    where = f"Steps {_named(plan, fault.entry, first)} to {last} should hold {beads} beads: count them."
    second = " Or the ruler slipped: lay it on again." if misread and misread.p > 0.15 else ""
    chance = odds(sum(one.p for one in miscounts))
    return Notice("off", f"Recount ({chance}). {what} than the count says. {where}{second}")


SHORTER = ("cut shorter", "cord shortened")

STORY_WORDS = {
    "tension changed": "your tension changed and stayed so",
    "tension drifting": "your tension has been drifting since the first knots",
    "bead missed": "a bead was missed",
    "bead too many": "a bead is too many",
    "knot missed": "a knot was missed, which lengths alone can hardly tell",
    "knot too many": "a knot is too many, which lengths alone can hardly tell",
    "double as single": "a double knot was tied as a single one",
    "cut shorter": "the cord is shorter than was entered",
    "cut longer": "the cord is longer than was entered",
    "cord shortened": "the cord has been shortened since, or is caught somewhere",
    "misread": "a reading was misread, or taken slack",
}


def story_words(plan: Plan, fault: Fault) -> str:
    """One story with its chance and where it began: "A bead was missed, steps 13 to 18 (62 %)."."""
    words = STORY_WORDS[fault.kind]
    first, last = _named(plan, fault.entry, fault.from_step), fault.to_step
    where = "" if fault.kind in ("tension drifting", "cut shorter", "cut longer") else f", steps {first} to {last}"
    if fault.from_step == last and where:
        where = f", step {first}"
    return f"{words[:1].upper()}{words[1:]}{where} ({percent(fault.p)})."


def odds(p: float) -> str:
    """A chance as makers say it: "4 to 1", or in per cent where it is no better than even."""
    if p >= 0.95:
        return "over 20 to 1"
    return f"{p / (1 - p):.0f} to 1" if p >= 0.6 else f"{percent(p)} likely"


def _named(plan: Plan, entry: int, number: int) -> str:
    """A step of an entry, as it is written."""
    return step_name(plan, plan.piece_step(entry, number))


def _due_now(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """That the ruler is due, where it is."""
    step = outlook.next_reading_step
    return " Lay the ruler on now." if step is not None and step <= piece.done else ""


def where_from(plan: Plan, entry: int) -> str:
    """Where the ruler's nought lies: at the first knot or bead, what closes the strand left out."""
    strand = plan.strands[entry]
    first = strand.elements[0]
    if isinstance(first, Bead):
        what = f"the first {plan.bead(first.key).name}"
    else:
        what = "the first knot" if isinstance(first, Knot) else "where the bare cord begins"
    closed = strand.start_closure not in ("", "plain tail")
    return f"From {what} to here{', the closure before it left out' if closed else ''}."


def _next_reading(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    step = outlook.next_reading_step
    if step is None:
        return ""
    if step <= piece.done:
        return "Lay the ruler on now." if _cord_checked(plan, piece) else f"Lay the ruler on now. {CHECK_CORD}"
    return f"Lay the ruler on after step {step}."


# A piece worked looser than its cord's figures is what makes a cut fail, and an early look at the cord tells.
CHECK_CORD = "Measure the free cord too, once."


def _cord_checked(plan: Plan, piece: Piece) -> bool:
    """Whether the free cord of the entry in hand was measured since its first element."""
    entry = plan.place(min(piece.done + 1, plan.total_steps))[0]
    places = (plan.place(reading.step) for reading in piece.readings if reading.kind == "free" and reading.step)
    return any(place == entry and plan.strands[entry].steps[number - 1].elements for place, number in places)


def cord_line(plan: Plan, piece: Piece, outlook: Outlook) -> Notice:
    """Whether the cord in hand will reach, with the chance that it does not and where it would end."""
    number = outlook.worst_cord
    cord = outlook.entries[number].cord
    if cord.verdict == "enough":
        misread = next((fault for fault in outlook.faults if fault.kind == "misread" and fault.p > 0.5), None)
        if misread and misread.detail == "free" and misread.off_mm < 0:
            step = _named(plan, misread.entry, misread.to_step)
            text = f"Enough cord only if the free-cord reading after step {step} is wrong: read it again."
            return Notice("watch", text)
        return Notice("quiet", "Enough cord.")
    unit = display_unit(plan.unit)
    which = f" for {plan.strands[number].label}" if len(plan.strands) > 1 else ""
    missing = f" To be sure of it, {show(cord.short_mm, unit)} a layer is missing." if cord.short_mm > 0 else ""
    chance = f"{percent(cord.p_run_out)} that the cord{which} runs out"
    cut = next((fault for fault in outlook.faults if fault.kind in SHORTER and fault.entry == number), None)
    if cut and cut.p > 0.5:
        missing += " It seems shorter than it should be."
    if cord.verdict == "scant":
        return Notice("watch", f"Scant: {chance}.{missing}")
    near = f" near step {step_name(plan, plan.piece_step(number, cord.step))}" if cord.step is not None else ""
    return Notice("off", f"Runs out{near}: {chance}.{missing}")


STEPS_TO_JOIN_IN = 6


def join_place(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """Where new cord is best joined on: inside a bead of the last steps that the cord still reaches, for old and new
    lie side by side there: the one with the widest hole, of holes alike or not given the longest."""
    number = outlook.worst_cord
    entry = outlook.entries[number]
    strand = plan.strands[number]
    end = entry.cord.step - 1 if entry.cord.step is not None else len(strand.steps)
    steps = [step for step in strand.steps[max(entry.done, end - STEPS_TO_JOIN_IN) : end] if step.beads]
    if not steps:
        return "Join it inside the next bead."
    room, step = max(((max(_room(plan, key) for key in step.beads), step) for step in steps), key=lambda one: one[0])
    bead = plan.bead(next(key for key in step.beads if _room(plan, key) == room)).name
    return f"Best inside a bead: {bead} of step {_named(plan, number, step.number)}."


def _room(plan: Plan, key: str) -> tuple[float, float]:
    """How much room a bead has for two ends of cord: by its hole, then by its length, mm."""
    kind = plan.bead(key)
    return kind.hole_mm or 0.0, kind.length_mm


def cord_word(plan: Plan, outlook: Outlook) -> str:
    """The cord's verdict in a word or a few: "enough", "scant", "runs out near step 31"."""
    number = outlook.worst_cord
    cord = outlook.entries[number].cord
    if cord.verdict != "runs out" or cord.step is None:
        return cord.verdict
    return f"runs out near step {step_name(plan, plan.piece_step(number, cord.step))}"


def percent(p: float) -> str:
    """A chance in words: never 0 or 100 per cent."""
    if p < 0.0095:
        return "under 1 %"
    return "over 99 %" if p > 0.9905 else f"{p:.0%}".replace("%", " %")


def cut_lines(plan: Plan, cut: int, length_mm: float) -> tuple[Notice, ...]:
    """What a cut (the plan's `cut`-th cord, whole, mm) would mean: its own run-out risk; questioned when short."""
    planned_mm = plan.cuts[cut].cut_mm
    unit = display_unit(plan.unit)
    risk = cut_risk(plan, cut, length_mm)
    if length_mm >= planned_mm - PLAN_OFF_MM:
        return (Notice("quiet", f"As long as planned, or longer: {percent(risk)} that it runs out."),)
    short = f"{show(planned_mm - length_mm, unit)} shorter than planned"
    if length_mm > planned_mm * (1 - USUAL.short_cut_questioned):
        return (Notice("quiet", f"A little short, {short}: {percent(risk)} that it runs out."),)
    loud: Level = "off" if risk > 0.25 else "watch"
    return (
        Notice(loud, f"{(planned_mm - length_mm) / planned_mm:.0%} short".replace("%", " %") + f", {short}."),
        Notice(loud, f"The chance that it runs out before the end: {percent(risk)}. A fresh cord would be surer."),
    )


def cut_questioned(plan: Plan, cut: int, length_mm: float) -> bool:
    """Whether a cut is so much shorter than planned that it is asked about before the first knot."""
    return length_mm <= plan.cuts[cut].cut_mm * (1 - USUAL.short_cut_questioned)


def reading_lines(
    plan: Plan, piece: Piece, before: Outlook, after: Outlook, kind: ReadingKind, length_mm: float
) -> tuple[Notice, ...]:
    """What a reading at the present step would mean, before it is taken: `before` without it, `after` with it."""
    unit = display_unit(plan.unit)
    expected = expected_reading(plan, piece, before, kind)
    over_mm = length_mm - expected.mean_mm
    side = "more" if over_mm > 0 else "less"
    noise_mm = NOISE_MM[kind]
    spread_mm = hypot(expected.sd_mm, noise_mm)
    shown = show(expected.mean_mm, unit)
    if abs(over_mm) <= noise_mm * 1.5:
        first = Notice("quiet", f"As expected ({shown}).")
    else:
        usual = abs(over_mm) <= 2 * spread_mm
        meaning = "within what is usual" if usual else "more than a ruler error"
        text = f"{difference(abs(over_mm), unit)} {side} than expected ({shown}): {meaning}."
        first = Notice("quiet" if usual else "watch", text[:1].upper() + text[1:])
    second = verdict_line(plan, piece, after) if kind == "strand" else cord_line(plan, piece, after)
    if kind == "strand" and after.verdict == "on plan":
        finished = show_plus_minus(after.finished.mean_mm, after.finished.half95_mm, unit)
        second = Notice("quiet", f"On plan: it would finish at {finished}.")
    return (first, second)


def expected_reading(plan: Plan, piece: Piece, outlook: Outlook, kind: ReadingKind) -> Expected:
    """What the ruler should say after the last made step: the strand, or free cord per layer, of its entry."""
    entry = plan.place(piece.done)[0] if piece.done else 0
    now = outlook.entries[entry]
    return now.strand_now if kind == "strand" else now.free_now


def reading_doubt(plan: Plan, piece: Piece, outlook: Outlook, kind: ReadingKind, length_mm: float) -> str | None:
    """Why a reading can hardly be right, or None: it is then asked about once more, not refused."""
    expected = expected_reading(plan, piece, outlook, kind)
    unit = display_unit(plan.unit)
    far_mm = max(6 * hypot(expected.sd_mm, NOISE_MM[kind]), 0.3 * abs(expected.mean_mm))
    if length_mm < 0:
        return "A length can't be below nothing: read the ruler again."
    if abs(length_mm - expected.mean_mm) <= far_mm:
        return None
    return (
        f"{show(length_mm, unit)} is far from the {show(expected.mean_mm, unit)} expected. "
        "Is the ruler laid right, and the unit?"
    )
