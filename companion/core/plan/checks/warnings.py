"""What a maker should see to before the first knot: holes, knots that slip, lengths, estimates. All are warnings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import CardFigures, Cord
from companion.core.cord.holes import across_mm, holds, least_hole_mm, roomy_hole_mm
from companion.core.plan.fit import body_to_pass
from companion.core.plan.plan import Warning
from companion.core.values.design import KNOT_KINDS, Bead, BeadKind, Design, Element, Knot, KnotKind, Size, Strand
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import count_of, join_words

# Least and greatest wrist measured, mm: Gordon et al., "2012 Anthropometric Survey of U.S. Army Personnel".
WRIST_LEAST_MM, WRIST_MOST_MM = 124.0, 216.0
OTHER_CORD = 0.1  # a diameter that differs by more than this share is another cord


def hole_warnings(
    design: Design, cord: Cord, strands: Sequence[tuple[Strand, Sequence[Element]]]
) -> tuple[Warning, ...]:
    """Holes too small for the cords that pass them, and holes that the design does not give."""
    passes: dict[str, int] = {}
    for strand, elements in strands:
        _count_passes(passes, strand, elements, cord.layers)
    found = []
    unknown = [kind.name for kind in design.beads if kind.key in passes and kind.hole_mm is None]
    for kind in design.beads:
        if kind.key in passes and kind.hole_mm is not None:
            least_mm = least_hole_mm(cord.diameter_mm, passes[kind.key])
            if kind.hole_mm < least_mm - 1e-9:
                found.append(_hole_too_small(kind, passes[kind.key], least_mm))
            elif kind.hole_mm < (roomy_mm := roomy_hole_mm(cord.diameter_mm, passes[kind.key])) - 1e-9:
                found.append(_hole_tight(kind, passes[kind.key], roomy_mm))
    if unknown:
        names = join_words(unknown)
        found.append(Warning("hole not given", f"No hole is given for {names}: holes are not checked there.", "beads"))
    return tuple(found)


def _count_passes(passes: dict[str, int], strand: Strand, elements: Sequence[Element], layers: int) -> None:
    """Raise, for each bead of the strand, the most cords that any one of them has to pass."""
    beads = [element.key for element in elements if isinstance(element, Bead)]
    start, end = CLOSURES[strand.start.closure].start, CLOSURES[strand.end.closure].end
    for key in set(beads):
        passes[key] = max(passes.get(key, 0), layers)
    for key in beads[: start.end_beads]:
        passes[key] = max(passes[key], layers * (1 + start.passes))
    for key in beads[len(beads) - end.end_beads :] if end.end_beads else []:
        passes[key] = max(passes[key], layers * (1 + end.passes))


def _hole_too_small(kind: BeadKind, cords: int, least_mm: float) -> Warning:
    assert kind.hole_mm is not None
    text = (
        f"The hole of {kind.name} is {kind.hole_mm:.4g} mm; {cords} cord{'s' if cords > 1 else ''} through it need"
        f"{'' if cords > 1 else 's'} about {least_mm:.2f} mm. Use thinner cord, or fewer cords, or ream the hole."
    )
    return Warning("hole too small", text, f"bead {kind.key}")


def _hole_tight(kind: BeadKind, cords: int, roomy_mm: float) -> Warning:
    """The bare packing figure leaves no room for stiff ends, wax or the needle."""
    text = (
        f"The hole of {kind.name} is {kind.hole_mm:.4g} mm: a tight fit for {cords} cord{'s' if cords > 1 else ''} and "
        f"the needle. About {roomy_mm:.2f} mm passes easily: try one bead first."
    )
    return Warning("hole tight", text, f"bead {kind.key}")


def knot_warnings(design: Design, cord: Cord, strands: Sequence[Sequence[Element]]) -> tuple[Warning, ...]:
    """Knots that may slip into the bead beside them."""
    beside: dict[tuple[KnotKind, str], None] = {}
    for elements in strands:
        for one, other in dict.fromkeys(pairwise(elements)):  # each pair once, in the order of the strand
            if isinstance(one, Knot) and isinstance(other, Bead):
                beside[one.kind, other.key] = None
            elif isinstance(one, Bead) and isinstance(other, Knot):
                beside[other.kind, one.key] = None
    kinds = {kind.key: kind for kind in design.beads}
    found = [_knot_warning(knot, kinds[key], cord) for knot, key in beside]
    return tuple(warning for warning in found if warning)


def _knot_warning(knot: KnotKind, kind: BeadKind, cord: Cord) -> Warning | None:
    if kind.hole_mm is None:
        return None
    verdict = holds(knot, cord.diameter_mm, cord.layers, kind.hole_mm)
    if verdict == "holds":
        return None
    least_mm, most_mm = across_mm(knot, cord.diameter_mm, cord.layers)
    across = f"{least_mm:.1f}" if round(least_mm, 1) == round(most_mm, 1) else f"{least_mm:.1f} to {most_mm:.1f}"
    facts = f"A {knot} knot is about {across} mm across, an estimate; the hole of {kind.name} is {kind.hole_mm:.4g} mm."
    if verdict == "test":
        return Warning("knot may slip", f"{facts} Tie a test knot against the bead before cutting.", f"bead {kind.key}")
    return Warning("knot slips", f"{facts} The bead slips over it. {_advice(knot, kind, cord)}", f"bead {kind.key}")


def _advice(knot: KnotKind, kind: BeadKind, cord: Cord) -> str:
    """The smallest knot that may hold, or what else would."""
    assert kind.hole_mm is not None
    bigger = KNOT_KINDS[KNOT_KINDS.index(knot) + 1 :]
    others = "a bead with a smaller hole, one more cord or thicker cord"
    for other in bigger:
        if holds(other, cord.diameter_mm, cord.layers, kind.hole_mm) != "slips":
            return f"A {other} knot may hold; or {others}."
    return f"No bigger knot holds either: {others} would."


def length_warnings(design: Design, target_mm: float | None, finished_mm: float, endless: bool) -> tuple[Warning, ...]:
    """A length outside tolerance, a body measure to look at again, a closed piece that will not go on."""
    found = []
    unit = display_unit(design.unit)
    size = design.size
    if size and target_mm is not None and abs(finished_mm - target_mm) > size.tolerance_mm + 1e-9:
        off = "longer" if finished_mm > target_mm else "shorter"
        off_mm, most_mm = abs(finished_mm - target_mm), size.tolerance_mm
        outside = "just outside" if show(off_mm, unit) == show(most_mm, unit) else "outside"
        text = (
            f"Planned {show(finished_mm, unit)} finished, {show(off_mm, unit)} {off} than the "
            f"target of {show(target_mm, unit)}: {outside} the tolerance of {show(most_mm, unit)}. "
            "Change a count, a bead or the closure."
        )
        found.append(Warning("length outside tolerance", text, "size"))
    if size and size.kind == "wrist" and not WRIST_LEAST_MM <= size.body_mm <= WRIST_MOST_MM:
        text = f"A wrist of {show(size.body_mm, unit)} round is unusual for a grown person: measure again to be sure."
        found.append(Warning("unusual wrist", text, "size"))
    if endless:
        found += _too_small_to_pass(size, finished_mm, design.unit)
    return tuple(found)


def _too_small_to_pass(size: Size | None, finished_mm: float, unit: str) -> list[Warning]:
    body, least_mm = body_to_pass(size, finished_mm)
    if finished_mm >= least_mm:
        return []
    text = (
        f"Closed all round at {show(finished_mm, display_unit(unit))}, it may not pass over a large {body} "
        f"({show(least_mm, display_unit(unit))} round): try it, or choose a closure that opens."
    )
    return [Warning("may not pass", text, "closure")]


def card_warnings(cord: Cord, card: CardFigures | None) -> tuple[Warning, ...]:
    """A cord card that was made with another cord than the design's, or with more or fewer layers."""
    if card is None:
        return ()
    found = []
    if card.layers is not None and card.layers != cord.layers:
        cords = count_of(card.layers, "cord", "one")
        text = f"The cord card {card.name} was made with {cords} through the beads, this design has {cord.layers}."
        found.append(
            Warning(
                "card of other layers", f"{text} Its knots come out a different length: make a card for it.", "cord"
            )
        )
    if card.diameter_mm is not None and abs(card.diameter_mm - cord.diameter_mm) > OTHER_CORD * cord.diameter_mm:
        text = (
            f"The cord card {card.name} is of {card.diameter_mm:.4g} mm cord, the design's is {cord.diameter_mm:.4g}."
        )
        found.append(Warning("card of another cord", f"{text} Is it the right card?", "cord"))
    return tuple(found)


