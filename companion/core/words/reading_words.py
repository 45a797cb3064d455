"""Ruler readings in words: where to measure from, what to expect, and what a reading would mean."""

from __future__ import annotations

from math import hypot

from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import ReadingKind
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, Knot
from companion.core.values.expected import Expected
from companion.core.values.show_lengths import difference, display_unit, show, show_plus_minus
from companion.core.values.text import capitalised
from companion.core.words.cord_words import cord_line
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_name
from companion.core.words.verdict_words import verdict_line

# The standard deviation of laying a ruler on, mm.
HANDLING_MM: dict[ReadingKind, float] = {"strand": USUAL.strand_handling_mm, "free": USUAL.free_cord_handling_mm}
# Our own choices: in standard deviations of laying the ruler on, then of that and the forecast together; as a share.
AS_EXPECTED_SDS = 1.5
USUAL_SDS = 2.0
DOUBTED_SDS, DOUBTED_SHARE = 6.0, 0.3


def where_from(plan: Plan, entry: int) -> str:
    """Where the ruler's nought lies: at the first knot or bead; what closes the strand is left out."""
    strand = plan.strands[entry]
    first = strand.elements[0]
    if isinstance(first, Bead):
        what = f"the first {plan.bead(first.key).name}"
    else:
        what = "the first knot" if isinstance(first, Knot) else "where the bare cord begins"
    closed = strand.start_closure not in ("", "plain tail")
    return f"From {what} to here{', the closure before it left out' if closed else ''}."


def expected_reading(plan: Plan, piece: Piece, outlook: Outlook, kind: ReadingKind) -> Expected:
    """What the ruler should say after the last made step: the strand, or the free cord per layer, of its entry."""
    entry = plan.place(piece.done)[0] if piece.done else 0
    now = outlook.entries[entry]
    return now.strand_now if kind == "strand" else now.free_now


def reading_lines(
    plan: Plan, piece: Piece, before: Outlook, after: Outlook, kind: ReadingKind, length_mm: float
) -> tuple[Notice, ...]:
    """What a reading at the present step would mean, before it is taken: `before` without it, `after` with it."""
    against = _against_expected(plan, expected_reading(plan, piece, before, kind), kind, length_mm)
    if kind == "free":
        return against, cord_line(plan, after)
    if after.verdict != "on plan":
        return against, verdict_line(plan, piece, after)
    finished = show_plus_minus(after.finished.mean_mm, after.finished.half95_mm, display_unit(plan.unit))
    return against, Notice("quiet", f"On plan: it would finish at {finished}.")


def _against_expected(plan: Plan, expected: Expected, kind: ReadingKind, length_mm: float) -> Notice:
    unit = display_unit(plan.unit)
    shown = show(expected.mean_mm, unit)
    over_mm = length_mm - expected.mean_mm
    if abs(over_mm) <= AS_EXPECTED_SDS * HANDLING_MM[kind]:
        return Notice("quiet", f"As expected ({shown}).")
    usual = abs(over_mm) <= USUAL_SDS * hypot(expected.sd_mm, HANDLING_MM[kind])
    meaning = "within what is usual" if usual else "more than a ruler error"
    side = "more" if over_mm > 0 else "less"
    text = capitalised(f"{difference(over_mm, unit)} {side} than expected ({shown}): {meaning}.")
    return Notice("quiet" if usual else "watch", text)


def reading_doubt(plan: Plan, piece: Piece, outlook: Outlook, kind: ReadingKind, length_mm: float) -> str | None:
    """Why a reading can hardly be right, or None: it is then asked about once more, not refused."""
    expected = expected_reading(plan, piece, outlook, kind)
    unit = display_unit(plan.unit)
    far_mm = max(DOUBTED_SDS * hypot(expected.sd_mm, HANDLING_MM[kind]), DOUBTED_SHARE * abs(expected.mean_mm))
    if length_mm < 0:
        return "A length can't be below nothing: read the ruler again."
    if abs(length_mm - expected.mean_mm) <= far_mm:
        return None
    return (
        f"{show(length_mm, unit)} is far from the {show(expected.mean_mm, unit)} expected. "
        "Is the ruler laid right, and the unit?"
    )


def set_aside_line(plan: Plan, outlook: Outlook) -> Notice | None:
    """That a reading is set aside, the latest of them by name; None where all fit."""
    if not outlook.set_aside:
        return None
    one, unit = outlook.set_aside[-1], display_unit(plan.unit)
    what = "leftover cord, " if one.kind == "free" else ""
    shown = f"{what}{show(one.length_mm, unit)} after step {step_name(plan, one.step)}"
    return Notice("quiet", f"Your {shown} doesn't fit the others. It is set aside.")
