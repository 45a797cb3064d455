"""The design file's rules, each with a file of its own: what is taken, what is refused, and where it says so."""

from __future__ import annotations

import random

import pytest
import yaml

from companion.core.closures.table import CLOSURES
from companion.core.values.design import (
    LAYOUT_WORDS,
    Bead,
    BeadKind,
    BeadRun,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Space,
    Strand,
)
from companion.storage.design.files import design_schema, read_design, read_design_text
from companion.storage.design.yaml_text.strict_yaml import parse
from companion.storage.design.yaml_text.syntax_words import CannotParse
from tests.storage.design.json_schema import accepts

HEAD = "format: 1\nname: Rule light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}, s: {length: 2 mm}}\n"


def read(text: str | bytes):
    return read_design_text(text, "rule.yaml")


def layout(*lines: str, head: str = HEAD, size: str = ""):
    return read(head + size + "strand:\n  layout:\n" + "".join(f"    {line}\n" for line in lines))


def items(*lines: str, **more: str):
    found = layout(*lines, **more)
    assert found.problems == ()
    return found.design.strands[0].layout


def strands(count: int) -> str:
    return f"strands: [{', '.join(f'{{name: s{number}, layout: [b]}}' for number in range(count))}]\n"


def bead(design: Design, key: str) -> BeadKind:
    return next(kind for kind in design.beads if kind.key == key)


def problem(reading, code: str):
    """The one problem of that code; it names its place."""
    found = [problem for problem in reading.problems if problem.code == code]
    assert len(found) == 1, [str(problem) for problem in reading.problems]
    assert reading.design is None
    assert str(found[0]).startswith("rule.yaml:" if found[0].line else "rule.yaml: ")
    return found[0]


# -- what is taken ----------------------------------------------------------------------------------------------------


def test_every_word_of_a_layout() -> None:
    assert items("- b", "- knot", "- single knot", "- double knot", "- triple knot") == (
        Bead("b"), Knot("single"), Knot("single"), Knot("double"), Knot("triple"),
    )  # fmt: skip
    assert items("- space: 10 mm") == (Space(10.0),)
    assert items("- {repeat: 4, of: [b, knot]}") == (Repeat(4, (Bead("b"), Knot("single"))),)
    assert items("- {mirror: {side: [b], middle: [s]}}") == (Mirror((Bead("b"),), (Bead("s"),)),)
    assert items("- {mirror: {side: [b]}}") == (Mirror((Bead("b"),), ()),)
    assert items("- {beads: b, count: 28, knot every: 4}") == (BeadRun("b", 28, 4),)
    assert items("- {beads: b, count: 30}") == (BeadRun("b", 30, None),)
    size = "size: {length: 20 cm}\n"
    assert items("- {repeat: fit, of: [b]}", size=size) == (Repeat(None, (Bead("b"),)),)
    assert items("- {beads: b, count: fit}", size=size) == (BeadRun("b", None, None),)


def test_scalars_mean_what_they_say() -> None:
    text = HEAD.replace("name: Rule light", "name: 1:30").replace(
        "{length: 2 mm}", "{length: 2 mm, colour: on, name: 0123}"
    )
    design = read(text + "note: 1.10\nstrand: {layout: [b, s]}\n").design
    assert (design.name, design.note) == ("1:30", "1.10")
    assert (bead(design, "s").colour, bead(design, "s").name) == ("on", "0123")


@pytest.mark.parametrize("key", ["no", "1", "~", "null", "yes", "3.5", "a b"])
def test_any_text_is_a_bead_key(key) -> None:
    design = read(HEAD.replace(" s: {", f" {key}: {{") + f"strand: {{layout: [b, {key}]}}\n").design
    assert design.strands[0].layout[1] == Bead(key)


