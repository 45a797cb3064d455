"""The three knots before they are drawn tight: our own drawings, in characters one column wide.

One cord, from the bead at the left to the working end at the right: a loop above, its two legs twisted round each other
below. The leg drawn unbroken through a crossing passes over, the broken one under. Each pass through the loop makes two
crossings more: three are a single knot, five a double, seven a triple.
"""

from __future__ import annotations

from companion.core.values.design import KnotKind

CROSSINGS: dict[KnotKind, int] = {"single": 3, "double": 5, "triple": 7}

KNOT_DRAWINGS: dict[KnotKind, tuple[str, ...]] = {
    "single": (
        "    ╭───────────────╮",
        "    │               │",
        "    │               │",
        "    ╰───╲ ╱╲ ╱╲ ╱───╯",
        "         ╲  ╲  ╲",
        "█G█─────╱ ╲╱ ╲╱ ╲────────",
    ),
    "double": (
        "    ╭───────────────────╮",
        "    │                   │",
        "    │                   │",
        "    ╰──╲ ╱╲ ╱╲ ╱╲ ╱╲ ╱──╯",
        "        ╲  ╲  ╲  ╲  ╲",
        "█G█────╱ ╲╱ ╲╱ ╲╱ ╲╱ ╲─────",
    ),
    "triple": (
        "   ╭─────────────────────────╮",
        "   │                         │",
        "   │                         │",
        "   ╰──╲ ╱╲ ╱╲ ╱╲ ╱╲ ╱╲ ╱╲ ╱──╯",
        "       ╲  ╲  ╲  ╲  ╲  ╲  ╲",
        "█G█───╱ ╲╱ ╲╱ ╲╱ ╲╱ ╲╱ ╲╱ ╲───",
    ),
}

BEAD = "█G█"  # as it stands in the drawings
LOOP_LINE = 1  # through the middle of the loop


def knot_drawing(kind: KnotKind, letter: str, left_handed: bool = False, strung: bool = False) -> tuple[str, ...]:
    """The drawing of a knot beside the bead of that letter, its parts named; "": before the first bead, beside nothing.
    `strung`: the beads to come are on the cord already."""
    *above, last = KNOT_DRAWINGS[kind]
    drawing = (*above, last.replace(BEAD, f"█{letter}█" if letter else "┄──"))
    return _named(
        for_the_left_hand(drawing) if left_handed else drawing,
        "bead" if letter else "standing end",
        "to the next beads" if strung else "working end",
        left_handed,
    )


def _named(drawing: tuple[str, ...], begins: str, ends: str, left_handed: bool) -> tuple[str, ...]:
    """The drawing with the loop named inside it, and below it what the cord comes from and where it goes."""
    lines, width = list(drawing), max(map(len, drawing))
    left, right = (ends, begins) if left_handed else (begins, ends)
    inside = lines[LOOP_LINE]
    opens, closes = inside.index("│"), inside.rindex("│")
    lines[LOOP_LINE] = f"{inside[: opens + 1]}{'loop'.center(closes - opens - 1)}{inside[closes:]}"
    return (*lines, f"{left}{right.rjust(max(width - len(left), len(right) + 1))}")


_MIRRORED = str.maketrans("╭╮╰╯╱╲", "╮╭╯╰╲╱")


def for_the_left_hand(drawing: tuple[str, ...]) -> tuple[str, ...]:
    """The same the other way round: the bead at the right, the working end at the left."""
    width = max(map(len, drawing))
    return tuple(line.ljust(width)[::-1].translate(_MIRRORED).rstrip() for line in drawing)
