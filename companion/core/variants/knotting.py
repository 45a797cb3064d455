"""A layout with its knots in other places: after every so many beads, or on both sides of one kind of bead.

What lies before the first bead and after the last stays as it is: those knots belong to the ends. Of a mirror both
sides are counted from their outer ends, with a knot on either side of the middle, so that it stays a mirror.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from companion.core.plan.layout import expand
from companion.core.values.design import Bead, BeadRun, Element, Item, Knot, KnotKind, Mirror, Space


class Knotting(Struct, frozen=True):
    """Where the knots go: after every `every`-th bead, or on both sides of each bead of the key `around`."""

    every: int = 0
    around: str = ""


def can_be_reknotted(elements: Sequence[Element]) -> bool:
    """Whether knots between its beads can be elsewhere: not where bare cord lies there, which they hold the beads on;
    and not with fewer than two beads."""
    first, after = _beaded(elements)
    inside = elements[first:after]
    return sum(isinstance(one, Bead) for one in inside) > 1 and not any(isinstance(one, Space) for one in inside)


def usual_knot(elements: Sequence[Element]) -> KnotKind:
    """The kind that most knots between its beads are of; where there is none there, of all its knots."""
    first, after = _beaded(elements)
    inside = Counter(one.kind for one in elements[first:after] if isinstance(one, Knot))
    every = inside or Counter(one.kind for one in elements if isinstance(one, Knot))
    return max(every, key=lambda kind: every[kind]) if every else "single"


def rerun(layout: Sequence[Item], every: int) -> tuple[Item, ...] | None:
    """The same layout where all that says where knots go between its beads is `knot every`, with another number there;
    else None."""
    beaded = [number for number, item in enumerate(layout) if not isinstance(item, Knot | Space)]
    between = layout[beaded[0] : beaded[-1] + 1] if beaded else ()
    if not any(isinstance(item, BeadRun) for item in between):
        return None
    if not all(isinstance(item, BeadRun | Bead) for item in between):
        return None
    return tuple(replace(item, knot_every=every) if isinstance(item, BeadRun) else item for item in layout)


def reknotted(layout: Sequence[Item], count: int, knotting: Knotting, kind: KnotKind) -> tuple[Element, ...]:
    """The elements at that count for every `fit`, with knots of that kind where the knotting has them."""
    knot = Knot(kind)
    mirror = _only_mirror(layout)
    if knotting.every and mirror is not None:
        before, after = layout[: layout.index(mirror)], layout[layout.index(mirror) + 1 :]
        side = _outward(expand(mirror.side, count), knotting.every, knot)
        middle = list(_grouped([one for one in expand(mirror.middle, count) if isinstance(one, Bead)], knotting, knot))
        inner = [knot, *middle, knot] if middle else [knot]
        return (*expand(before, count), *side, *inner, *reversed(side), *expand(after, count))
    elements = expand(layout, count)
    first, end = _beaded(elements)
    beads = [one for one in elements[first:end] if isinstance(one, Bead)]
    return (*elements[:first], *_grouped(beads, knotting, knot), *elements[end:])


def _only_mirror(layout: Sequence[Item]) -> Mirror | None:
    """The mirror that holds all beads of the layout, None where there is none."""
    beaded = [item for item in layout if not isinstance(item, Knot | Space)]
    return beaded[0] if len(beaded) == 1 and isinstance(beaded[0], Mirror) else None


def _outward(side: Sequence[Element], every: int, knot: Knot) -> list[Element]:
    """One side of a mirror from its outer end, up to its last bead."""
    first, end = _beaded(side)
    beads = [one for one in side[first:end] if isinstance(one, Bead)]
    return [*side[:first], *_grouped(beads, Knotting(every), knot)]


def _grouped(beads: Sequence[Bead], knotting: Knotting, knot: Knot) -> Iterator[Element]:
    """The beads with their knots between them; none after the last."""
    for number, bead in enumerate(beads, start=1):
        yield bead
        if number == len(beads):
            return
        by_count = knotting.every and number % knotting.every == 0
        if by_count or knotting.around in (bead.key, beads[number].key):
            yield knot


def _beaded(elements: Sequence[Element]) -> tuple[int, int]:
    """Where the first bead is, and the place after the last; the end twice where there is none."""
    places = [number for number, one in enumerate(elements) if isinstance(one, Bead)]
    return (places[0], places[-1] + 1) if places else (len(elements), len(elements))
