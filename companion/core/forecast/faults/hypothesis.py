"""A fault hypothesis: one thing that may have gone wrong in a piece, where, and how it would shift what is read.

A hypothesis shifts means and leaves covariances as they are. So it is weighed with the Cholesky factor that the
forecast has anyway: let u be the readings' innovation and d the hypothesis's shift, both whitened; then its log
likelihood ratio against "nothing wrong" is u·d − d·d/2. The shift of a size (a share of tension, a bead more or fewer,
millimetres misread) is the size times the shift of a size of 1, so that only the latter has to be whitened.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from companion.core.forecast.faults.segment import Segment
from companion.core.plan.uncertainty.covariance import Quantity

FaultKind = Literal[
    "tension changed",
    "tension drifting",
    "bead missed",
    "bead too many",
    "knot missed",
    "knot too many",
    "double as single",
    "misread",
    "cut shorter",
    "cut longer",
    "cord shortened",
]
MISREAD: FaultKind = "misread"


class FaultSize(Struct, frozen=True):
    """A size that a fault may have: its share of the hypothesis's prior, and what a fault of this size is called."""

    size: float
    share: float
    kind: FaultKind


class Hypothesis(Struct, frozen=True):
    """A fault that may have begun in a segment. `prior`: its chance, all sizes together.

    `unit_shift`: by how many mm a size of 1 shifts a quantity. `detail`: the bead's key, the knot's kind, or which kind
    of reading. `reading`: the number (from 0) of the one that was misread. `begins`: after how many elements the fault
    began, where that is one place.
    """

    segment: Segment
    prior: float
    sizes: tuple[FaultSize, ...]
    unit_shift: Callable[[Quantity], float]
    detail: str = ""
    reading: int | None = None
    begins: int | None = None
