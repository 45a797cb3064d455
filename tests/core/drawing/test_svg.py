"""The SVG of a plan: the same geometry, every bead there, and nothing in it that could run or load."""

from __future__ import annotations

from xml.etree import ElementTree

from msgspec.structs import replace

from companion.core.drawing.strand import drawn_strand
from companion.core.drawing.svg import PIXELS_PER_MM, picture_svg
from companion.core.values.design import BeadKind
from tests.core.hand_plans import GLASS, hand_plan

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '"><script>alert(1)</script>&\x1b[31m\u202e]]>'


def parsed(plan) -> ElementTree.Element:
    return ElementTree.fromstring(picture_svg(plan))


def test_every_bead_and_knot_is_drawn_once() -> None:
    plan = hand_plan()
    strand = drawn_strand(plan, 0, PIXELS_PER_MM)
    ellipses = [e for e in parsed(plan).iter(f"{SVG}ellipse") if e.get("fill") != "none"]
    glass = [e for e in ellipses if float(e.get("rx")) == GLASS.length_mm * PIXELS_PER_MM / 2]
    assert len(glass) == 21
    centres = sorted(float(e.get("cx")) for e in glass)
    places = [
        strand.begin(n) + strand.part(n).width / 2 for n in range(len(strand.order)) if strand.part(n).width == 24
    ]
    assert [c - centres[0] for c in centres] == [p - places[0] for p in places]
    daisies = [e for e in parsed(plan).iter(f"{SVG}rect") if e.get("rx")]
    assert len(daisies) == 2


def test_hostile_names_are_only_text() -> None:
    kind = BeadKind("glass", HOSTILE, 6, 6, 1, "teal")
    plan = replace(hand_plan(beads=(kind, hand_plan().beads[1])), design=HOSTILE)
    text = picture_svg(plan)
    assert "\x1b" not in text
    assert "\u202e" not in text
    names = {element.tag for element in ElementTree.fromstring(text).iter()}
    assert names <= {
        f"{SVG}{name}"
        for name in ("svg", "title", "defs", "radialGradient", "stop", "rect", "text", "line", "ellipse", "circle")
    }
    assert "href" not in text


def test_the_legend_names_the_beads() -> None:
    words = [element.text for element in parsed(hand_plan()).iter(f"{SVG}text")]
    assert "G   Sea-glass round, 1/4 in" in words
    assert "Skerry bracelet" in words
