"""A draft: its letters, its units, kept and found again."""

from __future__ import annotations

import pytest

from companion.core.draft.draft import BeadDraft, Draft, draft_document, draft_from, free_letter, with_unit


def test_a_letter_of_the_name_and_no_other_bead_s() -> None:
    draft = Draft(beads=(BeadDraft("P"), BeadDraft("I")))
    assert free_letter(Draft(), "pink glass") == "P"
    assert free_letter(draft, "Pink glass") == "N"
    assert free_letter(draft, "«»") == "A"
    full = Draft(beads=tuple(BeadDraft(letter) for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"))
    with pytest.raises(ValueError, match="no letter"):
        free_letter(full, "one more")


@pytest.mark.parametrize(
    ("typed", "unit", "length"),
    [("8", "mm", "8 mm"), ("9 3/8", "in", "9 3/8 in"), ("8 mm", "in", "8 mm"), ('9⅜"', "mm", '9⅜"'), (" ", "mm", "")],
)
def test_a_bare_number_takes_the_unit(typed: str, unit: str, length: str) -> None:
    assert with_unit(typed, unit) == length


def test_kept_and_found_again() -> None:
    draft = Draft(name="Sula", body="165", beads=(BeadDraft("P", name="Pink", length="8"),), pattern="P P")
    assert draft_from(draft_document(draft)) == draft


@pytest.mark.parametrize("document", [None, [], 7, "x"])
def test_what_is_no_draft(document: object) -> None:
    assert draft_from(document) is None


def test_what_is_not_known_is_left_out() -> None:
    document = {
        "name": "Sula",
        "shelf": "x",
        "body": 7,
        "beads": [{"letter": "P", "weight": "1"}, {"name": "no letter"}],
    }
    assert draft_from(document) == Draft(name="Sula", beads=(BeadDraft("P"),))
