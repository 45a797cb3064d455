"""What a draft still lacks before it can be a design."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.draft.draft import Draft
from companion.core.draft.file_text import Part

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
        yield DraftFinding(
            "size", {"wrist": "Measure the wrist.", "neck": "Measure the neck."}.get(draft.measured, "How long?")
        )
    if not draft.cord_diameter.strip():
        yield DraftFinding("cord", "How thick is the cord?")
    if not draft.beads:
        yield DraftFinding("beads", "Describe a bead.")
    for bead in draft.beads:
        if not bead.length.strip():
            yield DraftFinding("beads", f"How long is bead {bead.letter}, along its hole?")
    if not draft.pattern.strip():
        yield DraftFinding("pattern", "Type the pattern: a letter for each bead.")