def estimate_warnings(cord: Cord, used: Sequence[KnotKind], card_wanted: str | None) -> tuple[Warning, ...]:
    """Cord numbers that nobody has tested, and a cord card that is not there."""
    found = []
    if card_wanted is not None and cord.card is None:
        text = f"There is no cord card named {card_wanted}: using an estimate. Tie test knots to make a card."
        found.append(Warning("card not there", text, "cord"))
    guessed = [kind for kind in used if cord.knot(kind).source == "estimate"]
    if guessed:
        kinds = join_words([f"{kind} knot" for kind in guessed])
        text = (
            f"Take-up and length of the {kinds} are estimates from the cord's diameter: the cut has plenty to spare. "
            "Three test knots would narrow it."
        )
        found.append(Warning("estimates", text, "cord"))
    return (*found, *_half_tested(cord, used))


def _half_tested(cord: Cord, used: Sequence[KnotKind]) -> Iterator[Warning]:
    """Kinds of which the card has only one sort of tests."""
    for kind in used:
        what = cord.knot(kind).estimated
        if what:
            test = {"length": "a row of knots tied touching", "take-up": "a knot measured before and after"}[what]
            text = f"The {what} of the {kind} knot is an estimate from the cord's diameter: {test} would narrow it."
            yield Warning("estimates", text, "cord")
