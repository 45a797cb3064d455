"""The end of a piece in words: how long it came out, and what is left of its cord.

`first_plan` is the plan as the piece began, whatever was changed on the way.
"""

from __future__ import annotations

from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit, over_or_short, show
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.settings import LEAST_SCRAP_MM
from companion.core.words.notices import Notice

# A finished length this far off, as a share, is more likely a slip of the pen: taken, but asked about. Our own choice.
LIKELY_SHARE = (0.7, 1.3)


def aimed_at(first_plan: Plan) -> tuple[str, float]:
    """What a finished length is held against, mm, in words before it: the target, or the length that was planned."""
    if first_plan.target_mm is not None:
        return "the target is", first_plan.target_mm
    return "planned", first_plan.finished_length_mm


def can_be_right(first_plan: Plan, length_mm: float) -> bool:
    """Whether a finished length is near enough to what was aimed at to be taken unasked."""
    low, high = LIKELY_SHARE
    _, aim_mm = aimed_at(first_plan)
    return low * aim_mm < length_mm < high * aim_mm


def finish_line(first_plan: Plan, length_mm: float) -> str:
    """How far a finished length is from what was aimed at: "202 mm: 2 mm over 200 mm."."""
    unit, (_, aim_mm) = display_unit(first_plan.unit), aimed_at(first_plan)
    held = "as it should be" if abs(length_mm - aim_mm) < UNNOTICED_MM else over_or_short(length_mm, aim_mm, unit)
    return f"{show(length_mm, unit)}: {held}."


BEFORE_TRIMMING = "Before you trim,"
_MEASURE_LEFTOVER = "measure what is left of the cord past the closure"


def leftover_line(answer: str) -> Notice:
    """The tails are trimmed next. `answer`: the key, or the words, that take the reading."""
    return Notice("watch", "", action=f"{BEFORE_TRIMMING} {_MEASURE_LEFTOVER}{answer}.")


TAILS_TRIMMED = (
    "The tails are trimmed, so the leftover cord can no longer be measured. If you know how much it was, with what was "
    "trimmed off, say so when you finish the piece."
)


def left_words(left_mm: float, layers: int, unit: DisplayUnit, scrap_mm: float = LEAST_SCRAP_MM) -> str:
    """What is left of the cord, and whether it is worth keeping: from `scrap_mm` on."""
    worth = ": worth keeping, for test knots if nothing else" if left_mm >= scrap_mm else ""
    return f"{left_of(left_mm, layers, unit)} left{worth}."


def left_of(left_mm: float, layers: int, unit: DisplayUnit) -> str:
    """How much of which cord."""
    return f"{show(left_mm, unit)} of {'cord' if layers == 1 else 'each cord'}"
