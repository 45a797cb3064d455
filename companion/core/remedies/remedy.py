"""What a remedy is: an idea for the rest of a piece, and what the forecast makes of it."""

from __future__ import annotations

from dataclasses import dataclass

from companion.core.journal.events import Changed
from companion.core.remedies.remaining_layout import Edit
from companion.core.values.design import Element
from companion.core.values.element_codes import to_code


@dataclass(frozen=True, slots=True)
class Idea:
    """A change, not yet forecast: in words, as edits, or as another closure.

    `family`: ideas of one family are the same thing done more or less; `effort`: how much is changed, one repeat being
    1; `uneven`: it would leave a mirror's two sides different.
    """

    words: str
    family: tuple[str, ...]
    effort: float
    entry: int
    edits: tuple[Edit, ...] = ()
    closure_mm: float = 0.0
    end_closure: str = ""
    uneven: bool = False

    def and_also(self, other: Idea) -> Idea:
        """Both together."""
        return Idea(
            f"{self.words}, and {other.words[:1].lower()}{other.words[1:]}",
            (*self.family, *other.family),
            self.effort + other.effort,
            other.entry if other.closure_mm else self.entry,
            self.edits + other.edits,
            self.closure_mm + other.closure_mm,
            self.end_closure or other.end_closure,
            self.uneven or other.uneven,
        )


@dataclass(frozen=True, slots=True)
class Rest:
    """After `made` elements of an entry, `elements` are what is left of it."""

    entry: int
    made: int
    elements: tuple[Element, ...]


@dataclass(frozen=True, slots=True)
class Remedy:
    """One change: in words; the finished length it gives, mm, and half of its 95 % interval; the chance of tolerance
    (None without a target); the cord it costs, or saves where it is below nothing, mm a layer; the chance that the cord
    then runs out.

    `what`: the change alone, in a few words. Choosing it rewrites `rests` and the closure of the first of them; or
    goes back, so that `back_to` steps count as made; or joins new cord on (`join`), of a length only the maker knows.
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

    def event(self, total_steps: int) -> Changed:
        """Choosing it, as an event; `total_steps`: the whole piece's from then on."""
        first, *others = self.rests
        return Changed(
            first.entry,
            first.made,
            tuple(to_code(element) for element in first.elements),
            self.closure_mm,
            total_steps,
            self.text,
            tuple((rest.entry, rest.made, tuple(to_code(e) for e in rest.elements)) for rest in others),
            self.end_closure,
        )
