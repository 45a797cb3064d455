"""What a draft still lacks before it can be a design."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.draft.draft import Draft
from companion.core.draft.file_text import Part

_MEASURE = {"wrist": "Measure the wrist.", "neck": "Measure the neck.", "length": "How long shall it be?"}


class Wanting(Struct, frozen=True):
    """One thing that is missing, and in which part; `text`: a sentence that asks for it."""

    part: Part
    text: str


def wanting(draft: Draft) -> tuple[Wanting, ...]:
    """All that is missing, in the order of the parts."""
    return tuple(_wanting(draft))


def _wanting(draft: Draft) -> Iterator[Wanting]:
    if not draft.name.strip():
        yield Wanting("what", "Give it a name.")
    if not draft.body.strip():
        yield Wanting(
            "size", {"wrist": "Measure the wrist.", "neck": "Measure the neck."}.get(draft.measured, "How long?")
        )
    if not draft.cord_diameter.strip():
        yield Wanting("cord", "How thick is the cord?")
    if not draft.beads:
        yield Wanting("beads", "Describe a bead.")
    for bead in draft.beads:
        if not bead.length.strip():
            yield Wanting("beads", f"How long is bead {bead.letter}, along its hole?")
    if not draft.pattern.strip():
        yield Wanting("pattern", "Type the pattern: a letter for each bead.")
