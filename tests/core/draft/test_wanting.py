"""What a draft still lacks, asked for in the order of the page."""

from __future__ import annotations

import pytest
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


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"single_take_up": "6"}, "A single knot: say how long it is too, or leave both empty."),
        ({"double_length": "3"}, "A double knot: say how much cord it uses up too, or leave both empty."),
        ({"single_take_up": "6", "single_length": "2"}, None),
    ],
)
def test_a_knot_has_both_its_numbers_or_neither(typed: dict[str, str], said: str | None) -> None:
    whole = Draft(name="Sula", body="165", cord_diameter="0.45", beads=(BeadDraft("P", length="8"),), pattern="P")
    assert [missing.text for missing in wanting(replace(whole, **typed))] == ([said] if said else [])
