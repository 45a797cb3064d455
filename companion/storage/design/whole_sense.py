"""Errors that show only in counts and lengths: too many elements, fits that add nothing, beads longer than the piece.

Every part of a file that has no fault of its own is looked at, so that one slip does not hide another.
"""

from __future__ import annotations

from functools import cached_property

from msgspec import Struct

from companion.core.cord.cord import cord_of
from companion.core.plan.fit import Measure, choose_fit
from companion.core.plan.layout import LayoutCount
from companion.core.values.design import MOST_ELEMENTS, BeadKind, CordDesign, Design, Size, Strand
from companion.storage.design.findings import Findings, quoted
from companion.storage.design.fits import idle_fits, written_fits
from companion.storage.design.yaml_text.strict_yaml import Map


class Sound(Struct, frozen=True):
    """The parts of a file that have no fault of their own. `strands`: each with its place; `complete`: whether all
    strands are among them.

    `cord` or `size` is None if it is faulty or not there. A size may be left out: `size_known` is False only if it is
    faulty.
    """

    strands: tuple[tuple[Map, Strand], ...]
    complete: bool
    beads: tuple[BeadKind, ...]
    cord: CordDesign | None
    size: Size | None
    size_known: bool


def whole_sense(findings: Findings, sound: Sound) -> None:
    """Add every finding of this kind."""
    _Whole(findings, sound).look()


class _Whole:
    """One look at a whole file. `layouts`: the counts of each strand's layout; `used`: the keys of all beads in them,
    whether they are defined or not."""

    def __init__(self, findings: Findings, sound: Sound) -> None:
        self.findings, self.sound = findings, sound
        self.layouts = [LayoutCount.of(strand.layout) for _, strand in sound.strands]
        self.used = {key for layout in self.layouts for key in layout.bead_keys()}

    def look(self) -> None:
        total = sum(layout.total(1) for layout in self.layouts)
        if total > MOST_ELEMENTS:
            keys = self.findings.root.keys
            found = f"This comes to {total:,} beads, knots and spaces."
            place = keys["strands" if "strands" in keys else "strand"]
            self.findings.add(place, "too many", found, f"At most {MOST_ELEMENTS:,} are taken: lower a number.")
            return
        can_be_measured = not self._idle_fits() and self._all_known()
        self._no_middle(can_be_measured)
        self._too_long_beads(can_be_measured)

    def _all_known(self) -> bool:
        """Whether everything that lengths depend on is without fault."""
        sound = self.sound
        known = sound.cord is not None and sound.complete and sound.size_known
        return known and self.used <= {bead.key for bead in sound.beads}

    @cached_property
    def _measure(self) -> Measure:
        cord = self.sound.cord
        assert cord is not None
        strands = tuple(strand for _, strand in self.sound.strands)
        return Measure(Design("", cord, self.sound.beads, strands, self.sound.size), cord_of(cord))

    @cached_property
    def _count(self) -> int:
        """The count for every `fit`."""
        return choose_fit(self._measure) or 1

    def _idle_fits(self) -> bool:
        """Whether some fit adds no length, so that no count can be chosen for it."""
        if self.sound.cord is None:
            return False
        lengths_mm = {bead.key: bead.length_mm for bead in self.sound.beads}
        any_idle = False
        for (node, strand), layout in zip(self.sound.strands, self.layouts, strict=True):
            if not layout.holds_fit:
                continue
            places = list(written_fits(node.values["layout"]))
            for number in idle_fits(strand.layout, lengths_mm, cord_of(self.sound.cord)):
                any_idle = True
                text = "What is repeated until it fits adds no length, so it never would."
                self.findings.add(places[number], "fit adds nothing", text, "Put a bead in it, or write a number.")
        return any_idle

    def _no_middle(self, can_be_measured: bool) -> None:
        """Finds strands worked from the middle that are too short to have one, at the count that fits."""
        for (node, strand), layout in zip(self.sound.strands, self.layouts, strict=True):
            if strand.work != "from the middle" or layout.total(1) > 1:
                continue
            if layout.holds_fit and not can_be_measured:
                continue
            if layout.total(self._count if layout.holds_fit else 1) < 2:
                text = "This strand is one bead or knot, so it has no middle to begin from."
                self.findings.add(node.keys["work"], "no middle", text, "Write `work: along`, or add to the layout.")

    def _too_long_beads(self, can_be_measured: bool) -> None:
        size = self.sound.size
        if size is None:
            return
        least_mm = size.turns * (size.body_mm + size.ease_mm)
        long = [bead for bead in self.sound.beads if bead.key in self.used and bead.length_mm > least_mm]
        target_mm: float | None = least_mm
        if long and size.kind == "wrist":  # depends on the beads, so on the count
            target_mm = self._measure.target_mm(self._count) if can_be_measured else None
        for bead in long:
            if target_mm is not None and bead.length_mm > target_mm:
                place = self.findings.bead_length(bead.key)
                found = (
                    f"The bead {quoted(bead.name)} is {bead.length_mm:.4g} mm long, the whole piece {target_mm:.4g} mm."
                )
                self.findings.add(place, "bead too long", found, "Correct one of the two.")
