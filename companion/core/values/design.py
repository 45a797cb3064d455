"""The design of a piece, as the maker saved it: values only, all lengths in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

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


@dataclass(frozen=True, slots=True)
class BeadKind:
    """One kind of bead. `length_mm` lies along the hole; `hole_mm` None: the maker did not say."""

    key: str
    name: str
    length_mm: float
    diameter_mm: float
    hole_mm: float | None = None
    colour: str = ""
    shape: str = ""


@dataclass(frozen=True, slots=True)
class KnotNumbers:
    """What one kind of knot takes, mm: `take_up_mm` swallowed per layer, `length_mm` along the strand."""

    take_up_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True)
class CordDesign:
    """The cord as the design writes it. `knots` holds only the kinds that the design itself gives numbers for."""

    name: str
    diameter_mm: float
    layers: int = 1
    material: Material = "other"
    worked_with: Tool = "awl"
    knots: tuple[tuple[KnotKind, KnotNumbers], ...] = ()
    card: str | None = None


@dataclass(frozen=True, slots=True)
class Size:
    """What the piece is made to. `body_mm` is the finished length, the wrist or the neck, by `kind`; `turns`: how often
    it goes round."""

    kind: SizeKind
    body_mm: float
    ease_mm: float = 0.0
    tolerance_mm: float = 3.0
    typed: str = ""  # as the maker wrote it: shown in headings
    turns: int = 1


# -- a layout, as written ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Bead:
    key: str


@dataclass(frozen=True, slots=True)
class Knot:
    kind: KnotKind


@dataclass(frozen=True, slots=True)
class Space:
    length_mm: float


@dataclass(frozen=True, slots=True)
class Repeat:
    """`count` None stands for `fit`."""

    count: int | None
    of: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Mirror:
    """Side, middle, then the side again reversed element by element."""

    side: tuple[Item, ...]
    middle: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class BeadRun:
    """`count` beads (None: `fit`), a single knot after each `knot_every`-th; None: no knots at all."""

    key: str
    count: int | None
    knot_every: int | None = None


Element = Bead | Knot | Space
Item = Element | Repeat | Mirror | BeadRun


@dataclass(frozen=True, slots=True)
class End:
    """One end of a strand. None: the closure's own figure stands. `finding`: what closes it, by its own name;
    `size_mm`: how wide the button, the closing bead or the bore is."""

    closure: str = "plain tail"
    length_mm: float | None = None
    cord_mm: float | None = None
    tail_mm: float | None = None
    finding: str = ""
    size_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Strand:
    layout: tuple[Item, ...]
    start: End = field(default_factory=End)
    end: End = field(default_factory=End)
    name: str = ""
    work: Work = "along"
    stringing: Stringing | None = None  # None: by the cord's material


@dataclass(frozen=True, slots=True)
class Design:
    """A whole design. `unit` is the maker's unit for the screen: the file's own, or that of its first length."""

    name: str
    cord: CordDesign
    beads: tuple[BeadKind, ...]
    strands: tuple[Strand, ...]
    size: Size | None = None
    note: str = ""
    unit: str = "mm"
