"""What is wrong with a design file, said as a maker would: no word of the format, and always what to do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from companion.storage.design.files import read_design, read_design_text
from companion.storage.design.findings import MOST_ALIKE
from tests.harness.design_files import PATTERNS

GOOD = (PATTERNS / "skerry-bracelet.yaml").read_text()
SIZE = "{wrist: 6 1/2 in, ease: 3/4 in, tolerance: 1/8 in}"
SIDE = "repeat: fit\n            of: [glass, knot]"
BEADS = GOOD[GOOD.index("beads:") : GOOD.index("strand:")]
LAYOUT = GOOD[GOOD.index("  layout:") : GOOD.index("  end:")]
STRAND = GOOD[GOOD.index("strand:") :]
GLASS = "{name: Sea-glass round, length: 6 mm, diameter: 6 mm, hole: 1 mm, colour: teal}"

# What stands in a good file, what a maker may have written there, and how the file is then said to be wrong.
SLIPS: list[tuple[str, str, str]] = [
    ("format: 1\n", "", "The design has no «format». Begin the file with `format: 1`."),
    ("format: 1", "format: 2", "Found format «2». This version reads format 1: begin the file with `format: 1`."),
    ("name: Skerry bracelet\n", "", "The design has no «name». Add one, like `name: Evening strand`."),
    ("name: Skerry bracelet", "name:", "Nothing is written here. Write a name."),
    ("name: Skerry bracelet", "name: [Skerry, cuff]", "Found a list in place of a text."),
    (SIZE, "7 in", "The size is written as «7 in». Write it like `size: {wrist: 6 1/2 in}`"),
    (SIZE, "\n  - wrist: 7 in", "The size is written as a list. Write it like `size: {wrist: 6 1/2 in}`"),
    (SIZE, "{}", "The size is empty. Write one of length, wrist and neck, or leave `size:` out."),
    (SIZE, "", "The size is empty. Write it like `size: {wrist: 6 1/2 in}`, or with neck or length."),
    ("size: " + SIZE, "", "Found «fit», but the design has no size to fit to. Add a size"),
    ("1/8 in}", "[1/8 in]}", "Found a list in place of a length. Write it like 6 mm or 1/4 in."),
    ("0.45 mm", "{of: 1 mm}", "Found «of: …» in place of a length. Write it like 6 mm or 1/4 in."),
    ("name: twisted silk", "name: {silk: 2}", "Found «silk: …» in place of a text. Write a text, in quotes if"),
    ("material: silk", "material: elastic", "Knots slip in elastic cord and it stretches, so no length can be plan"),
    ("layers: 2", "layers: two", "Write how many cords run side by side: a whole number from 1 to 8."),
    ("layers: 2", "layerz: 2", "Found «layerz» in the cord, where it means nothing. It can have name, diameter,"),
    ("{take_up: 6 mm, length: 2 mm}", "6 mm", "The single knot is written as «6 mm». Write it like `single: {"),
    (", length: 2 mm}", "}", "The single knot has no «length». Add how long it is, like `length: 6 mm`."),
    (BEADS, "beads:\n  - glass\n", "The part `beads:` is written as a list. Write each bead under a name of its own"),
    (BEADS, "beads: glass\n", "The part `beads:` is written as «glass». Write each bead under a name of its own"),
    (GLASS, "6 mm", "The bead «glass» is written as «6 mm». Write it like `glass: {length: 6 mm}`."),
    (GLASS, "{diameter: 6 mm}", "The bead «glass» has no «length». Add how long it is, like `length: 6 mm`."),
    ("  silver: {", "  knot: {", "Found a bead called «knot», which means something else in a layout."),
    ("middle: [glass]", "middle: [opal]", "Found «opal», which is not a bead of this design. Add it under `beads:`"),
    ("            of: [glass, knot]\n", "", "The repeat has no «of». Add what is repeated, like `of: [glass, knot]`."),
    ("of: [glass, knot]", "of: glass", "What is repeated is written as «glass». Write it like `of: [glass, knot]`."),
    ("of: [glass, knot]", "of: []", "What is repeated is empty. Write it like `of: [glass, knot]`."),
    (LAYOUT, "  layout: knot\n", "The layout is written as «knot». Write its beads and knots in their order"),
    (LAYOUT, "  layout:\n", "The layout is empty. Write its beads and knots in their order"),
    (LAYOUT, "  layout: {glass: 3}\n", "The layout is written as «glass: …». Write its beads and knots"),
    ("    - knot\n", "    - [glass, knot]\n", "Found a list in the layout. A line of a layout is a bead or a knot"),
    ("    - knot\n", "    - spcae: 3 mm\n", "Found «spcae: …» in the layout. A line of a layout is a bead or a knot"),
    ("        side:\n", "        sied:\n", "The mirror has no «side». Add one side, like `side: [glass, knot]`."),
    ("          - silver\n", "          - {beads: silver}\n", "The run of beads has no «count». Add how many, like"),
    (SIDE, f"{SIDE}\n            space: 3 mm", "Found «repeat» together with «space». Give each of them a dash"),
    ("end: {closure: bead tip and clasp, length: 12 mm}", "end: clasp", "The end is written as «clasp». Write it"),
    (STRAND, "strands: two\n", "The part `strands:` is written as «two». Begin each strand with `- name:`"),
    (STRAND, "strands:\n  - {name: a, layout: knot}\n", "The layout is written as «knot»."),
    (STRAND, "strands:\n  - {name: a}\n", "Strand 1 has no «layout». Add `layout:`, and below it the beads and knots"),
    (STRAND, "strand: glass\n", "The strand is written as «glass». Under `strand:` write `layout:`"),
    (STRAND, "", "The design has no strand. Add `strand:` with a `layout:` below it."),
    ("fit\n", "90000\n", "This comes to 360,007 beads, knots and spaces. At most 100,000 are taken: lower a number."),
    ("of: [glass, knot]", "of: [space: 0 mm]", "What is repeated until it fits adds no length, so it never would."),
    ("  layers: 2", "\tlayers: 2", "Found a tab before the first word of a line. Use spaces there."),
    ("  layers: 2", "  layers 2", "Found a line without a colon. Write it like `layers: 2`;"),
    ("  layers: 2", "   layers: 2", "Found a colon where none can be. Put a text with a colon in quotes; else"),
    ("  layers: 2", "  layers: - 2", "Found a dash after a colon. Begin a new line with it, or put it in quotes."),
    ("layers: 2", "<<: 2", "Found «<<» before a colon. Write out what it stands for."),
    ("layers: 2", "[a]: 2", "Found no word before a colon. Write one, like `layers: 2`."),
    ("1/8 in}\ncord", "1/8 in\ncord", "but the { of line 4 is still open. Put a comma between its parts, and close"),
    ("twisted silk", "&silk", "Found & or * at the start of a text. Put it in quotes, or write out what"),
    ("material: silk", "material: !silk", "Found an exclamation mark at the start of a text. Put the whole text in"),
    ("strand:\n", "---\nstrand:\n", "Found dashes that begin another design. A file holds one"),
    ("note: Doubled silk", 'note: "Do\\qubled silk"', "The text that begins here has a backslash in it that means"),
    (GOOD, "- glass\n", "This does not begin like a design. A design begins with `format: 1`."),
    (GOOD, "[" * 30 + "]" * 30, "Found more than 24 brackets, repeats and the like, one within the other."),
]  # fmt: skip
FORMAT_WORDS = re.compile(
    r"\b(mapping|scalar|sequence|key|keys|item|items|element|elements|node|anchor|alias|tag|merge|document|value|values|"
    r"int|str|integer|string|boolean|null|yaml|schema|type|indent|field|braces|level|levels)\b",
    re.IGNORECASE,
)


def said(text: str) -> list[str]:
    return [str(problem) for problem in read_design_text(text, "it.yaml").problems]


@pytest.mark.parametrize(("good", "slip", "words"), SLIPS)
def test_a_slip_is_told_in_the_words_of_a_maker(good, slip, words) -> None:
    assert good in GOOD
    lines = said(GOOD.replace(good, slip, 1))
    assert any(words in line for line in lines), lines


@pytest.mark.parametrize(("good", "slip", "words"), SLIPS)
def test_no_word_of_the_format_is_in_it_and_what_to_do_is(good, slip, words) -> None:
    for problem in read_design_text(GOOD.replace(good, slip, 1), "it.yaml").problems:
        plain = re.sub(r"`[^`]*`|«[^»]*»", "", f"{problem.found} {problem.expected} {problem.hint}")
        assert not FORMAT_WORDS.findall(plain), plain
        assert problem.line
        assert problem.column
        assert problem.expected or problem.hint


def test_where_no_bead_can_be_read_not_every_bead_is_said_to_be_unknown() -> None:
    assert len(said(GOOD.replace(BEADS, "beads: glass\n"))) == 1


def test_many_alike_are_counted_in_the_same_words() -> None:
    more = 7
    layout = "".join(f"    - opal{number}\n" for number in range(MOST_ALIKE + more))
    lines = said(GOOD.replace(LAYOUT, f"  layout:\n{layout}"))
    assert lines[-1].endswith(f"From here on there are {more} more of this kind.")


def test_a_folder_is_said_to_be_one(tmp_path: Path) -> None:
    (problem,) = read_design(tmp_path).problems
    assert (problem.found, problem.expected) == ("It is a folder.", "Name a design file in it.")
