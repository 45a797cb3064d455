"""Errors that the schema cannot see: words that stand for nothing, sizes that contradict each other, names and ends.
All are found in one go."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.table import CLOSURES
from companion.core.values.design import KNOT_WORDS, LAYOUT_WORDS, MOST_STRANDS
from companion.core.values.text import nearest, plain
from companion.storage.design.findings import MOST_ALIKE, Findings, quoted
from companion.storage.design.fits import insides, written_fits
from companion.storage.design.yaml_text.strict_yaml import List, Map, Text

MOST_COMPARED = 50_000  # pairs of words, in the search for the nearest right one: half a second's worth


def words_sense(findings: Findings) -> None:
    """Finds what can be said from the file alone, whether or not the schema found errors: beads, sizes, strands,
    closures and names."""
    root = findings.root
    _repeated_keys(findings, root)
    _bead_keys(findings)
    beads = root.values.get("beads")
    if beads is None or isinstance(beads, Map):  # else no bead is known, and that is told on its own
        _undefined_words(findings, list(beads.values) if beads else [])
    _size(findings)
    _strands(findings)
    _fit_without_size(findings)


def _repeated_keys(findings: Findings, node: List | Map) -> None:
    if isinstance(node, Map):
        for key in node.repeated:
            found = f"Found {quoted(key.value)} a second time; it stands on line {node.keys[key.value].line} already."
            findings.add(key, "duplicate key", found, "Keep one of them.")
    for inside in node.items if isinstance(node, List) else node.values.values():
        if not isinstance(inside, Text):
            _repeated_keys(findings, inside)


def _undefined_words(findings: Findings, keys: list[str]) -> None:
    choices = {False: {*keys, *KNOT_WORDS}, True: {*keys} - {*KNOT_WORDS}}
    for layout in _layouts(findings.root):
        for word, bead_only in _words(layout):
            if word.value not in choices[bead_only]:
                _undefined(findings, word, keys, bead_only)


def _undefined(findings: Findings, word: Text, keys: list[str], bead_only: bool) -> None:
    if findings.counts["undefined bead"] >= MOST_ALIKE:  # no search for a near word that nobody will read
        findings.tells("undefined bead", word)
        return
    if bead_only and word.value in KNOT_WORDS:
        found = f"Found {quoted(word.value)}, where only a bead can be."
        findings.add(word, "undefined bead", found, "", "For a number of knots, write repeat and of.")
        return
    if word.value in LAYOUT_WORDS:
        found = f"Found {quoted(word.value)} alone, where a bead or a knot belongs."
        findings.add(word, "undefined bead", found, "It goes with a colon and more, like `space: 10 mm`.")
        return
    findings.compared += len(keys)
    choices = keys if findings.compared <= MOST_COMPARED else []
    near = nearest(word.value, choices if bead_only else [*choices, *KNOT_WORDS])
    hint = f"Did you mean {plain(near)}?" if near else "Add it under `beads:`, or correct it."
    findings.add(word, "undefined bead", f"Found {quoted(word.value)}, which is not a bead of this design.", "", hint)


def _bead_keys(findings: Findings) -> None:
    beads = findings.root.values.get("beads")
    if not isinstance(beads, Map):
        return
    for key, node in beads.keys.items():
        if key in KNOT_WORDS or key in LAYOUT_WORDS:
            found = f"Found a bead called {quoted(key)}, which means something else in a layout."
            findings.add(node, "bead key", found, "Call the bead something else.")
        elif not plain(key):
            found = "Found a bead with nothing to be seen before its colon."
            findings.add(node, "bead key", found, "Call the bead something that can be read.")
        bead = beads.values[key]
        if isinstance(bead, Map) and {"colour", "color"} <= bead.keys.keys():
            found = f"Found both colour and color of {quoted(key)}."
            findings.add(bead.keys["color"], "two colours", found, "Keep one of them.")


def _size(findings: Findings) -> None:
    size = findings.root.values.get("size")
    if not isinstance(size, Map):
        return
    place = findings.root.keys["size"]
    kinds = [kind for kind in ("length", "wrist", "neck") if kind in size.values]
    if len(kinds) > 1:
        found = f"Found {len(kinds)} sizes: {', '.join(kinds)}."
        findings.add(size.keys[kinds[1]], "two sizes", found, "Keep one of length, wrist and neck.")
    elif not kinds:
        expected = "Write one of length, wrist and neck, or leave `size:` out."
        findings.add(place, "no size", "The size is empty.", expected)
    for word, what in (("ease", "an ease"), ("turns", "turns")):
        if kinds == ["length"] and word in size.values:
            found = f"Found {what} beside a length."
            goes = "Ease goes" if word == "ease" else "Turns go"
            findings.add(size.keys[word], f"{word} beside length", found, f"{goes} with a wrist or a neck.")


def _fit_without_size(findings: Findings) -> None:
    if "size" in findings.root.values:
        return
    for layout in _layouts(findings.root):
        for place in written_fits(layout):
            found = "Found «fit», but the design has no size to fit to."
            expected = "Add a size, like `size: {length: 18 in}`, or write a number."
            findings.add(place, "fit without size", found, expected)
            return  # one is enough: the size that is missing is the whole design's


def _strands(findings: Findings) -> None:
    root = findings.root
    if "strand" in root.values and "strands" in root.values:
        findings.add(root.keys["strands"], "strand and strands", "Found both strand and strands.", "Keep one of them.")
    elif "strand" not in root.values and "strands" not in root.values:
        findings.add(root, "missing key", "The design has no strand.", "Add `strand:` with a `layout:` below it.")
    for strand in strand_maps(root):
        _both_ends(findings, strand)
        _strand_name(findings, strand)
    _names_of_several(findings)


def _strand_name(findings: Findings, strand: Map) -> None:
    name = strand.values.get("name")
    if isinstance(name, Text) and any(mark in name.value for mark in ":/"):
        expected = "Leave out the colon or slash: steps are written NAME:NUMBER."
        findings.add(name, "strand name", f"Found the name {quoted(name.value)}.", expected)


def _names_of_several(findings: Findings) -> None:
    strands = findings.root.values.get("strands")
    if not isinstance(strands, List):
        return
    if len(strands.items) > MOST_STRANDS:
        found = f"Found {len(strands.items):,} strands."
        findings.add(findings.root.keys["strands"], "too many strands", found, f"At most {MOST_STRANDS:,} are taken.")
    seen: set[str] = set()
    for strand in strands.items:
        name = strand.values.get("name") if isinstance(strand, Map) else None
        if isinstance(strand, Map) and name is None:
            expected = "Each of several needs one of its own, like `name: inner`."
            findings.add(strand, "strand name", "Found a strand without a name.", expected)
        elif isinstance(name, Text):
            shown = plain(name.value)
            if shown in seen:
                found = f"Found a second strand named {quoted(name.value)}."
                findings.add(name, "strand name", found, "Name it apart.")
            seen.add(shown)


def _both_ends(findings: Findings, strand: Map) -> None:
    ends = {}
    for which in ("start", "end"):
        end = strand.values.get(which)
        closure = end.values.get("closure") if isinstance(end, Map) else None
        ends[which] = closure if isinstance(closure, Text) else None
    names = {which: closure.value if closure else "plain tail" for which, closure in ends.items()}
    for which, other in (("start", "end"), ("end", "start")):
        closure = ends[which]
        known = CLOSURES.get(names[which])
        if not closure or not known or names[other] not in CLOSURES:  # a misspelt one is told on its own
            continue
        if known.both_ends and names[other] != names[which]:
            found = f"Found {quoted(closure.value)} at the {which} only."
            findings.add(closure, "one end", found, f"It takes both ends: write it at the {other} as well.")
            return


def strand_maps(root: Map) -> list[Map]:
    """Every strand that is written as a mapping, in the order of the file."""
    one, several = root.values.get("strand"), root.values.get("strands")
    found = [one] if isinstance(one, Map) else []
    return found + [node for node in (several.items if isinstance(several, List) else []) if isinstance(node, Map)]


def _layouts(root: Map) -> Iterator[List]:
    for strand in strand_maps(root):
        layout = strand.values.get("layout")
        if isinstance(layout, List):
            yield layout


def _words(layout: List) -> Iterator[tuple[Text, bool]]:
    """Every word that should be a bead or a knot, at any depth. True: only a bead will do."""
    for item in layout.items:
        if isinstance(item, Text):
            yield item, False
        elif isinstance(item, Map):
            beads = item.values.get("beads")
            if isinstance(beads, Text) and beads.value:  # an empty one is the schema's to tell
                yield beads, True
            for inside in insides(item):
                if isinstance(inside, List):
                    yield from _words(inside)