@pytest.mark.parametrize("begin", [b"", b"\xef\xbb\xbf", b"---\n", b"# a design\n"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
def test_marks_line_ends_and_a_leading_rule_are_fine(begin, end, skerry) -> None:
    data = begin + skerry.read_bytes().replace(b"\n", end)
    assert read(data).design == read_design(skerry).design


def test_the_units_of_a_file() -> None:
    head = HEAD.replace("1 mm", "1").replace("6 mm", "6").replace("2 mm", "2")
    plain = read(head + "strand: {layout: [b]}\n")
    assert [problem.code for problem in plain.problems] == ["no length"] * 3
    design = read("unit: mm\n" + head + "strand: {layout: [b]}\n").design
    assert (bead(design, "b").length_mm, design.unit) == (6.0, "mm")
    inches = read("unit: in\n" + head.replace("length: 6", "length: 1/4") + "strand: {layout: [b]}\n").design
    assert bead(inches, "b").length_mm == pytest.approx(6.35)


@pytest.mark.parametrize(
    ("size", "unit"), [("length: 7 in", "in"), ("neck: 40 cm", "cm"), ("wrist: 2 ft", "in"), ("length: 1 m", "cm")]
)
def test_the_makers_unit(size, unit) -> None:
    assert read(HEAD + f"size: {{{size}}}\nstrand: {{layout: [b]}}\n").design.unit == unit


def test_what_is_left_out() -> None:
    design = read(HEAD + "strand: {layout: [b]}\n").design
    assert (design.cord.layers, design.cord.material, design.cord.worked_with) == (1, "other", "awl")
    assert (design.strands[0].start.closure, design.strands[0].end.closure, design.strands[0].work) == (
        "plain tail", "plain tail", "along",
    )  # fmt: skip
    assert (bead(design, "b").diameter_mm, bead(design, "b").name, bead(design, "b").hole_mm) == (6.0, "b", None)
    assert design.size is None
    sized = read(HEAD + "size: {wrist: 16 cm}\nstrand: {layout: [b]}\n").design.size
    assert (sized.ease_mm, sized.tolerance_mm, sized.typed) == (0.0, 3.0, "wrist 16 cm")


# -- what is refused --------------------------------------------------------------------------------------------------

SCHEMA_FAULTS = {
    "layers": HEAD.replace("1 mm}", "1 mm, layers: 9}", 1) + "strand: {layout: [b]}\n",
    "no such word": HEAD.replace("1 mm}", "1 mm, material: leathr}", 1) + "strand: {layout: [b]}\n",
    "no count": HEAD + "strand: {layout: [{repeat: 0, of: [b]}]}\n",
    "no list": HEAD + "strand: {layout: []}\n",
    "missing key": HEAD + "strand: {layout: [{repeat: 3}]}\n",
    "no layout item": HEAD + "strand: {layout: [{glass: 3}]}\n",
    "no length": HEAD.replace("6 mm", "6 smoots") + "strand: {layout: [b]}\n",
    "no mapping": HEAD + "size: 7\nstrand: {layout: [b]}\n",
    "no text": HEAD.replace("name: Rule light", "name: [a]") + "strand: {layout: [b]}\n",
    "unknown key": HEAD + "strand: {layout: [b], clasp: x}\n",
}
SENSE_FAULTS = {
    "duplicate key": HEAD + "note: a\nnote: b\nstrand: {layout: [b]}\n",
    "undefined bead": HEAD + "strand: {layout: [c]}\n",
    "two sizes": HEAD + "size: {wrist: 16 cm, neck: 40 cm}\nstrand: {layout: [b]}\n",
    "no size": HEAD + "size: {tolerance: 2 mm}\nstrand: {layout: [b]}\n",
    "ease beside length": HEAD + "size: {length: 16 cm, ease: 1 cm}\nstrand: {layout: [b]}\n",
    "fit without size": HEAD + "strand: {layout: [{repeat: fit, of: [b]}]}\n",
    "fit adds nothing": HEAD + "size: {length: 9 cm}\nstrand: {layout: [b, {repeat: fit, of: [{space: 0 mm}]}]}\n",
    "strand and strands": HEAD + "strand: {layout: [b]}\nstrands: [{name: a, layout: [b]}]\n",
    "missing key": HEAD,
    "strand name": HEAD + "strands: [{name: a, layout: [b]}, {name: a, layout: [b]}]\n",
    "one end": HEAD + "strand: {start: {closure: endless}, layout: [b]}\n",
    "no middle": HEAD + "strand: {work: from the middle, layout: [b]}\n",
    "bead too long": HEAD.replace("6 mm", "300 mm") + "size: {length: 20 cm}\nstrand: {layout: [b]}\n",
    "bead key": HEAD.replace(" s: {", " knot: {") + "strand: {layout: [b]}\n",
    "too many strands": HEAD + strands(1001),
    "too many": HEAD + "strand: {layout: [{repeat: 1000, of: [{repeat: 101, of: [b]}]}]}\n",
}


@pytest.mark.parametrize(("code", "text"), [*SCHEMA_FAULTS.items(), *SENSE_FAULTS.items()])
def test_what_is_refused(code, text) -> None:
    found = problem(read(text), code)
    assert found.severity == "error"
    assert found.found.endswith(".")
    assert found.line > 0


def test_the_limit_is_named_and_nothing_is_expanded() -> None:
    nested = "[b]"
    for _ in range(9):
        nested = f"[{{repeat: 100000, of: {nested}}}]"
    found = problem(read(HEAD + f"strand: {{layout: {nested}}}\n"), "too many")
    assert "100,000" in found.expected


def test_the_most_strands_are_taken_and_the_limit_is_named() -> None:
    assert len(read(HEAD + strands(1000)).design.strands) == 1000
    found = problem(read(HEAD + strands(1001)), "too many strands")
    assert (found.found, found.expected) == ("Found 1,001 strands.", "At most 1,000 are taken.")
    assert (found.line, found.column) == (5, 1)


@pytest.mark.parametrize(
    ("word", "near"), [("glas", "glass"), ("doble knot", "double knot"), ("sliver", "silver"), ("kont", "knot")]
)
def test_the_nearest_right_word(word, near) -> None:
    head = HEAD.replace("{b: {length: 6 mm}, s: {length: 2 mm}}", "{glass: {length: 6 mm}, silver: {length: 2 mm}}")
    found = problem(layout(f"- {word}", head=head), "undefined bead")
    assert found.hint == f"Did you mean {near}?"
    assert (found.line, found.column) == (7, 7)


def test_what_is_expected_is_written_as_it_is() -> None:
    text = HEAD + "strand: {start: {closure: beed tip and clasp}, layout: [b]}\n"
    found = problem(read(text), "no such word")
    for closure in CLOSURES:
        assert closure in found.expected
    assert found.expected.endswith("endless or plain tail.")
    assert found.hint == "Did you mean bead tip and clasp?"


def test_a_misspelt_end_is_told_once() -> None:
    text = HEAD + "strand: {start: {closure: endles}, layout: [b], end: {closure: endless}}\n"
    assert [one.code for one in read(text).problems] == ["no such word"]
    text = HEAD + "strand: {start: {closure: endless}, layout: [b], end: {closure: loop and bead}}\n"
    assert [(one.code, one.column) for one in read(text).problems] == [("one end", 27)]


@pytest.mark.parametrize(("item", "key"), [("space: 3 mm, of: [b]", "of"), ("repeat: 2, of: [b], count: 3", "count")])
def test_two_items_in_one(item, key) -> None:
    found = problem(layout(f"- {{{item}}}"), "unknown key")
    assert found.found == f"Found «{key}» together with «{item.partition(':')[0]}»."
    assert found.expected == "Give each of them a dash of its own."


@pytest.mark.parametrize("layers", ["0", "9", "two", "1.5", "[2]", "1000000"])
def test_layers_are_one_to_eight(layers) -> None:
    text = HEAD.replace("1 mm}", f"1 mm, layers: {layers}}}", 1) + "strand: {layout: [b]}\n"
    assert problem(read(text), "layers").expected.endswith("side by side: a whole number from 1 to 8.")


@pytest.mark.parametrize("word", LAYOUT_WORDS)
def test_a_word_of_layouts_alone_is_not_taken_for_a_bead_to_define(word) -> None:
    found = problem(layout(f"- {word}"), "undefined bead")
    assert found.found == f"Found «{word}» alone, where a bead or a knot belongs."
    assert "Add it" not in str(found)


def test_an_empty_layout_is_called_so() -> None:
    assert problem(read(HEAD + "strand: {layout: []}\n"), "no list").found == "The layout is empty."


def test_a_long_note_is_kept_and_a_longer_one_shortened() -> None:
    note = "Doubled silk, a knot at every bead. " * 20
    assert read(HEAD + f"note: {note}\nstrand: {{layout: [b]}}\n").design.note == note.strip()
    assert len(read(HEAD + f"note: {note * 9}\nstrand: {{layout: [b]}}\n").design.note) == 2000


def test_many_misspelt_beads_among_many_are_told_without_searching_for_ever() -> None:
    beads = "".join(f"  glass{number}: {{length: 6 mm}}\n" for number in range(2000))
    words = [f"glsas{number}" for number in range(2000)]
    head = HEAD[: HEAD.index("beads:")] + "beads:\n" + beads
    reading = read(head + f"strand: {{layout: [{', '.join(words)}]}}\n")
    *told, rest = reading.problems
    hints = [one.hint for one in told]
    assert len(hints) == 50
    assert hints[0].startswith("Did you mean glass")
    assert hints[-1] == "Add it under `beads:`, or correct it."
    assert rest.found == "From here on there are 1,950 more of this kind."


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ([f"key{number}: x" for number in range(3000)], "unknown key"),
        (["name: once more"] * 3000, "duplicate key"),
        (["strands:", *["  - {}"] * 3000], "missing key"),
        (["strand:", "  layout:", *["    - {space: wide}"] * 3000], "no length"),
        (["strand:", "  layout:", *["    - []"] * 3000], "no layout item"),
    ],
)
def test_of_each_kind_of_problem_so_many_are_told_and_the_rest_counted(lines, code) -> None:
    """Where the counting begins is where the first one stands that is not told."""
    found = [one for one in read(HEAD + "\n".join(lines) + "\n").problems if one.code == code]
    assert len(found) == 51
    *told, rest = found
    assert rest.found == "From here on there are 2,950 more of this kind."
    assert rest.line == told[-1].line + 1


