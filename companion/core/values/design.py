"""The design of a piece, as the maker saved it: values only, all lengths in millimetres."""

# Its annotations are types, not text: a plan that is kept is read by them, and every command reads one.
from typing import Literal, get_args

from msgspec import Struct, field

KnotKind = Literal["single", "double", "triple"]
Material = Literal[
    "silk", "nylon", "polyester", "cotton", "linen", "hemp", "waxed linen", "waxed cotton", "leather", "suede", "other"
]
Tool = Literal["awl", "needle", "tweezers", "knotting tool"]
Stringing = Literal["all first", "as you go"]
SizeKind = Literal["length", "wrist", "neck"]
Work = Literal["along", "from the middle"]

KNOT_KINDS: tuple[KnotKind, ...] = get_args(KnotKind)
LAYOUT_WORDS = ("space", "repeat", "of", "mirror", "side", "middle", "beads", "count", "knot every", "fit")
KNOT_WORDS: dict[str, KnotKind] = {
    "knot": "single",
    "single knot": "single",
    "double knot": "double",
    "triple knot": "triple",
}
MOST_ELEMENTS = 100_000
MOST_LAYERS = 8
MOST_STRANDS = 1_000
MOST_BYTES = 1024 * 1024  # of a design file


class BeadKind(Struct, frozen=True):
    """One kind of bead. `length_mm` lies along the hole; `hole_mm` None: the maker did not say."""

    key: str
    name: str
    length_mm: float
    diameter_mm: float
    hole_mm: float | None = None
    colour: str = ""
    shape: str = ""


class KnotNumbers(Struct, frozen=True):
    """What one kind of knot takes, mm: `take_up_mm` swallowed per layer, `length_mm` along the strand."""

    take_up_mm: float
    length_mm: float


class CordDesign(Struct, frozen=True):
    """The cord as the design writes it. `knots` holds only the kinds that the design itself gives numbers for."""

    name: str
    diameter_mm: float
    layers: int = 1
    material: Material = "other"
    worked_with: Tool = "awl"
    knots: tuple[tuple[KnotKind, KnotNumbers], ...] = ()
    card: str | None = None


class Size(Struct, frozen=True):
    """What the piece is made to. `body_mm` is the finished length, the wrist or the neck, by `kind`; `turns`: how often
    it goes round."""

    kind: SizeKind
    body_mm: float
    ease_mm: float = 0.0
    tolerance_mm: float = 3.0
    typed: str = ""  # as the maker wrote it: shown in headings
    turns: int = 1


# -- a layout, as written ---------------------------------------------------------------------------------------------


class Bead(Struct, frozen=True):
    key: str


class Knot(Struct, frozen=True):
    kind: KnotKind


class Space(Struct, frozen=True):
    length_mm: float


class Repeat(Struct, frozen=True):
    """`count` None stands for `fit`."""

    count: int | None
    of: "tuple[Item, ...]"


class Mirror(Struct, frozen=True):
    """Side, middle, then the side again reversed element by element."""

    side: "tuple[Item, ...]"
    middle: "tuple[Item, ...]" = ()


class BeadRun(Struct, frozen=True):
    """`count` beads (None: `fit`), a single knot after each `knot_every`-th; None: no knots at all."""

    key: str
    count: int | None
    knot_every: int | None = None


Element = Bead | Knot | Space
Item = Element | Repeat | Mirror | BeadRun


class End(Struct, frozen=True):
    """One end of a strand. None: the closure's own figure stands. `finding`: what closes it, by its own name;
    `size_mm`: how wide the button, the closing bead or the bore is; of a toggle, how long its bar is."""

    closure: str = "plain tail"
    length_mm: float | None = None
    cord_mm: float | None = None
    tail_mm: float | None = None
    finding: str = ""
    size_mm: float | None = None


class Strand(Struct, frozen=True):
    layout: tuple[Item, ...]
    start: End = field(default_factory=End)
    end: End = field(default_factory=End)
    name: str = ""
    work: Work = "along"
    stringing: Stringing | None = None  # None: by the cord's material


class Design(Struct, frozen=True):
    """A whole design. `unit` is the maker's unit for the screen: the file's own, or that of its first length."""

    name: str
    cord: CordDesign
    beads: tuple[BeadKind, ...]
    strands: tuple[Strand, ...]
    size: Size | None = None
    note: str = ""
    unit: str = "mm"
