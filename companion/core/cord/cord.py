"""What a cord's knots take: from the design's own numbers, from a cord card, or estimated from the diameter."""

# Its annotations are types, not text: a plan that is kept is read by them, and every command reads one.
from math import sqrt
from typing import Literal

from msgspec import Struct

from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, CordDesign, KnotKind, KnotNumbers, Material, Tool

Source = Literal["design", "card", "estimate"]
Half = Literal["", "take-up", "length"]

# Tight knots of ideal rope, in cord diameters: take-up 10.1, 17.3, 24.5 and length (between the span of the outermost
# contacts and the whole body) 2.9, 4.9, 7.0. Own minimisation of tight open knots; same family as Pieranski et al.,
# "Localization of breakage points in knotted strings", New J. Phys. 3 (2001) 10.
TAKE_UP_DIAMETERS: dict[KnotKind, float] = {"single": 10.1, "double": 17.3, "triple": 24.5}
LENGTH_DIAMETERS: dict[KnotKind, float] = {"single": 2.9, "double": 4.9, "triple": 7.0}
# Two layers knotted together in a single knot, in diameters, per layer; other kinds in proportion (same minimisation,
# four lays of the two cords). More layers: the same power law carried on, and widened; our own estimate.
TWO_LAYERS_SINGLE = (14.2, 4.3)
TWO_LAYERS_IN_PROPORTION = (1.4, 1.45)
MORE_LAYERS_POWER = (0.485, 0.536)
# Stiffer cord swallows more; from practice, no source. Leather varies widely.
MATERIAL_TAKE_UP: dict[Material, float] = {
    "hemp": 1.05, "waxed linen": 1.05, "waxed cotton": 1.15, "suede": 1.25, "leather": 1.4,
}  # others: 1  # fmt: skip
HIDES: frozenset[Material] = frozenset({"leather", "suede"})
HIDE_TAKE_UP_CV = 0.35
FIRM = 1e9  # degrees of freedom that stand for "no end of them": a width is taken as known
LAYER_WIDENING = 0.25  # each layer beyond two widens an estimate by this share; our own estimate


class CordChoice(Struct, frozen=True):
    """Where a piece's cord numbers come from: as its design says, from the card of that name, or estimated."""

    source: Source
    card: str | None = None


AS_DESIGNED = CordChoice("design")
ESTIMATED = CordChoice("estimate")


class KnotFigures(Struct, frozen=True):
    """One kind of knot in one cord, mm. `_sd`: how well its mean is known; `_scatter`: one knot against the next."""

    take_up_mm: float
    length_mm: float
    take_up_sd_mm: float
    length_sd_mm: float
    take_up_scatter_mm: float
    length_scatter_mm: float
    degrees: float  # of freedom, behind the sds of the means
    source: Source
    estimated: Half = ""  # what the card's tests say nothing of: it is estimated from the diameter


class CardFigures(Struct, frozen=True):
    """What the maker knows of one cord worked one way; `knots` holds the kinds that were tried."""

    name: str
    knots: tuple[tuple[KnotKind, KnotFigures], ...]
    pieces: int = 0  # finished pieces that the card has learnt from
    diameter_mm: float | None = None  # of the cord that was tested, and how many layers together
    layers: int | None = None


class Cord(Struct, frozen=True):
    """A cord with figures for every kind of knot. `practised`: they have learnt from a finished piece."""

    name: str
    diameter_mm: float
    layers: int
    material: Material
    needle: bool
    single: KnotFigures
    double: KnotFigures
    triple: KnotFigures
    card: str | None = None
    worked_with: Tool = "awl"  # a plan kept by an earlier version says only whether that is a needle
    practised: bool = False

    @property
    def tool(self) -> Tool:
        """What the knots are worked with."""
        return "needle" if self.needle else self.worked_with

    def knot(self, kind: KnotKind) -> KnotFigures:
        """The figures of one kind of knot."""
        return {"single": self.single, "double": self.double, "triple": self.triple}[kind]


def estimate(cord: CordDesign, kind: KnotKind, assumptions: Assumptions = USUAL) -> KnotFigures:
    """Figures for a knot that nobody has tested, from the cord's diameter, layers and material."""
    take_up_diameters, length_diameters = _diameters(kind, cord.layers)
    take_up = take_up_diameters * cord.diameter_mm * MATERIAL_TAKE_UP.get(cord.material, 1.0)
    length = length_diameters * cord.diameter_mm
    wider = 1 + LAYER_WIDENING * max(0, cord.layers - 2)
    take_up_cv = HIDE_TAKE_UP_CV if cord.material in HIDES else assumptions.estimate_take_up_cv
    return KnotFigures(
        take_up,
        length,
        take_up * take_up_cv * wider,
        length * assumptions.estimate_length_cv * wider,
        take_up * assumptions.knot_scatter_cv,
        length * assumptions.knot_scatter_cv,
        FIRM,
        "estimate",
    )


def _diameters(kind: KnotKind, layers: int) -> tuple[float, float]:
    """Take-up and length of a knot in cord diameters, per layer."""
    take_up, length = TAKE_UP_DIAMETERS[kind], LENGTH_DIAMETERS[kind]
    if layers == 1:
        return take_up, length
    if kind == "single":
        take_up, length = TWO_LAYERS_SINGLE
    else:
        take_up, length = take_up * TWO_LAYERS_IN_PROPORTION[0], length * TWO_LAYERS_IN_PROPORTION[1]
    return take_up * (layers / 2) ** MORE_LAYERS_POWER[0], length * (layers / 2) ** MORE_LAYERS_POWER[1]


def written(numbers: KnotNumbers, assumptions: Assumptions = USUAL) -> KnotFigures:
    """Numbers written in a design: they count like a card with a few test knots of the usual scatter."""
    cv, knots = assumptions.knot_scatter_cv, assumptions.design_test_knots
    return KnotFigures(
        numbers.take_up_mm,
        numbers.length_mm,
        numbers.take_up_mm * cv / sqrt(knots),
        numbers.length_mm * cv / sqrt(knots),
        numbers.take_up_mm * cv,
        numbers.length_mm * cv,
        knots - 1 + assumptions.knot_scatter_degrees,
        "design",
    )


def cord_of(design: CordDesign, card: CardFigures | None = None, assumptions: Assumptions = USUAL) -> Cord:
    """The cord with figures for every kind of knot: the design's own numbers if it has any, else the card's, else
    an estimate."""
    own = dict(design.knots)
    tried = dict(card.knots) if card else {}
    figures: dict[KnotKind, KnotFigures] = {}
    for kind in KNOT_KINDS:
        if kind in own:
            figures[kind] = written(own[kind], assumptions)
        elif kind in tried:
            figures[kind] = tried[kind]
        else:
            figures[kind] = estimate(design, kind, assumptions)
    return Cord(
        design.name,
        design.diameter_mm,
        design.layers,
        design.material,
        design.worked_with == "needle",
        figures["single"],
        figures["double"],
        figures["triple"],
        card.name if card else None,
        design.worked_with,
        practised=bool(card and card.pieces),
    )
