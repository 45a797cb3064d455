"""The ten closures by name. Their names are words of the design file."""

from __future__ import annotations

from companion.core.closures.clasps import BEAD_TIP, CORD_END, CRIMP, FRENCH_WIRE, KNOTTED
from companion.core.closures.closure import Closure
from companion.core.closures.loops import LOOP_AND_BEAD, LOOP_AND_BUTTON
from companion.core.closures.tied import ENDLESS, PLAIN, SLIDING

CLOSURES: dict[str, Closure] = {
    closure.name: closure
    for closure in (
        BEAD_TIP,
        FRENCH_WIRE,
        KNOTTED,
        CORD_END,
        CRIMP,
        LOOP_AND_BUTTON,
        LOOP_AND_BEAD,
        SLIDING,
        ENDLESS,
        PLAIN,
    )
}
