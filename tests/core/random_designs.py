"""Random designs for tests, drawn from a seed: every layout word, several strands, sides, sizes and closures."""

from __future__ import annotations

import random

from companion.core.closures.table import CLOSURES
from companion.core.values.design import (
    Bead,
    BeadKind,
    BeadRun,
    CordDesign,
    Design,
    End,
    Item,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Space,
    Strand,
)

ONE_END = [name for name, closure in CLOSURES.items() if not closure.both_ends]
BOTH_ENDS = [name for name, closure in CLOSURES.items() if closure.both_ends]


def random_design(seed: int) -> Design:
    """One design that can be planned; the same seed gives the same one."""
    draw = random.Random(seed)
    beads = tuple(
        BeadKind(f"bead{n}", f"Bead {n}", draw.uniform(1.5, 20), draw.uniform(2, 18), draw.choice([None, 1.2, 3.0]))
        for n in range(draw.randint(1, 4))
    )
    size = _size(draw)
    fit_on = size is not None and draw.random() < 0.7
    strands = tuple(_strand(draw, beads, fit_on, n) for n in range(draw.choice([1, 1, 1, 2, 3])))
    return Design("Random light", _cord(draw), beads, strands, size, unit=draw.choice(["mm", "cm", "in"]))


def _cord(draw: random.Random) -> CordDesign:
    kinds = ("single", "double", "triple")
    written = [(kind, KnotNumbers(draw.uniform(2, 40), draw.uniform(0.5, 9))) for kind in kinds if draw.random() < 0.6]
    return CordDesign(
        "cord",
        draw.uniform(0.3, 2),
        draw.randint(1, 3),
        draw.choice(["silk", "leather", "other"]),
        draw.choice(["awl", "needle"]),
        tuple(written),
    )


def _size(draw: random.Random) -> Size | None:
    kind = draw.choice(["length", "wrist", "neck", None])
    if kind is None:
        return None
    ease_mm = 0.0 if kind == "length" else draw.choice([0.0, 12.7, 19.05])
    return Size(kind, draw.uniform(140, 900), ease_mm, draw.choice([3.0, 6.0]))


def _strand(draw: random.Random, beads: tuple[BeadKind, ...], fit_on: bool, number: int) -> Strand:
    layout = [_item(draw, beads, fit_on, 0) for _ in range(draw.randint(1, 5))]
    if fit_on:
        layout.insert(draw.randint(0, len(layout)), Repeat(None, (Bead(beads[0].key), Knot("single"))))
    layout += [Bead(beads[-1].key), Knot("double")]
    if draw.random() < 0.5:
        layout.append(Space(draw.uniform(0, 40)))
    if draw.random() < 0.4:
        name = draw.choice(BOTH_ENDS)
        start = end = name
    else:
        start, end = draw.choice(ONE_END), draw.choice(ONE_END)
    return Strand(
        tuple(layout),
        _end(draw, start),
        _end(draw, end),
        f"strand {number}",
        draw.choice(["along", "along", "from the middle"]),
    )


def _end(draw: random.Random, closure: str) -> End:
    def perhaps() -> float | None:
        return draw.uniform(0, 60) if draw.random() < 0.4 else None

    return End(closure, perhaps(), perhaps(), perhaps())


def _item(draw: random.Random, beads: tuple[BeadKind, ...], fit_on: bool, depth: int) -> Item:
    key = draw.choice(beads).key
    choice = draw.randint(0, 6 if depth < 3 else 2)
    if choice == 0:
        return Knot(draw.choice(["single", "single", "double", "triple"]))
    if choice == 1:
        return Space(draw.choice([0.0, 5.0, draw.uniform(0, 30)]))
    if choice == 2:
        return Bead(key)
    if choice == 3:
        count = None if fit_on and draw.random() < 0.3 else draw.randint(1, 34)
        return BeadRun(key, count, draw.choice([None, 1, 3, 12]))
    inside = tuple(_item(draw, beads, fit_on, depth + 1) for _ in range(draw.randint(1, 3)))
    if choice == 4:
        return Mirror(inside, tuple(_item(draw, beads, fit_on, depth + 1) for _ in range(draw.randint(0, 2))))
    return Repeat(None if fit_on and draw.random() < 0.2 else draw.randint(1, 6), inside)
