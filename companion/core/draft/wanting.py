"""What a draft still lacks before it can be a design."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.draft.draft import BeadDraft, Draft, strands_of
from companion.core.draft.file_text import Part

MOST_DIGITS = 6  # of a count
_MEASURE = {"wrist": "Measure the wrist.", "neck": "Measure the neck.", "length": "How long shall it be?"}


class DraftFinding(Struct, frozen=True):
    """What is missing or wrong in one part of a draft; `text`: a sentence or two that say so."""

    part: Part
    text: str


def wanting(draft: Draft) -> tuple[DraftFinding, ...]:
    """All that is missing, in the order of the parts."""
    return tuple(_wanting(draft))


def _wanting(draft: Draft) -> Iterator[DraftFinding]:
    if not draft.name.strip():
        yield DraftFinding("what", "Give it a name.")
    if not draft.body.strip():
        yield DraftFinding("size", _MEASURE[draft.measured])
    if not draft.cord_diameter.strip():
        yield DraftFinding("cord", "How thick is the cord?")
    for kind, uses_up, long in _knot_numbers(draft):
        if bool(uses_up.strip()) != bool(long.strip()):
            wanted = "how long it is" if uses_up.strip() else "how much cord it uses up"
            yield DraftFinding("knots", f"A {kind} knot: say {wanted} too, or leave both empty.")
    if not draft.beads:
        yield DraftFinding("beads", "Describe a bead.")
    for bead in draft.beads:
        if not bead.length.strip():
            yield DraftFinding("beads", f"How long is bead {bead.letter}, along its hole?")
        if bead.in_hand.strip() and beads_in_hand(bead) is None:
            yield DraftFinding("beads", f"How many of bead {bead.letter} do you have? Type a whole number, or nothing.")
    if any(not strand.pattern.strip() for strand in strands_of(draft)):
        yield DraftFinding("pattern", "Type the pattern: a letter for each bead.")


def beads_in_hand(bead: BeadDraft) -> int | None:
    """How many of a bead the maker has; None where they were not counted, or where it is no number."""
    text = bead.in_hand.strip()
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= MOST_DIGITS else None


def _knot_numbers(draft: Draft) -> tuple[tuple[str, str, str], ...]:
    """Each kind of knot, with what was typed for the cord it uses up and for its length."""
    return (
        ("single", draft.single_take_up, draft.single_length),
        ("double", draft.double_take_up, draft.double_length),
        ("triple", draft.triple_take_up, draft.triple_length),
    )