def test_a_decimal_comma_in_braces_is_explained() -> None:
    found = problem(read(HEAD.replace("{length: 6 mm}", "{length: 6,5 mm}") + "strand: {layout: [b]}\n"), "unknown key")
    assert "needs quotes" in found.hint


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("a: &x 1\n", "anchor"), ("a: *x\n", "anchor"), ("a: !!str 1\n", "tag"), ("a: !x 1\n", "tag"),
        ("<<: {a: 1}\n", "merge key"), ("a: 1\n---\nb: 2\n", "second document"),
        ("? [a]\n: 1\n", "odd key"), ("- a\n", "not a mapping"), ("", "empty"), ("# nothing\n", "empty"),
        ("a: [" * 30 + "]" * 30 + "\n", "too deep"), ("a: b: c\n", "not YAML"), ("a: [1\n", "not YAML"),
        ("a: 'x\n", "not YAML"), ("\ta: 1\n", "not YAML"), ("a: \u202eb\n", "control character"),
        ('a: "\\u202e"\n', "control character"), ('a: "\\0"\n', "control character"),
        ("a: \x07\n", "control character"),
    ],
)  # fmt: skip
def test_strict_yaml(text, code) -> None:
    for loader in (yaml.SafeLoader, getattr(yaml, "CSafeLoader", yaml.SafeLoader)):
        with pytest.raises(CannotParse) as raised:
            parse(text, loader)
        assert raised.value.code == code
        assert raised.value.found


