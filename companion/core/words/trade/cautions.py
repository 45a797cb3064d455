"""Where the work can hurt: said once, where it applies, in plain words. Nothing here calls a piece safe.

Figures are limits that others have set for other purposes (toys, tests); they decide when a caution is shown, not
whether a piece passes. Local rules and an accredited laboratory decide that.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from typing import Literal

from msgspec import Struct

from companion.core.closures.tied import MELTING
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out, closures_of, tools
from companion.core.values.design import BeadKind
from companion.core.values.text import capitalised, join_words

CautionCode = Literal["small parts", "noose", "sharp", "glue", "flame", "findings", "sitting", "selling"]

# The small-parts cylinder: 1.25 in across, 1 to 2.25 in deep. Source: 16 CFR 1501.4, figure 1.
CYLINDER_ACROSS_MM = 31.75
CYLINDER_DEPTH_MM = 57.15
# Cord that can form a noose, on toys for children under 36 months. Source: EN 71-1:2005+A8:2009, 5.4 (changed since).
NOOSE_CORD_MM = 220.0
LONG_SITTING_STEPS = 60  # common practice, no source


class Caution(Struct, frozen=True):
    """One caution: a code for programs, a text for people."""

    code: CautionCode
    text: str


_SMALL_PARTS = (
    "Beads and findings of this size can choke a small child. Keep the tray, and the finished piece, out of reach."
)
# A third and more of the closures tested stayed shut at the force that closes a young child's airway. Source:
# L. Soudek, R. McLaughlin, "Fad over fatality? The hazards of amber teething necklaces", Paediatrics & Child Health 23
# (2018) 106–110.
_NOOSE = (
    "A cord or loop of this length can strangle. Keep it from small children, asleep or awake; a breakaway closure is "
    "no guarantee."
)
_SHARP = "{tools} are sharp: point them away from the other hand{parked}."
_PARKED = {"awl": "cork the awl when you lay it down", "needle": "park the needle in a cushion"}
_GLUE = "Glue: open a window, keep it off the skin and out of the eyes, and read what its label says."
_FLAME = (
    "If you seal the cord ends with a flame or a hot tool: melted cord sticks and burns. Do it over a plate, "
    "away from the tails, with water at hand."
)
# Nickel: REACH annex XVII entry 27; lead: entry 63; cadmium: entry 23.
_FINDINGS = (
    "Clasps, other findings and metal beads can give off nickel, or hold lead or cadmium. Ask for ones declared to "
    "meet your local limits, above all for skin that reacts and for children."
)
# Words in the name of a bead or button that make it one of metal, or look like it. Common practice, no source.
_METALS = frozenset(
    [
        "metal",
        "silver",
        "gold",
        "golden",
        "gilt",
        "brass",
        "bronze",
        "copper",
        "steel",
        "nickel",
        "pewter",
        "tin",
        "zinc",
        "alloy",
    ]
)
_SITTING = "{steps} steps are a long sitting. Look up and stretch fingers and wrists every half hour; use a good light."
_SELLING = (
    "For anything sold, above all for children, your local rules and tests by an accredited laboratory decide. Have "
    "it tested before you sell it."
)


def cautions(plan: Plan) -> tuple[Caution, ...]:
    """The cautions that apply to this plan, each once, in the order in which the work meets them."""
    return tuple(_cautions(plan))


def fits_small_parts_cylinder(kind: BeadKind) -> bool:
    """Whether a bead may fit the small-parts cylinder in some direction; in doubt, yes."""
    # The longest thing that the cylinder takes lies from its deepest corner to the rim across.
    return kind.diameter_mm <= CYLINDER_ACROSS_MM and kind.length_mm <= hypot(CYLINDER_ACROSS_MM, CYLINDER_DEPTH_MM)


def _sharp(laid: Sequence[str]) -> str:
    """What is sharp of the tools that are laid ready, and how it is put down."""
    named = [kind for kind in ("awl", "tweezers", "needle", "snips") if any(kind in tool for tool in laid)]
    parked = join_words([_PARKED[kind] for kind in named if kind in _PARKED])
    return _SHARP.format(tools=capitalised(join_words(named)), parked=f", and {parked}" if parked else "")


def _of_metal(plan: Plan) -> bool:
    """Whether a bead that is used, or what closes the piece, is of metal by its name."""
    names = [kind.name for kind, _ in beads_to_count_out(plan)] + [strand.finding for strand in plan.strands]
    return any(_METALS & set(name.lower().replace("-", " ").split()) for name in names)


def _cautions(plan: Plan) -> Iterator[Caution]:
    told = {code for closure in closures_of(plan) for code in closure.cautions}
    if "findings" in told or any(fits_small_parts_cylinder(kind) for kind, _ in beads_to_count_out(plan)):
        yield Caution("small parts", _SMALL_PARTS)
    if "noose" in told or plan.finished_length_mm > NOOSE_CORD_MM or (plan.size and plan.size.kind == "neck"):
        yield Caution("noose", _NOOSE)
    yield Caution("sharp", _sharp(tools(plan)))
    if "glue" in tools(plan):
        yield Caution("glue", _GLUE)
    if plan.cord.material in MELTING:
        yield Caution("flame", _FLAME)
    if "findings" in told or _of_metal(plan):
        yield Caution("findings", _FINDINGS)
    if plan.total_steps > LONG_SITTING_STEPS:
        yield Caution("sitting", _SITTING.format(steps=plan.total_steps))
    yield Caution("selling", _SELLING)
