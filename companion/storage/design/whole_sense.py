"""What takes counts and lengths to see: too many elements, fits that add nothing, beads longer than the piece.

Looked at in every part of a file that is right by itself, so that one slip does not hide another.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from companion.core.cord.cord import cord_of
from companion.core.plan.fit import Measure, choose_fit
from companion.core.plan.layout import bead_counts, holds_fit, tally
from companion.core.values.design import MOST_ELEMENTS, BeadKind, CordDesign, Design, Size, Strand
from companion.storage.design.fits import idle_fits, written_fits
from companion.storage.design.schema import quoted
from companion.storage.design.sense import Findings
from companion.storage.design.strict_yaml import Map


@dataclass(frozen=True, slots=True)
class Sound:
    """What is right by itself in a file. `strands` come with their places; `complete`: no strand is left out.

    `cord` or `size` None: wrong, or not there (a size may be left out, `size_known` says that it is not just wrong).
    """

    strands: tuple[tuple[Map, Strand], ...]
    complete: bool
    beads: tuple[BeadKind, ...]
    cord: CordDesign | None
    size: Size | None
    size_known: bool

    def used(self) -> set[str]:
        """The keys of all beads in the strands, defined or not."""
        return {key for _, strand in self.strands for key in bead_counts(tally(strand.layout))}

    def measure(self) -> Measure | None:
        """Lengths at any count, where everything that they depend on is right."""
        if self.cord is None or not (self.complete and self.size_known):
            return None
        if not self.used() <= {bead.key for bead in self.beads}:
            return None
        strands = tuple(strand for _, strand in self.strands)
        return Measure(Design("", self.cord, self.beads, strands, self.size), cord_of(self.cord))


def whole_sense(findings: Findings, sound: Sound) -> None:
    """Adds every finding of this kind."""
    total = sum(sum(tally(strand.layout).values()) for _, strand in sound.strands)
    if total > MOST_ELEMENTS:
        place = findings.root.keys["strands" if "strands" in findings.root.keys else "strand"]
        found = f"This comes to {total:,} beads, knots and spaces."
        findings.add(place, "too many", found, f"At most {MOST_ELEMENTS:,} are taken.")
        return
    measure = None if _idle_fits(findings, sound) else sound.measure()
    _no_middle(findings, sound, measure)
    _too_long_beads(findings, sound, measure)


def _idle_fits(findings: Findings, sound: Sound) -> bool:
    """Whether there is a fit that adds no length: no count can be chosen for it then."""
    if sound.cord is None:
        return False
    lengths_mm = {bead.key: bead.length_mm for bead in sound.beads}
    any_idle = False
    for node, strand in sound.strands:
        places = list(written_fits(node.values["layout"]))
        for number in idle_fits(strand.layout, lengths_mm, cord_of(sound.cord)):
            any_idle = True
            text = "Found a fit that adds no length."
            findings.add(places[number], "fit adds nothing", text, "Nothing would ever fit.")
    return any_idle


def _no_middle(findings: Findings, sound: Sound, measure: Measure | None) -> None:
    """A strand worked from the middle whose elements, at the count that fits, are too few to have a middle."""
    for node, strand in sound.strands:
        if strand.work != "from the middle" or sum(tally(strand.layout).values()) > 1:
            continue
        if holds_fit(strand.layout) and measure is None:
            continue
        count = (choose_fit(measure) if measure else None) or 1
        if sum(tally(strand.layout, count).values()) < 2:
            text = "Found one element only."
            findings.add(node.keys["work"], "no middle", text, "From the middle takes two or more.")


def _too_long_beads(findings: Findings, sound: Sound, measure: Measure | None) -> None:
    size, used = sound.size, sound.used()
    least_mm = size.turns * (size.body_mm + size.ease_mm) if size else inf
    long = [bead for bead in sound.beads if bead.key in used and bead.length_mm > least_mm]
    if size is None or not long:
        return
    target_mm: float | None = least_mm
    if size.kind == "wrist":  # depends on the beads, so on the count
        target_mm = measure.target_mm(choose_fit(measure) or 1) if measure else None
    for bead in long:
        if target_mm is not None and bead.length_mm > target_mm:
            place = findings.bead_length(bead.key)
            found = f"The bead {quoted(bead.name)} is {bead.length_mm:.4g} mm long, the whole piece {target_mm:.4g} mm."
            findings.add(place, "bead too long", found, "One of them is amiss.")
