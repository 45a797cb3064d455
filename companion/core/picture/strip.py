"""A small strip of a piece's own beads, a column each: for the row of a list."""

from __future__ import annotations

from itertools import islice

from msgspec import Struct

from companion.core.picture.colours import Colour
from companion.core.picture.marks import coming_letter, marks_of
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead

MOST_BEADS = 60  # that are kept of a piece; no strip is wider
MADE, COMING = "●", "○"


class StripCell(Struct, frozen=True):
    """One bead. `letter`: small where it is still to come."""

    letter: str
    colour: Colour | None
    made: bool

    @property
    def form(self) -> str:
        """Solid or hollow, as it is on or not."""
        return MADE if self.made else COMING


class BeadStrip(Struct, frozen=True):
    """The beads of a piece in the order of the work: of the first ones letter and colour; how many there are; and how
    many are on after each step, before the first one to begin with."""

    beads: tuple[tuple[str, Colour | None], ...]
    all_beads: int
    after_step: tuple[int, ...]

    def cells(self, columns: int, steps_done: int | None = None) -> tuple[StripCell, ...]:
        """So many cells at the most: of a piece with as many beads or fewer each of them, else the first ones, as large
        a share of them made as of the whole. `steps_done` None: all are made."""
        shown = self.beads[: max(0, columns)]
        on = self.all_beads if steps_done is None else self.after_step[min(steps_done, len(self.after_step) - 1)]
        made = on * len(shown) // self.all_beads if self.all_beads else 0
        return tuple(
            StripCell(letter if place < made else coming_letter(letter), colour, place < made)
            for place, (letter, colour) in enumerate(shown)
        )


def bead_strip(plan: Plan) -> BeadStrip:
    """The strip of a plan's beads, its entries one after another."""
    marks = {mark.key: (mark.letter, mark.colour) for mark in marks_of(plan.beads)}
    keys = (element.key for strand in plan.strands for element in strand.elements if isinstance(element, Bead))
    after, on = [0], 0
    for strand in plan.strands:
        for step in strand.steps:
            on += len(step.beads)
            after.append(on)
    beads = tuple(marks[key] for key in islice(keys, MOST_BEADS))
    return BeadStrip(beads, sum(count for strand in plan.strands for _, count in strand.beads), tuple(after))
