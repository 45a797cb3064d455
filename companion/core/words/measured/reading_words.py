"""Ruler readings in words: where to measure from, what to expect, and what a reading would mean."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from msgspec import Struct
from msgspec.structs import replace

from companion.core.forecast.observations import elements_made, elements_read, own_knots_mm, ruler_mm
from companion.core.forecast.outlook import USUAL_SDS, Outlook
from companion.core.journal.events import Measured, ReadingKind
from companion.core.journal.piece import Piece, Reading
from companion.core.plan.cut import rounded_up_by_mm
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, Knot
from companion.core.values.expected import Expected
from companion.core.values.measures.show_lengths import difference, display_unit, show, show_plus_minus
from companion.core.values.text import capitalised, count_word, sentences
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reason_words import well_word
from companion.core.words.measured.verdict_words import NO_KEYS, Keys, in_brackets, verdict_line
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_name

# The standard deviation of laying a ruler on, mm.
HANDLING_MM: dict[ReadingKind, float] = {"strand": USUAL.strand_handling_mm, "free": USUAL.free_cord_handling_mm}
# Our own choices: in standard deviations of laying the ruler on, then of that and the forecast together; as a share.
AS_EXPECTED_SDS = 1.5
DOUBTED_SDS, DOUBTED_SHARE = 6.0, 0.3
NOT_BELIEVED_FROM = 0.9  # chance that a reading is a slip from which it is asked about once more; our own choice
# What lies at the start of these closures; of the others it is what their names begin with.
LIES_AT_THE_START = {"knotted to the clasp": "clasp", "sliding knot": "tail", "endless": "tail"}


def where_from(plan: Plan, entry: int, done: int = 0) -> str:
    """Between what the ruler lies: from the first knot or bead to the last one of the first `done` steps of the piece;
    what closes the strand is left out."""
    strand = plan.strands[entry]
    first = strand.elements[0]
    if isinstance(first, Bead):
        what = f"the first {plan.bead(first.key).name}"
    else:
        what = "the first knot" if isinstance(first, Knot) else "where the bare cord begins"
    start = strand.start_closure
    closed = start not in ("", "plain tail")
    leave = f" Leave the {LIES_AT_THE_START.get(start) or start.partition(' and ')[0]} out." if closed else ""
    return f"Measure from {what}{' of this side' if strand.side else ''} to {_where_to(plan, entry, done)}.{leave}"


def _where_to(plan: Plan, entry: int, done: int) -> str:
    """Where the ruler ends. All beads may be on the cord already, so a knot is named as a knot."""
    made = elements_made(plan, entry, done)
    last = plan.strands[entry].elements[made - 1] if made else None
    if isinstance(last, Bead):
        return f"the end of the last {plan.bead(last.key).name}"
    if isinstance(last, Knot):
        return "the end of the last knot"
    return "the end of the bare cord" if last else "the end of the last one"


def expected_reading(plan: Plan, piece: Piece, outlook: Outlook, kind: ReadingKind) -> Expected:
    """What the ruler should say after the last made step: the strand, or the free cord per layer, of its entry."""
    entry = plan.place(piece.done)[0] if piece.done else 0
    now = outlook.entries[entry]
    if kind == "free":
        return now.free_now
    return now.strand_now.longer(own_knots_mm(plan, entry, now.done))


def planned_reading_mm(plan: Plan, done: int, kind: ReadingKind) -> float | None:
    """What the ruler would say after that step if all had come out as planned; None before the first one."""
    if done == 0:
        return None
    entry, number = plan.place(done)
    if kind == "strand":
        return ruler_mm(plan, entry, number)
    return plan.strands[entry].steps[number - 1].free_cord_mm + rounded_up_by_mm(plan, entry)


def reading_lines(
    plan: Plan,
    piece: Piece,
    before: Outlook,
    after: Outlook,
    kind: ReadingKind,
    length_mm: float,
    keys: Keys = NO_KEYS,
    what: str = "screen",
) -> tuple[Notice, ...]:
    """What a reading at the present step would mean, before it is taken: `before` without it, `after` with it. `keys`:
    those that answer once it is taken; `what`: what says where the piece stands."""
    expected = expected_reading(plan, piece, before, kind)
    if kind == "free":
        cord = cord_line(plan, after)
        usual = abs(length_mm - expected.mean_mm) <= USUAL_SDS * hypot(expected.sd_mm, HANDLING_MM[kind])
        against = _against_expected(plan, expected, kind, length_mm, usual, calm=cord.level == "quiet")
        return (against, cord) if cord.text else (against,)
    meant = verdict_line(plan, piece, after, keys, of_the_piece=True)
    slip = after.verdict == "measure again"  # said next: then it is the ruler
    usual = _is_usual(piece, after, length_mm)
    calm = meant.level == "quiet" and after.verdict != "watch"
    against = _against_expected(plan, expected, kind, length_mm, usual, calm, slip)
    if other := _where_another_step_ends(plan, piece, expected, length_mm):
        asked = other.words(plan, length_mm, what, in_brackets(keys, "recount"))
        against = Notice(against.level, against.headline, against.detail, asked)
    return against, _meant(plan, after, meant)


def _is_usual(piece: Piece, after: Outlook, length_mm: float) -> bool:
    newest = after.newest
    is_it = newest is not None and (newest.reading.step, newest.reading.length_mm) == (piece.done, length_mm)
    return newest is None or newest.is_usual or not is_it


def _meant(plan: Plan, after: Outlook, meant: Notice) -> Notice:
    """What the verdict adds to that: a reading that is too much to be the ruler is not told twice."""
    if after.verdict not in ("on plan", "no target"):
        return meant
    if meant.level != "quiet":
        return replace(meant, detail="")
    if after.verdict == "no target":
        return Notice("quiet", meant.headline)
    finished = show_plus_minus(after.finished.mean_mm, after.finished.half95_mm, display_unit(plan.unit))
    return Notice("quiet", f"{well_word(plan, after)}: on course for {finished}.")


def _against_expected(
    plan: Plan,
    expected: Expected,
    kind: ReadingKind,
    length_mm: float,
    usual: bool,
    calm: bool,
    slip: bool = False,
) -> Notice:
    """`usual`: whether it is no more than ruler, knots and beads make of it; `calm`: whether nothing is wrong then;
    `slip`: whether it is likely to be a slip of the ruler."""
    unit = display_unit(plan.unit)
    shown = show(expected.mean_mm, unit)
    over_mm = length_mm - expected.mean_mm
    if abs(over_mm) <= AS_EXPECTED_SDS * HANDLING_MM[kind]:
        return Notice("quiet", f"Your reading is as expected ({shown}).")
    meaning = ": nothing unusual" if usual and calm else "" if usual or slip else ": too much to be the ruler"
    side = "more" if over_mm > 0 else "less"
    text = capitalised(f"{difference(over_mm, unit)} {side} than expected ({shown}){meaning}.")
    return Notice("quiet" if usual else "watch", text)


class _OtherStep(Struct, frozen=True):
    """A step near the present one, by its number in the piece, whose end a reading fits: `off` steps later."""

    step: int
    off: int

    def words(self, plan: Plan, length_mm: float, what: str, key: str = "") -> str:
        """That the count may be off. `what`: what says where the piece stands; `key`: what finds out, in brackets."""
        shown, step = show(length_mm, display_unit(plan.unit)), step_name(plan, self.step)
        return f"{shown} is where step {step} ends: is the {what} {_count(self.off)}{key}?"


def _where_another_step_ends(plan: Plan, piece: Piece, expected: Expected, length_mm: float) -> _OtherStep | None:
    """The step near the present one where a reading ends, None where it is no other: the count may be off."""
    near_mm = AS_EXPECTED_SDS * HANDLING_MM["strand"]
    if piece.done == 0 or abs(length_mm - expected.mean_mm) <= 2 * near_mm:
        return None
    entry, number = plan.place(piece.done)
    steps = plan.strands[entry].steps
    at_mm = ruler_mm(plan, entry, number)
    for off in (-1, 1, -2, 2):
        other = number + off
        if not 1 <= other <= len(steps) or steps[other - 1].kind != "string":
            continue
        ends_mm = expected.mean_mm + ruler_mm(plan, entry, other) - at_mm
        if abs(length_mm - ends_mm) <= near_mm:
            return _OtherStep(plan.piece_step(entry, other), off)
    return None


def _count(off: int) -> str:
    """How far the screen is off where the strand ends `off` steps later: "one ahead", "two behind"."""
    return f"{count_word(abs(off)).lower()} {'ahead' if off < 0 else 'behind'}"


def reading_doubt(
    plan: Plan,
    piece: Piece,
    outlook: Outlook,
    kind: ReadingKind,
    length_mm: float,
    after: Outlook | None = None,
    what: str = "screen",
    keys: Keys = NO_KEYS,
) -> str | None:
    """Why a reading can hardly be right, or None: it is then asked about once more, not refused. `after`: the outlook
    with it, which may not believe it either; `what`: what says where the piece stands; `keys`: those that answer."""
    expected = expected_reading(plan, piece, outlook, kind)
    unit = display_unit(plan.unit)
    far_mm = max(DOUBTED_SDS * hypot(expected.sd_mm, HANDLING_MM[kind]), DOUBTED_SHARE * abs(expected.mean_mm))
    if length_mm < 0:
        return "A length is never below zero. Measure again."
    if abs(length_mm - expected.mean_mm) <= far_mm and not _is_not_believed(after, piece, kind, length_mm):
        return None
    far = f"{show(length_mm, unit)} is far from the {show(expected.mean_mm, unit)} expected."
    other = _where_another_step_ends(plan, piece, expected, length_mm) if kind == "strand" else None
    if other is None:
        return sentences(far, "Check the ruler and the unit.")
    first = f"If so, first set it to step {step_name(plan, other.step)}{in_brackets(keys, 'jump')}."
    return sentences(far, other.words(plan, length_mm, what), first)


def _is_not_believed(after: Outlook | None, piece: Piece, kind: ReadingKind, length_mm: float) -> bool:
    """Whether that reading, once taken, would almost certainly be called a slip."""
    slip = after.misread if after else None
    if after is None or slip is None or after.doubtful is None or slip.p < NOT_BELIEVED_FROM:
        return False
    one = after.doubtful
    return not slip.settled and (one.kind, one.step, one.length_mm) == (kind, piece.done, length_mm)


def believed_line(plan: Plan, piece: Piece, outlook: Outlook) -> Notice | None:
    """Right after a reading: what was read beside what is believed. None at any other time, where both agree, for the
    only reading, and where it calls for something to be done, which is said instead."""
    latest = piece.act
    if not isinstance(latest, Measured) or latest.step != piece.done or not _has_company(plan, piece, latest):
        return None
    if outlook.verdict in ("recount", "measure again") or not (outlook.newest is None or outlook.newest.is_usual):
        return None
    unit = display_unit(plan.unit)
    believed = show(expected_reading(plan, piece, outlook, latest.kind).mean_mm, unit)
    read = show(latest.length_mm, unit)
    return None if read == believed else Notice("quiet", f"You read {read}. All readings together make it {believed}.")


def _has_company(plan: Plan, piece: Piece, latest: Measured) -> bool:
    """Whether another reading of its kind and entry counts beside it."""
    entry = plan.place(max(1, latest.step))[0]
    mine = (one for one in piece.readings if one.kind == latest.kind and elements_read(plan, one))
    return sum(plan.place(one.step)[0] == entry for one in mine) > 1


def set_aside_line(plan: Plan, outlook: Outlook) -> Notice | None:
    """That a reading is set aside, the latest of them by name; None where all fit."""
    if not outlook.set_aside:
        return None
    one, unit = outlook.set_aside[-1], display_unit(plan.unit)
    what = "leftover cord, " if one.kind == "free" else ""
    shown = f"{what}{show(one.length_mm, unit)} after step {step_name(plan, one.step)}"
    return Notice("quiet", f"Your {shown} doesn't fit the others. It is set aside.")


def readings_lines(plan: Plan, piece: Piece, set_aside: Sequence[Measured] = ()) -> list[str]:
    """Every reading: what, where, how long, and whether it is taken out, or set aside."""
    unit = display_unit(plan.unit)
    what = {"strand": "strand", "free": "cord left"}

    def state(one: Reading) -> str:
        aside = any(one.measured is other for other in set_aside)
        return ", set aside" if aside else "" if one.counts else ", taken out"

    return [
        f"after step {step_name(plan, one.measured.step) if one.measured.step else '0'}: "
        f"{what[one.measured.kind]} {show(one.measured.length_mm, unit)}{state(one)}"
        for one in piece.all_readings
    ]


def notes_lines(plan: Plan, piece: Piece) -> list[str]:
    """Every note with its step."""
    return [f"at step {step_name(plan, note.step) if note.step else '0'}: {note.text}" for note in piece.notes]
