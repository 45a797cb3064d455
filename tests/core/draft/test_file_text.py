"""The file that a draft comes to: read by the very reader of design files, whatever is typed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.draft.file_text import file_text, quoted
from companion.core.values.text import plain
from companion.storage.design.files import read_design_text

CUFF = Draft(
    name="Sula cuff",
    body="165",
    ease="20",
    cord="twisted silk",
    cord_diameter="0.45",
    layers="2",
    beads=(
        BeadDraft("P", name="Pink glass", length="8", hole="1.2", colour="pink"),
        BeadDraft("S", name="Silver spacer", length="3", diameter="5", colour="silver", shape="daisy"),
    ),
    pattern="PPPPS",
    middle="P",
    finding="hook clasp",
)


def test_as_a_person_would_write_it() -> None:
    assert (
        file_text(CUFF).text
        == """format: 1
name: Sula cuff
size: {wrist: 165 mm, ease: 20 mm}
cord:
  name: twisted silk
  material: silk
  diameter: 0.45 mm
  layers: 2
beads:
  P: {name: Pink glass, length: 8 mm, hole: 1.2 mm, colour: pink}
  S: {name: Silver spacer, length: 3 mm, diameter: 5 mm, colour: silver, shape: daisy}
strand:
  start: {closure: bead tip and clasp}
  layout:
    - knot
    - mirror:
        side:
          - repeat: fit
            of: [P, knot, P, knot, P, knot, P, knot, S, knot]
        middle: [P]
    - knot
  end: {closure: bead tip and clasp, finding: hook clasp}
"""
    )


def test_the_reader_takes_it() -> None:
    reading = read_design_text(file_text(CUFF).text, "x")
    assert reading.problems == ()
    assert reading.design.name == "Sula cuff"
    assert reading.design.size.ease_mm == 20


TEXT = st.text(max_size=40)


@given(TEXT, TEXT, TEXT, TEXT)
def test_whatever_is_typed_stays_one_value(name: str, note: str, colour: str, length: str) -> None:
    """No text breaks out of its place: the reader finds the name as typed, or a fault in that part of the draft."""
    bead = replace(CUFF.beads[0], colour=colour, length=length)
    draft = replace(CUFF, name=name, note=note, beads=(bead, CUFF.beads[1]))
    written = file_text(draft)
    reading = read_design_text(written.text, "x")
    if reading.design is not None:
        assert len(reading.design.beads) == 2
        assert reading.design.strands[0].end.finding == "hook clasp"
        assert reading.design.name == plain(plain(name, 400), 200)
    for problem in reading.problems:
        if problem.line and problem.line <= len(written.parts) and problem.severity == "error":
            assert written.part_of(problem.line) in ("what", "beads", "pattern")


@pytest.mark.parametrize(
    ("text", "value"),
    [("silk", "silk"), ("a, b", '"a, b"'), ('9⅜"', '"9⅜\\""'), ("x: y", '"x: y"'), ("", '""'), ("#fff", '"#fff"')],
)
def test_quotes_where_they_are_needed(text: str, value: str) -> None:
    assert quoted(text) == value


def test_a_fault_is_told_of_its_part() -> None:
    written = file_text(replace(CUFF, cord_diameter="thin"))
    (problem,) = read_design_text(written.text, "x").problems
    assert written.part_of(problem.line) == "cord"
