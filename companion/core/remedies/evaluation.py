"""What a change would give, forecast on a plan of its own with the same readings, and whether that is better."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import CordCheck, Outlook
from companion.core.journal.piece import Piece
from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Plan
from companion.core.plan.replan import changed_plan, same_steps_made
from companion.core.remedies.basis import RemedyBasis
from companion.core.remedies.remaining_layout import RemainingLayout, edited
from companion.core.remedies.remedy import Candidate, Remedy, Rest
from companion.core.values.assumptions import Assumptions
from companion.core.values.design import Bead, Element
from companion.core.values.measures.show_lengths import display_unit, show_plus_minus
from companion.core.values.text import capitalised, count_word

LEAST_GAIN = 0.01  # chance that a remedy has to win over leaving the piece alone
STRUNG = "All beads are strung already"
NEARER_SHARE = 0.8  # or, with a chance no worse, the share of today's miss that it must stay below
ROUNDING = 1e-9


class Baseline(Struct, frozen=True):
    """The piece as it stands, with which every change is compared. `faults`: whether the forecast includes what may
    have gone wrong."""

    plan: Plan
    piece: Piece
    outlook: Outlook
    assumptions: Assumptions
    faults: bool

    @property
    def cord(self) -> CordCheck:
        """The cord that is most likely to run out."""
        return self.outlook.entries[self.outlook.worst_cord].cord

    @property
    def over_mm(self) -> float:
        """How far the piece would miss its target, mm; negative if it is too short. The plan must have a target."""
        assert self.plan.target_mm is not None
        return self.outlook.finished.mean_mm - self.plan.target_mm

    def basis(self, entries: tuple[int, ...]) -> RemedyBasis:
        """The basis for changes to the strand that these entries make up."""
        return RemedyBasis.of(self.plan, RemainingLayout.of(self.plan, self.piece, entries), self.outlook)

    def strand_of(self, entry: int) -> tuple[int, ...]:
        """All entries of the strand that this entry belongs to."""
        return next(group for group in strand_groups(self.plan.strands) if entry in group)

    def forecast(self, plan: Plan, piece: Piece) -> Outlook:
        """The forecast for that piece by that plan."""
        return Forecaster(plan, self.assumptions, self.faults).outlook(piece)

    def remedy(self, candidate: Candidate) -> Remedy | None:
        """The candidate with its forecast; None if it would change a step that is already done."""
        layout = RemainingLayout.of(self.plan, self.piece, self.strand_of(candidate.entry))
        rests = tuple(
            Rest(side.entry, side.made, edited(side, candidate.edits)[side.made :])
            for side in sorted(layout.sides, key=lambda side: side.entry != candidate.entry)
            if side.entry == candidate.entry or any(edit.entry == side.entry for edit in candidate.edits)
        )
        differ = ". The two sides will then differ" if candidate.uneven else ""
        what = (
            capitalised(candidate.change) + differ + (f". {capitalised(candidate.breaks)}" if candidate.breaks else "")
        )
        what += "".join(f". {told}" for rest in rests if (told := self._strung_words(rest)))
        draft = Remedy(
            "", what, 0.0, 0.0, None, 0.0, 0.0, rests, candidate.closure_mm, candidate.end_closure,
            family=candidate.family, effort=candidate.effort, uneven=candidate.uneven,
        )  # fmt: skip
        plan = changed_plan(self.plan, (draft.event(0),))
        if not same_steps_made(self.plan, plan, self.piece.done):
            return None
        cord_mm = sum(plan.strands[rest.entry].need_mm - self.plan.strands[rest.entry].need_mm for rest in rests)
        return replace(self.with_outlook(draft, self.forecast(plan, self.piece)), cord_mm=cord_mm)

    def _strung_words(self, rest: Rest) -> str:
        """What a rest asks of beads that are all on its cord already, without a full stop; "" where nothing."""
        strand, done = self.plan.strands[rest.entry], self.piece.done - self.plan.piece_step(rest.entry, 0)
        if not strand.strung_all_first or done <= 0 or strand.steps[min(done, len(strand.steps)) - 1].kind == "start":
            return ""  # before the first knot nothing says that they are on
        on, wanted = _beads(strand.elements[rest.made :]), _beads(rest.elements)
        more = len(wanted) - len(on)
        if on == wanted:
            return ""
        if wanted == on[: len(wanted)]:
            return f"{STRUNG}: first take {count_word(-more).lower()} off the loose end"
        if on == wanted[: len(on)]:
            return f"{STRUNG}: first thread {count_word(more).lower()} more on at the loose end"
        return f"{STRUNG}: first take the loose ones off, and string them again in the new order"

    def with_outlook(self, draft: Remedy, outlook: Outlook) -> Remedy:
        """The remedy with its forecast and its sentence."""
        finished = outlook.finished
        shown = show_plus_minus(finished.mean_mm, finished.half95_mm, display_unit(self.plan.unit))
        cord = outlook.entries[outlook.worst_cord].cord
        return replace(
            draft,
            text=f"{draft.what}. It would finish at {shown}.",
            finished_mm=finished.mean_mm,
            half95_mm=finished.half95_mm,
            p_in_tolerance=outlook.p_in_tolerance,
            p_run_out=cord.p_run_out,
            p_short_to_hold=cord.p_short_to_hold,
        )

    def is_bettered_by(self, remedy: Remedy) -> bool:
        """Whether a remedy brings the length nearer to the target and leaves enough cord."""
        assert self.plan.target_mm is not None
        p_now, p = self.outlook.p_in_tolerance or 0.0, remedy.p_in_tolerance or 0.0
        miss_mm = abs(remedy.finished_mm - self.plan.target_mm)
        nearer = p >= p_now and miss_mm < NEARER_SHARE * abs(self.over_mm)
        return (p > p_now + LEAST_GAIN or nearer) and self._cord_allows(remedy)

    def _cord_allows(self, remedy: Remedy) -> bool:
        """Whether there will be enough cord, or at least as good a chance of it as now.

        The maker's own run-out risk would be too strict here. It is meant for a piece that goes well, while the
        forecast also counts what may still go wrong, which by itself is more than one in a hundred.
        """
        most = max(self.plan.risk, 1 - self.assumptions.enough_above, self.cord.p_short)
        return remedy.p_short <= most + ROUNDING


def _beads(elements: Iterable[Element]) -> tuple[Bead, ...]:
    return tuple(one for one in elements if isinstance(one, Bead))
