"""What a draft still lacks, asked for in the order of the page."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.draft.wanting import wanting


def test_an_empty_draft_lacks_everything() -> None:
    assert [missing.part for missing in wanting(Draft())] == ["what", "size", "cord", "beads", "pattern"]


def test_a_whole_one_lacks_nothing() -> None:
    whole = Draft(name="Sula", body="165", cord_diameter="0.45", beads=(BeadDraft("P", length="8"),), pattern="P")
    assert wanting(whole) == ()
    (missing,) = wanting(replace(whole, beads=(BeadDraft("P"),)))
    assert missing.text == "How long is bead P, along its hole?"
    assert wanting(replace(whole, body="", measured="neck"))[0].text == "Measure the neck."
