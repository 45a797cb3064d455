"""A change to the rest of a piece: a candidate first, and a remedy once it is forecast."""

from __future__ import annotations

from msgspec import Struct

from companion.core.journal.events import Changed, CutEntered
from companion.core.remedies.remaining_layout import Edit
from companion.core.values.design import Element
from companion.core.values.element_codes import Code, to_code


class Candidate(Struct, frozen=True):
    """A change that is not forecast yet, given as edits or as another closure. `change`: the change in words, as part
    of a sentence.

    `family`: candidates of one family make the same change, to different extents; `effort`: how much is changed, with
    one repeat as 1; `uneven`: whether the two sides of a mirror would differ; `breaks`: what it does to the pattern, ""
    for nothing.
    """

    change: str
    family: tuple[str, ...]
    effort: float
    entry: int
    edits: tuple[Edit, ...] = ()
    closure_mm: float = 0.0
    end_closure: str = ""
    uneven: bool = False
    breaks: str = ""

    def and_also(self, other: Candidate) -> Candidate:
        """Both changes together."""
        return Candidate(
            f"{self.change}. Also {other.change}",
            (*self.family, *other.family),
            self.effort + other.effort,
            other.entry if other.closure_mm else self.entry,
            self.edits + other.edits,
            self.closure_mm + other.closure_mm,
            self.end_closure or other.end_closure,
            self.uneven or other.uneven,
            self.breaks or other.breaks,
        )


class Rest(Struct, frozen=True):
    """What follows the first `made` elements of an entry."""

    entry: int
    made: int
    elements: tuple[Element, ...]


class Remedy(Struct, frozen=True):
    """A change with its forecast: the finished length and half of its 95 % interval, mm; the chance to end within
    tolerance (None without a target); the cord it takes, mm a layer (negative if it saves cord); the chances that the
    cord then ends before the last knot, or is short after it.

    `text`: the change and the length it gives, as a sentence; `what`: the change alone, without a full stop. To choose
    a remedy does one of five things. It rewrites `rests`, and the closure of the first of them. It goes back, so that
    `back_to` steps count as done. It joins on new cord (`join`), whose length only the maker knows. It enters another
    cut (`cut`), of a cord that takes the place of the one in hand. Or it leaves the work to her hands (`advice`): then
    it is noted in the journal, and the next reading shows what came of it.
    `knots_longer`: by what share the knots still to come should be longer.
    """

    text: str
    what: str
    finished_mm: float
    half95_mm: float
    p_in_tolerance: float | None
    cord_mm: float
    p_run_out: float
    rests: tuple[Rest, ...] = ()
    closure_mm: float = 0.0
    end_closure: str = ""
    back_to: int | None = None
    join: bool = False
    family: tuple[str, ...] = ()
    effort: float = 0.0
    uneven: bool = False
    advice: bool = False
    p_short_to_hold: float = 0.0
    knots_longer: float = 0.0
    cut: CutEntered | None = None

    @property
    def afresh(self) -> bool:
        """Whether it means taking the piece apart and beginning again, so that today's length and cord no longer
        matter."""
        return self.advice and self.family == ("join",)

    @property
    def holds(self) -> bool:
        """Whether it is only a way to go on with a short cord: nothing is changed by it."""
        return self.family[:1] == ("hold",)

    @property
    def leaves_length(self) -> bool:
        """Whether it has nothing to do with the length: it is for the cord, or begins again."""
        return self.join or self.afresh or self.cut is not None or self.holds

    @property
    def p_short(self) -> float:
        """The chance that the cord is then too short: for the last knot, for the hands, or for the closure."""
        return min(1.0, self.p_run_out + self.p_short_to_hold)

    def event(self, total_steps: int) -> Changed:
        """The event of choosing it. `total_steps`: of the whole piece from then on."""
        first, *others = self.rests
        return Changed(
            first.entry,
            first.made,
            _codes(first),
            self.closure_mm,
            total_steps,
            self.text,
            tuple((rest.entry, rest.made, _codes(rest)) for rest in others),
            self.end_closure,
        )


def _codes(rest: Rest) -> tuple[Code, ...]:
    return tuple(to_code(element) for element in rest.elements)