def test_a_duplicate_hides_nothing_and_is_told_where_it_is_repeated() -> None:
    text = HEAD + "note: a\nstrand:\n  layout: [b, c]\n  layout: [b]\nnote: b\nclasp: x\n"
    found = read(text).problems
    assert [(one.code, one.line, one.column) for one in found] == [
        ("undefined bead", 7, 15), ("duplicate key", 8, 3), ("duplicate key", 9, 1), ("unknown key", 10, 1),
    ]  # fmt: skip
    assert "line 5" in found[2].found


def test_twenty_four_levels_and_no_more() -> None:
    assert parse("a: " + "[" * 23 + "]" * 23)
    with pytest.raises(CannotParse):
        parse("a: " + "[" * 24 + "]" * 24)


def test_one_mebibyte_and_no_more(skerry) -> None:
    text = skerry.read_bytes()
    padded = text + b"#" + b"x" * (1024 * 1024 - len(text) - 1)
    assert read(padded).problems == ()
    assert problem(read(padded + b"x"), "too large").line == 0


def test_random_damage_is_always_told_in_words(skerry) -> None:
    good = skerry.read_bytes()
    schema = design_schema()
    draw = random.Random(8)
    for _ in range(700):
        data = bytearray(good)
        for _ in range(draw.randint(1, 6)):
            place = draw.randrange(len(data))
            choice = draw.random()
            if choice < 0.4:
                data[place] = draw.choice(b"\x00\x1b\xff:-[]{},&*!|>'\"%@`#\t\n 09azAZ")
            elif choice < 0.7:
                del data[place : place + draw.randint(1, 20)]
            else:
                data[place:place] = draw.choice(
                    [b"\n  - ", b": ", b"[" * 30, b"fit", b"99999999999", b"\r", b"? ", b"&a "]
                )
        found = read(bytes(data))
        assert (found.design is None) == bool(found.problems)
        if found.design:
            assert accepts(schema, schema, yaml.safe_load(found.text.replace("\t", " "))), found.text
        for one in found.problems:
            assert str(one).isprintable()
            assert one.found


