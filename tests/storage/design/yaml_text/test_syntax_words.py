"""Faults of syntax are told at the place that a maker has to look at, alike with either of yaml's two parsers."""

from __future__ import annotations

import random
import re

import pytest
import yaml

from companion.storage.design.files import read_design_text
from companion.storage.design.yaml_text import strict_yaml
from companion.storage.design.yaml_text.strict_yaml import parse
from companion.storage.design.yaml_text.syntax_words import CannotParse

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]


@pytest.fixture(params=LOADERS, ids=lambda loader: loader.__name__)
def loader(request):
    return request.param


@pytest.mark.parametrize(
    ("text", "place", "found"),
    [
        ("size:\n\twrist: 19 cm\n", (2, 1), "tab before the first word"),
        ("size:\n  wrist: 19 cm\n \t ease: 1 cm\n", (3, 2), "tab before the first word"),
        ("a: 1\nsize\nnote: a\n", (2, 1), "line without a colon"),
        ("layout:\n  - b\n  -b\nnote: a\n", (3, 3), "line without a colon"),
        ("a: 1\n'b' 2\n", (2, 1), "line without a colon"),
        ("size:\n  wrist: 19 cm\n ease: 1 cm\n", (3, 2), "further left or right than those above"),
        ("layout:\n  - b\n  c: 1\n", (3, 3), "without a dash among lines that have one"),
        ("note: it's: fine\n", (1, 11), "colon where none can be"),
        ("a:1\nb: 2\n", (2, 2), "colon where none can be"),
        ("a: {b: c: d}\n", (1, 9), "colon where none can be"),
        ("note: 'it's fine'\n", (1, 11), "text after a closing quote"),
        ('note: "7" bracelet"\n', (1, 11), "text after a closing quote"),
        ("a: {b: 1} c\n", (1, 11), "text after a closing }"),
        ("a: [1]]\n", (1, 7), "] that nothing opens"),
        ("a: }\n", (1, 4), "} that nothing opens"),
        ("a: 'x\nb: 1\n", (1, 4), "quote that opens here"),
        ('a: {length: "7""}\nb: 1\n', (1, 16), "quote that opens here"),
        ("a: {b: 1\n", (1, 4), "{ that opens here"),
        ("a: [1, 2\nb: 3\n", (2, 2), "the [ of line 1 is still open"),
        ("a: {b: 1, colour: #fff}\nc: 1\n", (1, 19), "Found a #"),
        ("a: {b: 1,\n  c: d, e: #fff}\nf: 1\n", (2, 12), "Found a #"),
        ("a: [b,,c]\n", (1, 7), "comma with nothing before it"),
        ("a: @home\n", (1, 4), "Found @ at the start"),
        ("a: `b`\n", (1, 4), "Found ` at the start"),
        ("a: >b\n", (1, 4), "Found > at the start of a text"),
        ("a: ?\n", (1, 4), "Found a ? at the start of a text"),
        ("a: - b\n", (1, 4), "dash after a colon"),
        ('a: "b\\q"\n', (1, 4), "backslash"),
        ('a: "\\u12"\n', (1, 4), "backslash"),
        ("a: *\n", (1, 4), "& or * at the start of a text"),
        ("a: & b\n", (1, 4), "& or * at the start of a text"),
        ("a: !<b\n", (1, 4), "exclamation mark"),
        ("a: {b: !c, d: e}\n", (1, 8), "exclamation mark"),
        ("%YAML 2.0\n---\na: 1\n", (1, 1), "begins with %"),
        ("a: 1\n...\nb: 1\n", (3, 1), "ended already"),
        ("{a: 1}\nb: 2\n", (2, 1), "ended already"),
        ("a: \ufffe\n", (1, 4), "U+FFFE"),
        # places count characters, wide ones and those of a byte-order mark's kind included
        ("name: Feuertürmchen 🗼 {\nb: 'c' d\n", (2, 8), "text after a closing quote"),
        ("a: '🗼🗼' b\n", (1, 9), "text after a closing quote"),
        ("a: b\r\nc: 'd' e\r\n", (2, 8), "text after a closing quote"),
    ],
)
def test_what_is_wrong_and_where(loader, text, place, found) -> None:
    with pytest.raises(CannotParse) as raised:
        parse(text, loader)
    assert (raised.value.line, raised.value.column) == place
    assert found in raised.value.found
    assert raised.value.expected


def test_tabs_inside_a_line_are_spaces(loader) -> None:
    root = parse("a:\tb\tc\nd: [e,\tf]\t# g\n\t\n\t# h\ni: 'j\tk'\n", loader)
    assert [root.values["a"].value, root.values["i"].value] == ["b c", "j k"]
    assert [item.value for item in root.values["d"].items] == ["e", "f"]
    assert root.values["i"].line == 5


@pytest.mark.skipif(len(LOADERS) < 2, reason="yaml was built without its C parser")
def test_damaged_designs_are_told_alike(skerry, monkeypatch) -> None:
    """All but what the two parsers are known to differ on: ?, !, & and a colon right before a comma or a bracket."""
    good = skerry.read_text()
    draw = random.Random(5)
    pieces = ["\n", "\n  - ", "- ", ": ", "[", "]", "{", "}", "'", '"', ", ", " #", "\t", "|", "@", "  ", "knot", "7"]
    for _ in range(300):
        text = good
        for _ in range(draw.randint(1, 2)):
            place = draw.randrange(len(text))
            text = text[:place] + draw.choice(pieces) + text[place:]
        if re.search(r":[]\[{},]", text):
            continue
        told = []
        for one in LOADERS:
            monkeypatch.setattr(strict_yaml, "_LOADER", one)
            told.append(read_design_text(text, "damaged.yaml"))
        assert told[0].design == told[1].design
        assert told[0].problems == told[1].problems
        assert all("This can't be read" not in problem.found for problem in told[0].problems)
