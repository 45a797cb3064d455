"""Designs of one strand, written out by hand in a line."""

from __future__ import annotations

from companion.core.values.design import BeadKind, CordDesign, Design, End, Item, KnotKind, KnotNumbers, Size, Strand

INCH = 25.4
PLAIN = End("plain tail", tail_mm=60)


def design(
    layout: list[Item],
    cord: CordDesign,
    beads: list[BeadKind],
    size: Size | None = None,
    start: End = PLAIN,
    end: End = PLAIN,
) -> Design:
    return Design("Check light", cord, tuple(beads), (Strand(tuple(layout), start, end),), size)


def bead(length_mm: float, key: str = "b", **more: float) -> BeadKind:
    return BeadKind(key, key, length_mm, more.get("diameter_mm", length_mm), more.get("hole_mm"))


def knots(take_up_mm: float, length_mm: float) -> tuple[tuple[KnotKind, KnotNumbers], ...]:
    return (("single", KnotNumbers(take_up_mm, length_mm)),)
