"""A knot or a closure drawn for the room that it has, with the names of its parts."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.drawing.pixels import Palette, Pixels
from companion.core.picture.colours import Colour, mixed, readable_on
from companion.core.tying.ends import bead_tip, cord_end, crimp, french_wire, round_the_strand
from companion.core.tying.knot_cover import knot_cover
from companion.core.tying.loops import loop_closure, sliding_knot
from companion.core.tying.overhand import overhand
from companion.core.tying.painting import Colours, paint_scene, size_at
from companion.core.tying.scene import UNITS_HIGH, UNITS_WIDE, Name, Scene
from companion.core.tying.shown import A_BEAD, BeadLook, KnotShown
from companion.core.tying.tied import half_hitches, larks_head, reef_knot, surgeons_knot
from companion.core.values.design import KNOT_KINDS

LEAST_SCALE, MOST_SCALE = 0.58, 1.0  # pixels a unit: below it a cord is too thin to be followed
COLUMNS_AWAY, LINES_AWAY = 14, 3  # how far from its part a name may stand
BETWEEN = 3  # columns between two names
METAL: Colour = (176, 178, 184)
GILT: Colour = (206, 164, 60)
BUTTON: Colour = (160, 118, 76)
_SEEN = 3.0  # the least contrast of metal with the page
_OTHER_CORD = 0.55  # how far a second cord leans to the accent


class Written(Struct, frozen=True):
    """The name of a part on the drawing: its first column, and its line."""

    column: int
    line: int
    text: str


class KnotPicture(Struct, frozen=True):
    """The drawing with what is written on it."""

    pixels: Pixels
    names: tuple[Written, ...]


def scene_of(shown: KnotShown) -> Scene | None:
    """Where its cords run; None for what has no drawing."""
    scene = _scene(shown, shown.bead or A_BEAD)
    return scene.for_the_left_hand() if scene and shown.left_handed else scene


def _scene(shown: KnotShown, bead: BeadLook) -> Scene | None:
    for kind in KNOT_KINDS:
        if shown.name == f"{kind} knot":
            return overhand(kind, shown.tool, shown.bead, shown.strung)
    return _tied_scene(shown) or _end_scene(shown, bead)


def _tied_scene(shown: KnotShown) -> Scene | None:
    match shown.name:
        case "half hitch" | "knotted to the clasp":
            return half_hitches()
        case "surgeon's knot" | "endless":
            return surgeons_knot()
        case "reef knot":
            return reef_knot()
        case "lark's head":
            return larks_head()
        case "sliding knot":
            return sliding_knot()
    return None


def _end_scene(shown: KnotShown, bead: BeadLook) -> Scene | None:
    match shown.name:
        case "bead tip and clasp":
            return bead_tip(shown.tool, bead)
        case "knot cover":
            return knot_cover(bead)
        case "French wire and clasp" | "coil of French wire":
            return french_wire(bead)
        case "knot round the strand":
            return round_the_strand(bead)
        case "crimp and clasp" | "crimp":
            return crimp(bead)
        case "cord end and clasp" | "glue-in cord end":
            return cord_end(bead)
        case "loop and button" | "button loop":
            return loop_closure("button", bead)
        case "loop and bead":
            return loop_closure("bead", bead)
    return None


def in_words(shown: KnotShown) -> str:
    """What the drawing shows, for the ear; "" for what has none."""
    scene = scene_of(shown)
    return scene.for_the_ear() if scene else ""


def scale_for(columns: int, lines: int) -> float:
    """Pixels a unit where there are so many columns and lines; 0 where that is too little."""
    scale = min(MOST_SCALE, columns / UNITS_WIDE, 2 * (lines - 1) / UNITS_HIGH)
    return scale if scale >= LEAST_SCALE else 0.0


def lines_at(scale: float) -> int:
    """Lines of the screen that a drawing takes: one more, below it, is for names."""
    return size_at(scale)[1] // 2 + 1


def knot_picture(shown: KnotShown, scale: float, palette: Palette) -> KnotPicture | None:
    """The drawing in the page's colours; None for what has no drawing."""
    scene = scene_of(shown)
    if scene is None:
        return None
    pixels = paint_scene(scene, scale, _colours(shown, palette), palette, shown.layers)
    below = ((None,) * pixels.width,) * 2
    whole = Pixels((*pixels.rows, *below), pixels.letters)
    return KnotPicture(whole, tuple(_written(scene.names, whole, scale)))


def _colours(shown: KnotShown, palette: Palette) -> Colours:
    ground = palette.ground
    return {
        "cord": palette.cord,
        "other cord": mixed(palette.cord, palette.accent, _OTHER_CORD),
        "metal": readable_on(ground, METAL, _SEEN),
        "coil": readable_on(ground, GILT, _SEEN),
        "bead": palette.beads.get("", palette.cord),
        "button": readable_on(ground, BUTTON, _SEEN),
    }


def _written(names: tuple[Name, ...], pixels: Pixels, scale: float) -> Iterator[Written]:
    """Each name in the free place nearest to its part; one that has none near by is left out."""
    taken: list[Written] = []
    for name in names:
        wanted, line = round(name.x * scale - len(name.text) / 2), int(name.y * scale / 2)
        places = sorted(
            (abs(dx) + 2 * abs(dy), wanted + dx, line + dy)
            for dx in range(-COLUMNS_AWAY, COLUMNS_AWAY + 1)
            for dy in range(-LINES_AWAY, LINES_AWAY + 1)
        )
        for _, column, row in places:
            if _is_free(column, row, len(name.text), pixels, taken):
                taken.append(Written(column, row, name.text))
                yield taken[-1]
                break


def _is_free(column: int, line: int, columns: int, pixels: Pixels, taken: list[Written]) -> bool:
    """Whether nothing is painted or written there, nor right beside it."""
    if column < 0 or line < 0 or column + columns > pixels.width or 2 * line + 1 >= len(pixels.rows):
        return False
    reach = slice(max(0, column - 1), column + columns + 1)
    if any(pixel for row in pixels.rows[2 * line : 2 * line + 2] for pixel in row[reach]):
        return False
    return not any(
        one.line == line and column < one.column + len(one.text) + BETWEEN and one.column < column + columns + BETWEEN
        for one in taken
    )
