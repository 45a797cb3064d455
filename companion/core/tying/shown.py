"""Which knot or closure is to be drawn, and with what."""

from __future__ import annotations

from msgspec import Struct

from companion.core.drawing.bodies import BodyForm
from companion.core.picture.colours import Colour
from companion.core.values.design import Tool


class BeadLook(Struct, frozen=True):
    """How the bead beside a knot is drawn: its form, its length to its width, its letter."""

    form: BodyForm = "round"
    ratio: float = 1.0
    letter: str = ""


A_BEAD = BeadLook(letter="G")  # where there is no piece


class KnotShown(Struct, frozen=True):
    """One drawing. `name`: as the how-to has it; `bead` None: before the first one; `strung`: the beads to come are on
    the cord already; `colour`: the bead's own, None where it has none."""

    name: str
    tool: Tool = "awl"
    layers: int = 1
    left_handed: bool = False
    bead: BeadLook | None = A_BEAD
    strung: bool = False
    colour: Colour | None = None
