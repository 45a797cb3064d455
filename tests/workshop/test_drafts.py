"""Designs that are being made: opened, kept, saved, and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.values.errors import NotPossible
from companion.core.values.measures.lengths import LengthError
from companion.workshop import Workshop, open_at

COMMENTED = """# for Anna
format: 1
name: Sula
size: {length: "200 mm"}   # as she wears it
cord: {name: silk, diameter: 0.45 mm, layers: 2}
beads: {blue: {length: 8 mm, hole: 1.2 mm}}
strand: {layout: [{repeat: fit, of: [blue, knot]}]}
"""


@pytest.fixture
def workshop(data_folder: Path) -> Iterator[Workshop]:
    made = open_at(data_folder)
    yield made
    made.close()


def saved(workshop, draft: Draft) -> bytes:
    drafts = workshop.drafts
    judged = drafts.judge(draft)
    assert judged.plan is not None, judged.findings
    place = drafts.place_for(draft)
    drafts.save(draft, judged, place)
    return place.read_bytes()


@pytest.mark.parametrize("text", [COMMENTED, COMMENTED.replace("\n", "\r\n"), "\ufeff" + COMMENTED.rstrip("\n")])
def test_not_changed_every_byte_stays(workshop, tmp_path: Path, text: str) -> None:
    path = tmp_path / "sula.yaml"
    path.write_bytes(text.encode())
    draft = workshop.drafts.copy_of(path)
    assert not workshop.drafts.leaves_comments(draft)
    assert saved(workshop, replace(draft, cord_in_hand="2 m")) == text.encode()  # of which no file tells


def test_changed_and_changed_back_every_byte_stays(workshop, tmp_path: Path) -> None:
    path = tmp_path / "sula.yaml"
    path.write_text(COMMENTED)
    draft = workshop.drafts.copy_of(path)
    changed = replace(draft, note="with a card")
    assert workshop.drafts.leaves_comments(changed)
    assert b"# for Anna" not in saved(workshop, changed)
    assert saved(workshop, replace(changed, note="")) == COMMENTED.encode()


def test_a_file_that_has_changed_since_is_not_what_was_opened(workshop, tmp_path: Path) -> None:
    path = tmp_path / "sula.yaml"
    path.write_text(COMMENTED)
    draft = workshop.drafts.copy_of(path)
    path.write_text(COMMENTED.replace("8 mm", "9 mm"))
    assert b"length: 8 mm" in saved(workshop, draft)
    path.unlink()
    assert b"length: 8 mm" in saved(workshop, draft)


def test_what_the_page_has_no_place_for(workshop, tmp_path: Path) -> None:
    path = tmp_path / "sula.yaml"
    path.write_text(COMMENTED.replace("layout:", "start: {closure: crimp and clasp}, layout:"))
    with pytest.raises(NotPossible, match="two different ends"):
        workshop.drafts.copy_of(path)


def test_a_bead_is_in_the_box_once_it_is_kept(workshop) -> None:
    draft = Draft(unit="in", beads=(BeadDraft("P", name="Pink", length="1/4", in_hand="9"), BeadDraft("Q", "quartz")))
    workshop.drafts.keep_typing(draft)
    assert workshop.drafts.beads() == ()
    workshop.drafts.keep(draft)
    assert workshop.drafts.beads() == (BeadDraft("", name="Pink", length="1/4 in", in_hand="9"),)


def test_a_length_that_is_none_is_no_cord(workshop, tmp_path: Path) -> None:
    path = tmp_path / "sula.yaml"
    path.write_text(COMMENTED)
    draft = workshop.drafts.copy_of(path)
    judged = workshop.drafts.judge(draft)
    assert workshop.drafts.reach(draft, judged) is None
    with pytest.raises(LengthError):
        workshop.drafts.reach(replace(draft, cord_in_hand="a lot"), judged)
    found = workshop.drafts.reach(replace(draft, cord_in_hand="2 m"), judged)
    assert found.made.count == workshop.designs.ready(workshop.plan(path)).reach(2000.0).made.count
