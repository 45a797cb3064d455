"""Closures of cord alone: a loop over a button or a bead, and the knot that slides."""

from __future__ import annotations

from companion.core.tying.overhand import bead_body
from companion.core.tying.scene import Body, CordPath, Name, Point, Scene
from companion.core.tying.shown import A_BEAD, BeadLook
from companion.core.tying.ways import as_a_fold, turned_about, wrapped_round


def loop_closure(over: str, bead: BeadLook = A_BEAD) -> Scene:
    """The loop, knotted in the folded cord, round what it passes over: a button or a bead."""
    level, aside, out = 17.5, 3.4, 20.9
    below, above = turned_about((16, 33), level, aside, 3)
    top: tuple[Point, ...] = (
        (36.5, 12.6, 0), (37.4, 8.6, 0), (34, 4.6, 0), (27, 3.4, 0), (19, 3.6, 0), (14, 6.6, 0), (13, 10.4, 0),
        (13.8, 13.2, 0),
    )  # fmt: skip
    way = ((4.0, out, 0.0), (10.0, out, 0.0), *below, *top, *above, (36.0, out - 0.3, 0.0), (39.0, out - 2.0, 0.0))
    loop: tuple[Point, ...] = (
        (41, 14.5, 0), (43, 9.2, 0), (48.5, 6.3, 0), (54.5, 8, 0), (57.6, 13, 0), (56.4, 19, 0), (51.5, 22.8, 0),
        (45.5, 22.6, 0),
    )  # fmt: skip
    folded = as_a_fold(way, 0.95, loop)
    cord = CordPath(((0.0, out - 0.95, 0.0), *folded), radius=0.95, in_layers=False)
    closing = bead_body(bead, 55, 14.6) if over == "bead" else Body("button", "round", (49.4, 14.6, -6), 10.5, 10.5)
    names = (Name("tail", 5, 25), Name("knot", 25, 10), Name("loop", 58, 4), Name(over, 49, 26), Name("strand", 4, 17))
    return Scene((cord,), (closing,), names, _LOOPS[over])


def sliding_knot() -> Scene:
    """A separate cord wrapped round both tails, which slide in it."""
    level = 13.5
    one = CordPath(
        ((0, level - 2, 0), (20, level - 1.6, 0), (40, level - 1.6, 0), (52, level - 3, 0), (60, level - 5, 0))
    )
    two = CordPath(
        ((60, level + 2, 0), (40, level + 1.6, 0), (20, level + 1.6, 0), (8, level + 3, 0), (0, level + 5, 0))
    )
    wrapped = (
        (10.0, 23.5, 0.0), (16.0, 20.5, 0.0), (22.0, level + 4.4, 0.0), (38.0, level + 4.4, 0.0),
        (43.5, level + 5, 0.0), *wrapped_round((44.0, 15.0), level, 6.4, 5),
        (14.4, level + 4.0, -3.0), (17.0, level - 4.0, -1.0), (24.0, level - 4.4, 0.0), (38.0, level - 4.4, 0.0),
        (46.0, level - 6.0, 0.0), (52.0, 3.5, 0.0),
    )  # fmt: skip
    names = (
        Name("tail", 57, 13), Name("tail", 3, 23), Name("wraps", 30, 24), Name("its start", 14, 25),
        Name("its end", 52, 1),
    )  # fmt: skip
    return Scene((one, two, CordPath(wrapped, "other cord", radius=1.1, in_layers=False)), (), names, _SLIDING)


_LOOPS = {
    "button": "The folded cord is tied in a single knot, both its legs together. The fold stands out to the {right} as "
    "a loop, and the button lies in it. At the {left} are the strand and the tail.",
    "bead": "The folded cord is tied in a single knot, both its legs together. The fold stands out to the {right} as a "
    "loop, and the bead lies in it. At the {left} are the strand and the tail.",
}
_SLIDING = (
    "The two tails lie side by side and point opposite ways. A separate cord runs along them to the {right}, goes five "
    "times round all of it towards the {left}, and comes back to the {right} under its own wraps."
)
