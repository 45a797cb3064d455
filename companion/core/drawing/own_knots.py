"""The knots that a closure ties among the beads, where the layout has none: those of French wire."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from msgspec import Struct

from companion.core.plan.ends import MOST_LOOKED_AT, outermost, own_beads
from companion.core.plan.plan import PlannedStrand
from companion.core.values.design import Bead, Element


class OwnKnots(Struct, frozen=True):
    """After which elements of an entry (from 0) a closure ties a knot: the one at its start, the one at its end."""

    at_start: frozenset[int] = frozenset()
    at_end: frozenset[int] = frozenset()


def own_knots(strand: PlannedStrand) -> OwnKnots:
    """Those of one entry."""
    elements, last = strand.elements, len(strand.elements) - 1
    at_start = _beside(elements, own_beads(strand.start_closure, at_start=True))
    places = own_beads(strand.end_closure, at_start=False)
    # Made after the beads, the innermost comes beside the knot that is there, and is one more: see `knots_there`.
    inward = _beside(elements[::-1], places, one_more=True)
    return OwnKnots(
        frozenset(element for element in at_start if element < last),
        frozenset(last - 1 - element for element in inward if element < last),
    )


def _beside(elements: Sequence[Element], places: int, one_more: bool = False) -> Iterator[int]:
    """The numbers of the outermost beads on whose inner side it ties a knot; elements from that end inward."""
    if not places:
        return
    outer = elements[:MOST_LOOKED_AT]
    beads = islice((number for number, element in enumerate(outer) if isinstance(element, Bead)), places)
    for place, (number, knotted) in enumerate(zip(beads, outermost(outer).knotted, strict=False), start=1):
        if not knotted or (one_more and place == places):
            yield number
