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


def knot_drawing(kind: KnotKind, letter: str) -> tuple[str, ...]:
    """The drawing of a knot beside the bead of that letter; "": before the first bead, beside nothing."""
    *above, last = KNOT_DRAWINGS[kind]
    return (*above, last.replace(BEAD, f"█{letter}█" if letter else "┄──"))


_MIRRORED = str.maketrans("╭╮╰╯╱╲", "╮╭╯╰╲╱")


def for_the_left_hand(drawing: tuple[str, ...]) -> tuple[str, ...]:
    """The same the other way round: the bead at the right, the working end at the left."""
    width = max(map(len, drawing))
    return tuple(line.ljust(width)[::-1].translate(_MIRRORED).rstrip() for line in drawing)
