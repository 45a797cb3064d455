"""What a closure is: both its ends, what else it needs, and how much longer or shorter it can be made."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from companion.core.closures.joint import EndFigures, EndStep, Finding, Joint
from companion.core.values.design import Material

# How the cord meets its first beads: from its end, or from its fold, which is then a loop; by the short end, which
# makes the start before the long end goes on; or by both its ends, one after the other.
Threading = Literal["start to end", "from the fold", "short end first", "both ends"]


class ClosureEnd(Struct, frozen=True):
    """One end of a closure. `passes`: how many times more each cord runs through the holes of the last `end_beads`
    beads. `own_knots`: how many knots it ties beside those beads, where the layout has none."""

    figures: Callable[[Joint], EndFigures]
    steps: Callable[[Joint], tuple[EndStep, ...]]
    passes: int = 0
    end_beads: int = 0
    own_knots: int = 0


class Give(Struct, frozen=True):
    """How much longer or shorter than planned the end that is made last can still be, mm, and how; the cord that each
    mm of it takes. `fitted`: which of the steps that end the strand puts it on, 0 the first, -1 the last. Common
    practice, no source."""

    longer_mm: float = 0.0
    shorter_mm: float = 0.0
    longer_how: str = ""
    shorter_how: str = ""
    cord_a_mm: float = 0.0
    fitted: int = 0


NO_GIVE = Give()  # a sliding knot, an endless piece or a tail adds no length that could be given
CLASP_GIVES = Give(12, 4, "a longer clasp, or a ring", "a shorter clasp")
HUNG_GIVES = Give(12, 4, "a longer clasp, or a ring", "a shorter clasp", fitted=-1)  # on what the cord ends in


class Closure(Struct, frozen=True):
    """Both ends of one closure.

    `both_ends`: it must be written at both. `first_side`, `second_side`: the steps that end the two sides of a strand
    worked from the middle, where they are not the start's and the end's own. `findings`: of both ends together.
    `cord_apart_mm`: a separate cord, whole. `opens_mm`: how much longer the piece is when opened wide. `finishes_with`:
    what its last steps need with cord of that material, beside its `tools`; "" for nothing.
    """

    name: str
    start: ClosureEnd
    end: ClosureEnd
    both_ends: bool = False
    first_side: Callable[[Joint], tuple[EndStep, ...]] | None = None
    second_side: Callable[[Joint], tuple[EndStep, ...]] | None = None
    findings: Callable[[Joint], tuple[Finding, ...]] = lambda joint: ()
    cord_apart_mm: Callable[[Joint], float] = lambda joint: 0.0
    opens_mm: Callable[[Joint], float] = lambda joint: 0.0
    gives: Give = NO_GIVE
    threading: Threading = "start to end"
    tools: tuple[str, ...] = ("snips",)
    finishes_with: Callable[[Material], str] = lambda material: ""
    cautions: tuple[str, ...] = ("snips",)


def fixed(length_mm: float, cord_mm: float, tail_mm: float) -> Callable[[Joint], EndFigures]:
    """Figures that depend on nothing."""
    figures = EndFigures(length_mm, cord_mm, tail_mm)
    return lambda joint: figures


def lines(*texts: str, closes: int = 0) -> tuple[EndStep, ...]:
    """These sentences as steps; the last one that takes cord is number `closes` (from 1), 0: none of them."""
    return tuple(EndStep(text, closes=number == closes) for number, text in enumerate(texts, start=1))
