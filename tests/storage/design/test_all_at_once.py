"""One slip does not hide another: what takes counts and lengths to see is told beside faults of words and keys."""

from __future__ import annotations

import pytest

from companion.storage.design.files import read_design_text

HEAD = (
    "format: 1\nname: Once light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}, long: {length: 300 mm}}\n"
)
SIZE = "size: {length: 20 cm}\n"


def codes(text: str) -> list[str]:
    reading = read_design_text(text, "once.yaml")
    assert reading.design is None
    places = [(problem.line, problem.column) for problem in reading.problems]
    assert places == sorted(places)
    return [problem.code for problem in reading.problems]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("strand: {layout: [b, {repeat: 1000, of: [{repeat: 101, of: [b]}]}]}\n", ["too many"]),
        (SIZE + "strand: {layout: [b, {repeat: fit, of: [{space: 0 mm}]}]}\n", ["fit adds nothing"]),
        (SIZE + "strand: {layout: [b, long]}\n", ["bead too long"]),
        ("size: {neck: 20 cm, ease: 1 cm}\nstrand: {layout: [b, long]}\n", ["bead too long"]),
        ("strand: {work: from the middle, layout: [b]}\n", ["no middle"]),
        (SIZE + "strands: [{name: a, layout: [long]}, {name: b, layout: [bb]}]\n", ["bead too long", "undefined bead"]),
        (
            SIZE + "strands: [{name: a, layout: [long, {repeat: fit, of: [{space: 0 mm}]}]}, {name: b, layout: []}]\n",
            ["bead too long", "fit adds nothing", "no list"],
        ),
    ],
)
def test_beside_a_misspelt_key_a_repeated_one_and_a_wrong_colour(text, found) -> None:
    assert sorted(codes(HEAD + text)) == sorted(found)
    assert sorted(codes(HEAD + "noot: x\n" + text)) == sorted([*found, "unknown key"])
    assert sorted(codes(HEAD + text + "name: again\n")) == sorted([*found, "duplicate key"])
    wrong = HEAD.replace("6 mm}", "6 mm, colour: [red]}")
    # the bead with the wrong colour is left out of the sums, whatever else is told
    assert "no text" in codes(wrong + text)


@pytest.mark.parametrize(
    "text",
    [
        # what is missing or wrong may be what would have put it right: nothing is said about it
        HEAD + SIZE + "strand: {layout: [{repeat: fit, of: [bb]}]}\n",
        HEAD.replace("6 mm", "6 smoots") + SIZE + "strand: {layout: [{repeat: fit, of: [b]}]}\n",
        HEAD + SIZE + "strand: {work: from the middle, layout: [b, {repeat: 0, of: [b]}]}\n",
        HEAD + "size: {length: 20 smoots}\nstrand: {layout: [long]}\n",
        HEAD + "size: {length: 20 cm, ease: 20 cm}\nstrand: {layout: [long]}\n",
        HEAD + "size: {length: 20 cm, neck: 40 cm}\nstrand: {layout: [long]}\n",
        HEAD + "size: {wrist: 20 cm}\nstrand: {layout: [bb, long]}\n",
        HEAD.replace("1 mm}", "1}") + SIZE + "strand: {layout: [b, {repeat: fit, of: [knot]}]}\n",
    ],
)
def test_nothing_is_concluded_from_what_is_wrong(text) -> None:
    assert len(codes(text)) == 1


def test_a_wrist_is_weighed_beside_a_wrong_key_as_well() -> None:
    """300 mm of bead against a wrist of 100 mm + pi x 20 mm."""
    head = HEAD.replace("300 mm", "300 mm, diameter: 20 mm")
    text = "noot: x\nsize: {wrist: 100 mm}\nstrand: {layout: [{repeat: fit, of: [long]}]}\n"
    assert codes(head + text) == ["bead too long", "unknown key"]


def test_a_misspelt_unit_is_one_fault() -> None:
    text = "unit: inch\n" + HEAD.replace(" mm", "") + "size: {length: 20}\nstrand: {layout: [b, long, bb]}\n"
    assert codes(text) == ["no such word", "undefined bead"]
