"""The texts of the follow screen's quiet corners: heading, the four figures, what comes after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from companion.core.journal.names import shown_name
from companion.core.journal.pace import Pace
from companion.core.picture.marks import letters_of
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_both
from companion.core.words.notices import heading
from companion.core.words.step_words import step_in_short
from companion.tui.widgets.wrapping import shortened
from companion.workshop import OpenPiece

if TYPE_CHECKING:
    from companion.core.forecast.outlook import CordVerdict, Outlook

LEAST_FOR_OTHER_UNIT = 70
# Where the right-hand figures stand: where there is room for both units, for one, and for one of two figures or more.
WIDE_COLUMN, SLIM_COLUMN, SLIM_COLUMN_LONG = 38, 30, 33
LONG_MM = 254.0


def heading_line(opened: OpenPiece, pace: Pace, width: int) -> Content:
    """The piece on the left; step and time left on the right."""
    plan, done, total = opened.plan, opened.piece.done, opened.plan.total_steps
    right = f"step {done + 1} of {total}" if done < total else f"all {total} steps done"
    if len(plan.strands) > 1 and done < total:
        right = f"{plan.strands[plan.place(done + 1)[0]].title} · {right}"
    left_time = time_left(pace)
    title = heading(plan, opened.name)
    if left_time and cell_len(title) + cell_len(right) + len(left_time) + 6 <= width:
        right = f"{right} · {left_time}"
    if cell_len(title) + cell_len(right) + 2 > width:
        title = shortened(shown_name(opened.name, plan.design), max(0, width - cell_len(right) - 2))
    gap = max(1, width - cell_len(title) - cell_len(right))
    return Content.assemble((title, "bold"), " " * gap, right)


def time_left(pace: Pace) -> str:
    """ "about 20 min", "" before there is enough to go by."""
    if not pace.seconds_left:
        return ""
    minutes = pace.seconds_left / 60
    if minutes < 1.5:
        return "about a minute"
    if minutes < 90:
        return f"about {round(minutes)} min" if minutes < 20 else f"about {round(minutes / 5) * 5} min"
    return f"about {minutes / 60:.1f} h"


def four_figures(opened: OpenPiece, outlook: Outlook, width: int) -> Content:
    """Strand now, finishes at, free cord, cord: always in the same corner each."""
    from companion.core.words.measured.cord_words import cord_is_done
    from companion.core.words.measured.reading_words import expected_reading
    from companion.core.words.measured.reason_words import finishes_at

    plan, piece = opened.plan, opened.piece
    unit = display_unit(plan.unit)
    strand = expected_reading(plan, piece, outlook, "strand")
    free = expected_reading(plan, piece, outlook, "free")
    left = show(free.mean_mm, unit) if free.mean_mm > 0 else "none left"
    layers = " each" if plan.strands[0].layers > 1 and free.mean_mm > 0 else ""
    strand_own, strand_other = show_both(strand.mean_mm, unit)
    other = f"   {strand_other}" if width >= LEAST_FOR_OTHER_UNIT else ""
    finished = finishes_at(plan, piece, outlook)
    top = [("strand now  ", "$secondary"), (strand_own, "bold"), (other, "$secondary")]
    # A length that may turn out either way is marked, and no more is said of it.
    ends = [("finishes ", "$secondary"), ("△  ", "bold $warning")]
    bottom = [*(ends if outlook.verdict == "watch" else [("finishes at ", "$secondary")]), (finished, "bold")]
    if cord_is_done(plan, outlook):  # the cord has done its work
        return Content("\n").join([Content.assemble(*top), Content.assemble(*bottom)])
    column = max(_column(plan, width), *(sum(len(text) for text, _ in row) + 1 for row in (top, bottom)))
    if column + len("leftover   ") + len(left) + len(layers) <= width:
        left += layers
    return Content("\n").join(
        [
            _side_by_side(top, [("leftover   ", "$secondary"), (left, "bold")], column),
            _side_by_side(bottom, [("cord       ", "$secondary"), _cord(plan, outlook, width)], column),
        ]
    )


CORD_LOOKS: dict[CordVerdict, tuple[str, str]] = {
    "enough": ("", "bold $success"),
    "short to hold": ("△ ", "bold $warning"),
    "scant": ("△ ", "bold $warning"),
    "runs out": ("▲ ", "bold $error"),
}


def _column(plan: Plan, width: int) -> int:
    """Where the right-hand figures stand in this piece, whatever the left-hand ones say."""
    if width >= LEAST_FOR_OTHER_UNIT:
        return max(WIDE_COLUMN, width // 2)
    return SLIM_COLUMN_LONG if plan.finished_length_mm >= LONG_MM else SLIM_COLUMN


def _cord(plan: Plan, outlook: Outlook, width: int) -> tuple[str, str]:
    from companion.core.words.measured.cord_words import cord_word

    word = cord_word(plan, outlook, short=width < LEAST_FOR_OTHER_UNIT)
    verdict = outlook.entries[outlook.worst_cord].cord.verdict
    mark, style = CORD_LOOKS[verdict]
    return mark + word, style


def _side_by_side(left: list[tuple[str, str]], right: list[tuple[str, str]], column: int) -> Content:
    width = sum(len(text) for text, _ in left)
    return Content.assemble(*left, " " * (column - width), *right)


def coming(plan: Plan, done: int, width: int) -> Content:
    """The next few steps, small: "After that: G knot · S knot"; those that begin or close the piece are one."""
    letters = letters_of(plan.beads)
    shown = "After that: "
    parts: list[str] = []
    for step_number in range(done + 2, min(done + 7, plan.total_steps + 1)):
        entry, number = plan.place(step_number)
        step = plan.strands[entry].steps[number - 1]
        words = step_in_short(step, letters)
        if step.kind != "string" and parts[-1:] == [words]:
            continue
        if len(shown) + sum(len(part) + 3 for part in parts) + len(words) > width:
            break
        parts.append(words)
    return Content(shown + " · ".join(parts) if parts else "")
