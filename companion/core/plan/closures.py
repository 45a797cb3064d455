"""The nine closures: what each end adds, needs and leaves, and the steps that make it. One declarative table.

Lengths are in mm, cord and tail per layer. They are defaults from common practice (no source) except the coil of the
French wire: 3/8 in at each end (Stuller bench article, "Use of French Wire When Stringing on Silk"). A design can
write its own figure beside the closure. In the steps {tail} and {length} stand for the figures really planned.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ClosureEnd:
    """One end of a closure. `passes`: how many times more each layer runs through the holes of `end_beads` beads."""

    length_mm: float
    cord_mm: float
    tail_mm: float
    steps: tuple[str, ...]
    passes: int = 0
    end_beads: int = 0


@dataclass(frozen=True, slots=True)
class Give:
    """How much longer or shorter than planned the end that is made last can still be, mm, and how; the cord a layer
    that each mm of it takes. Common practice, no source."""

    longer_mm: float = 0.0
    shorter_mm: float = 0.0
    longer_how: str = ""
    shorter_how: str = ""
    cord_a_mm: float = 0.0


NO_GIVE = Give()  # a sliding knot, an endless piece or a tail adds no length that could be given


@dataclass(frozen=True, slots=True)
class Closure:
    """Both ends of one closure. `both_ends`: it must be written at both; `cord_apart_mm`: a separate cord, whole.

    `first_side`, `second_side`: the steps that end the two sides of a strand worked from the middle, where they are
    not the start's and the end's own.
    """

    name: str
    start: ClosureEnd
    end: ClosureEnd
    both_ends: bool = False
    # worked from the middle, a strand has two ends and no start: what is done there where it is not as along a strand
    first_side: tuple[str, ...] = ()
    second_side: tuple[str, ...] = ()
    cord_apart_mm: float = 0.0
    gives: Give = NO_GIVE
    tools: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


_CLASP_GIVES = Give(12, 4, "a longer clasp, or a ring", "a shorter clasp")

_BEAD_TIP = Closure(
    "bead tip and clasp",
    ClosureEnd(
        12, 15, 50, ("Thread on a bead tip, knot twice inside its cup with a tail of {tail}; leave the cup open.",)
    ),
    ClosureEnd(
        12,
        15,
        80,
        (
            "Thread on a bead tip, slide it up to the last knot and knot twice inside its cup.",
            "Secure both knots with a drop of glue, let it dry, trim the tails and close the cups.",
            "Hang the clasp on the two bead tips and close their hooks.",
        ),
    ),
    gives=_CLASP_GIVES,
    tools=("flat pliers", "snips", "glue"),
    cautions=("glue", "findings", "snips"),
)
_FRENCH_WIRE = Closure(
    "French wire and clasp",
    ClosureEnd(
        9.5,
        25,
        150,
        (
            "String the first three beads, a coil of French wire and half the clasp; leave a tail of {tail}.",
            "Bring the tail back through the nearest bead, draw the coil into a loop, and knot the tail on. "
            "The three beads are counted in the steps that follow.",
        ),
        passes=1,
        end_beads=3,
    ),
    ClosureEnd(
        9.5,
        25,
        120,
        (
            "Thread on the second coil of French wire and the other half of the clasp, and draw the coil into a loop.",
            "Run the cord back through the last bead, knot it, and run it on through two beads more.",
            "Trim the tails close, where they come out of a bead.",
        ),
        passes=1,
        end_beads=3,
    ),
    first_side=(
        "Thread on a coil of French wire and one half of the clasp, and draw the coil into a loop.",
        "Run the cord back through the last bead, knot it, and run it on through two beads more.",
    ),
    gives=_CLASP_GIVES,
    tools=("fine needle", "snips"),
    cautions=("findings", "snips"),
)
_KNOTTED = Closure(
    "knotted to the clasp",
    ClosureEnd(
        8,
        30,
        100,
        ("Knot the cord to one half of the clasp with a tail of {tail}; run the tail through the first bead.",),
        passes=1,
        end_beads=1,
    ),
    ClosureEnd(
        8,
        30,
        100,
        (
            "Knot the cord to the other half of the clasp and run it back through the last bead.",
            "Draw all tight, and trim the tails close.",
        ),
        passes=1,
        end_beads=1,
    ),
    first_side=("Knot the cord to one half of the clasp and run it back through the last bead.",),
    gives=_CLASP_GIVES,
    tools=("snips",),
    cautions=("findings", "snips"),
)
_CORD_END = Closure(
    "cord end and clasp",
    ClosureEnd(12, 8, 20, ("Trim the cord square, and glue or crimp it into a cord end.",)),
    ClosureEnd(
        12,
        8,
        20,
        (
            "Trim the cord square, and glue or crimp it into the second cord end.",
            "Let any glue set, tug both ends, and hang the clasp.",
        ),
    ),
    gives=_CLASP_GIVES,
    tools=("flat pliers", "snips", "glue"),
    cautions=("glue", "findings", "snips"),
)


def _loop(fob: str) -> Closure:
    start = ClosureEnd(
        14, 45, 60, (f"Make a loop and tie it off with a tail of {{tail}}; it should just pass over the {fob}.",)
    )
    end = ClosureEnd(
        8,
        30,
        80,
        (
            f"Thread on the {fob}, bring the cord back and knot it close beneath.",
            "Tug the knot, trim the tails, and try the loop.",
        ),
    )
    return Closure(
        f"loop and {fob}",
        start,
        end,
        both_ends=True,
        first_side=end.steps,
        second_side=start.steps,
        gives=Give(10, 3, f"a longer shank below the {fob}", f"a shorter shank below the {fob}", 2),
        tools=("snips",),
        cautions=("snips",),
    )


_SLIDING = Closure(
    "sliding knot",
    ClosureEnd(0, 0, 120, ("Leave a tail of {tail}, and hold it with a clip.",)),
    ClosureEnd(
        0,
        0,
        120,
        (
            "Lay the two tails side by side, pointing opposite ways.",
            "Wrap the separate cord round both tails five times, pass its end through the wraps and draw them snug.",
            "Knot the end of each tail, try the slide, and trim.",
        ),
    ),
    both_ends=True,
    cord_apart_mm=250,
    tools=("snips",),
    cautions=("noose", "snips"),
)
_ENDLESS = Closure(
    "endless",
    ClosureEnd(0, 0, 90, ("Leave a tail of {tail}, and hold it with a clip.",)),
    ClosureEnd(
        0,
        20,
        90,
        (
            "Bring the two ends together and tie them with a reef knot, close between the first bead and the last.",
            "Run each tail through the beads beside it, and trim.",
        ),
        passes=1,
        end_beads=2,
    ),
    both_ends=True,
    tools=("snips",),
    cautions=("noose", "snips"),
)
_PLAIN = Closure(
    "plain tail",
    ClosureEnd(0, 0, 80, ("Leave a tail of {tail} before the first knot or bead.",)),
    ClosureEnd(0, 0, 80, ("Leave a tail of {tail}, and trim the rest.",)),
    first_side=("Leave a tail of {tail}.",),
    tools=("snips",),
    cautions=("snips",),
)


def first_side_steps(closure: Closure) -> tuple[str, ...]:
    """The steps that end the first side of a strand worked from the middle."""
    return closure.first_side or closure.start.steps


def second_side_steps(closure: Closure) -> tuple[str, ...]:
    """The steps that end the second side, and with it the piece."""
    return closure.second_side or closure.end.steps


CLOSURES: dict[str, Closure] = {
    closure.name: closure
    for closure in (
        _BEAD_TIP,
        _FRENCH_WIRE,
        _KNOTTED,
        _CORD_END,
        _loop("button"),
        _loop("bead"),
        _SLIDING,
        _ENDLESS,
        _PLAIN,
    )
}
