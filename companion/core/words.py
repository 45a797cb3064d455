"""The sentences that screens and line-at-a-time commands share: short, kind, exact, and good to hear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.core.events import Piece
from companion.core.outlook import Outlook
from companion.core.plan import Plan
from companion.core.show_lengths import DisplayUnit, difference, display_unit, show, show_plus_minus

Loudness = Literal["quiet", "watch", "off"]
MARKS: dict[Loudness, str] = {"quiet": "", "watch": "△", "off": "▲"}


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence or two for the maker, and how much it matters; `mark` says the same without colour."""

    loudness: Loudness
    text: str

    @property
    def mark(self) -> str:
        return MARKS[self.loudness]

    def __str__(self) -> str:
        return f"{self.mark} {self.text}" if self.mark else self.text


def heading(plan: Plan) -> str:
    """The piece and its size: "Skerry bracelet · wrist 6 1/2 in"."""
    return f"{plan.design} · {plan.size.typed}" if plan.size and plan.size.typed else plan.design


def step_name(plan: Plan, step: int) -> str:
    """How a step is written: its number, with its entry where the design has several."""
    entry, number = plan.place(step)
    return f"{plan.strands[entry].label}:{number}" if len(plan.strands) > 1 else str(number)


def step_line(plan: Plan, step: int) -> str:
    """A step for the ear: "Silver daisy, then a single knot. Step 13 of 26."."""
    entry, number = plan.place(step)
    text = plan.strands[entry].steps[number - 1].text
    return f"{text}{'' if text.endswith('.') else '.'} Step {step} of {plan.total_steps}."


def verdict_line(plan: Plan, piece: Piece, outlook: Outlook) -> Line:
    """Whether the piece will come out at its length, in one sentence or two with the number that matters."""
    unit = display_unit(plan.unit)
    if outlook.verdict == "no target":
        return Line("quiet", f"No length is set. {_next_reading(plan, piece, outlook)}".strip())
    if outlook.verdict == "on plan":
        return Line("quiet", f"On plan. {_next_reading(plan, piece, outlook)}".strip())
    finished = show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, unit)
    miss = _miss(plan, outlook, unit)
    if outlook.verdict == "watch":
        return Line("watch", f"Watch. It would finish at {finished}, {miss}. Measure again soon.")
    return Line("off", f"Off. It would finish at {finished}, {miss}.{_reason(outlook)}")


def _miss(plan: Plan, outlook: Outlook, unit: DisplayUnit) -> str:
    assert plan.target_mm is not None
    over_mm = outlook.finished.mean_mm - plan.target_mm
    word = "over" if over_mm > 0 else "short of"
    return f"{difference(abs(over_mm), unit)} {word} the {show(plan.target_mm, unit)} aimed at"


def _reason(outlook: Outlook) -> str:
    """The likely reason, where today's knots clearly differ from the cord's figures."""
    ratio = outlook.knot_ratio
    if ratio is None or abs(ratio.mean_mm - 1) < max(0.03, ratio.sd_mm):
        return " A bead too many or too few would also do it: count them."
    share = f"{abs(ratio.mean_mm - 1):.0%}"
    tight = "longer than this cord's figures: looser" if ratio.mean_mm > 1 else "shorter than this cord's figures: tighter"
    return f" Likeliest: the knots run about {share} {tight} today. Or a bead is missing or extra: count them."


def _next_reading(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    step = outlook.next_reading_step
    if step is None:
        return ""
    if step <= piece.done:
        return "Lay the ruler on now (m)."
    return f"Lay the ruler on at step {step}."


def cord_word(outlook: Outlook) -> str:
    """One or two words on the cord: "enough", "scant", "runs out near step 31"."""
    cord = outlook.entries[outlook.worst_cord].cord
    return cord.verdict
