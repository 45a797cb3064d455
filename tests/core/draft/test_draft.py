"""A draft: its letters, its units, kept and found again."""

from __future__ import annotations

import pytest

from companion.core.draft.draft import (
    BeadDraft,
    Draft,
    StrandDraft,
    draft_document,
    draft_from,
    free_letter,
    strands_of,
    with_strand,
    with_unit,
    without_strand,
)
from companion.core.picture.marks import marks_of
from companion.core.values.design import BeadKind


def test_a_letter_is_the_one_that_pictures_have() -> None:
    beads: tuple[BeadDraft, ...] = ()
    for key, name in (("glass", "Sea-glass round"), ("silver", "Silver daisy"), ("", "Sand"), ("", "Sun gold")):
        beads = (*beads, BeadDraft(free_letter(Draft(beads=beads), name, key), key, name))
    kinds = [BeadKind(bead.key or bead.letter, bead.name, 6, 6) for bead in beads]
    assert [bead.letter for bead in beads] == [mark.letter for mark in marks_of(kinds)]


def test_a_letter_of_the_name_and_no_other_bead_s() -> None:
    draft = Draft(beads=(BeadDraft("P"), BeadDraft("I")))
    assert free_letter(Draft(), "pink glass") == "P"
    assert free_letter(draft, "Pink glass") == "G"  # as on the pictures
    assert free_letter(draft, "Pink glass", "rose") == "R"
    assert free_letter(draft, "pip") == "A"
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
    draft = Draft(
        name="Sula",
        body="165",
        beads=(BeadDraft("P", name="Pink", length="8", in_hand="40"),),
        pattern="P P" * 1_000,
        others=(StrandDraft("lower", "[P ]x9"),),
        cord_in_hand="2 m",
    )
    assert draft_from(draft_document(draft)) == draft


@pytest.mark.parametrize("document", [None, [], 7, "x"])
def test_what_is_no_draft(document: object) -> None:
    assert draft_from(document) is None


def test_what_is_not_known_is_left_out() -> None:
    document = {
        "name": "Sula",
        "shelf": "x",
        "body": 7,
        "beads": [{"letter": "P", "weight": "1"}, {"name": "no letter"}, 7],
        "others": "x",
    }
    assert draft_from(document) == Draft(name="Sula", beads=(BeadDraft("P"),))


def test_strands_are_put_in_and_taken_out() -> None:
    upper, middle, lower = StrandDraft("upper", "P"), StrandDraft("middle", "Q"), StrandDraft("lower", "R")
    draft = Draft()
    for number, strand in enumerate((upper, middle, lower)):
        draft = with_strand(draft, number, strand)
    assert strands_of(draft) == (upper, middle, lower)
    assert strands_of(without_strand(draft, 0)) == (middle, lower)
    assert strands_of(without_strand(draft, 1)) == (upper, lower)
    assert strands_of(without_strand(draft, 2)) == (upper, middle)
    assert without_strand(Draft(pattern="P"), 0) == Draft(pattern="P")