def test_the_shipped_bracelet_value_by_value(skerry) -> None:
    """6 1/2 in is 165.1 mm, 3/4 in 19.05 mm and 1/8 in 3.175 mm: the inch is 25.4 mm (NIST SP 811, appendix B)."""
    tip = End("bead tip and clasp", length_mm=12.0)
    knot, glass, silver = Knot("single"), Bead("glass"), Bead("silver")
    side = (Repeat(None, (glass, knot)), silver, knot)
    design = read_design(skerry).design
    assert design == Design(
        name="Skerry bracelet",
        note="Doubled silk, a knot at every bead.",
        size=Size("wrist", 165.1, 19.05, 3.175, "wrist 6 1/2 in"),
        cord=CordDesign("twisted silk", 0.45, 2, "silk", "awl", (("single", KnotNumbers(6.0, 2.0)),)),
        beads=(
            BeadKind("glass", "Sea-glass round", 6.0, 6.0, 1.0, "teal"),
            BeadKind("silver", "Silver daisy", 2.0, 5.0, 1.2, "silver", "daisy"),
        ),
        strands=(Strand((knot, Mirror(side, (glass,)), knot), tip, tip),),
        unit="in",
    )


# -- the schema for editors -------------------------------------------------------------------------------------------


def test_schema_loader_and_shipped_designs_agree(patterns) -> None:
    schema = design_schema()
    for path in sorted(patterns.glob("*.yaml")):
        assert read_design(path).problems == ()
        assert accepts(schema, schema, yaml.safe_load(path.read_text())), path


@pytest.mark.parametrize("code", SCHEMA_FAULTS)
def test_what_the_schema_can_see_it_refuses_too(code) -> None:
    schema = design_schema()
    assert not accepts(schema, schema, yaml.safe_load(SCHEMA_FAULTS[code]))


def test_the_schema_is_named_and_complete() -> None:
    schema = design_schema()
    assert schema["$schema"].endswith("2020-12/schema")
    assert set(schema["properties"]) == {"format", "name", "note", "unit", "size", "cord", "beads", "strand", "strands"}
    assert schema["additionalProperties"] is False
    assert "worked with" in schema["$defs"]["CordModel"]["properties"]
    assert "knot every" in schema["$defs"]["BeadsModel"]["properties"]
    assert len(schema["$defs"]["EndModel"]["properties"]["closure"]["enum"]) == 10


def test_color_is_the_same_as_colour_and_one_of_them_is_enough() -> None:
    bead_line = "beads: {b: {length: 6 mm, %s}}\nstrand: {layout: [b]}\n"
    head = "format: 1\nname: x\ncord: {name: silk, diameter: 0.45 mm}\n"
    for words in ("colour: teal", "color: teal"):
        assert bead(read(head + bead_line % words).design, "b").colour == "teal"
    (problem,) = read(head + bead_line % "colour: teal, color: blue").problems
    assert (problem.code, problem.line) == ("two colours", 4)
