"""The sheet as a page: nothing loaded, nothing run, to scale."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest
from msgspec.structs import replace

from companion.core.drawing.strand import drawn_strand
from companion.core.drawing.svg import FINER, PIXELS_PER_MM, scaled_svgs
from companion.core.forecast.observations import own_knots_mm
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.sheet.page_style import STYLE, STYLE_HASH
from companion.core.sheet.sheet import RulerRow, step_sheet
from companion.core.sheet.sheet_html import MOST_DRAWN, WIDE_MM, sheet_page
from companion.core.sheet.sheet_words import TOO_LONG
from tests.core.sheet.shipped_plans import NAMES, shipped

# What the page may be made of; of these only `svg` has a namespace to name.
KNOWN = {
    *("html", "head", "meta", "title", "style", "body", "header", "h1", "h2", "h3", "h4", "p", "div", "section"),
    *("ul", "ol", "li", "table", "tr", "th", "td", "b", "i", "br", "span"),
    *("svg", "g", "defs", "radialgradient", "stop", "rect", "text", "line", "circle", "ellipse", "polygon"),
    *("polyline", "path"),
}
HOSTILE = "<script>alert(1)</script>\"'&<img src=x onerror=y> </style> --> {{7*7}}"


class Seen(HTMLParser):
    """The tags, attributes and text of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag, attrs) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data) -> None:
        self.text += data


def page(plan: Plan, name: str = "", piece: Piece | None = None) -> str:
    sheet = step_sheet(plan) if piece is None else step_sheet(plan, name, piece)
    return "\n".join(sheet_page(sheet, plan))


def hostile() -> Plan:
    plan = shipped("inner-farne-strands")
    beads = tuple(replace(kind, name=HOSTILE) for kind in plan.beads)
    strands = tuple(
        replace(strand, label=HOSTILE, steps=tuple(replace(step, text=HOSTILE) for step in strand.steps))
        for strand in plan.strands
    )
    return replace(plan, design=HOSTILE, note=HOSTILE, beads=beads, strands=strands)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_can_be_read_and_ticked_and_every_reading_written(name: str) -> None:
    plan = shipped(name)
    seen = Seen(page(plan))
    assert seen.tags.count("i") == plan.total_steps
    sheet = step_sheet(plan)
    rows = [row for entry in sheet.entries for row in entry.rows]
    assert all(text in seen.text for row in rows if not isinstance(row, RulerRow) for text in row.texts)
    assert all(row.words in seen.text for row in rows if isinstance(row, RulerRow))
    assert ("class", "line") in seen.attributes
    assert set(seen.tags) <= KNOWN


@pytest.mark.parametrize("plan", [shipped("skerry-bracelet"), hostile()], ids=["shipped", "hostile"])
def test_nothing_runs_and_nothing_is_loaded(plan: Plan) -> None:
    text = page(plan, HOSTILE, Piece(plan.total_steps, 3))
    seen = Seen(text)
    assert set(seen.tags) <= KNOWN
    names = {name for name, _ in seen.attributes}
    assert not any(name.startswith("on") for name in names)
    assert not names & {"style", "src", "href", "xlink:href", "action", "data", "srcdoc"}
    links = {value for _, value in seen.attributes if value and "//" in value}
    assert links == {"http://www.w3.org/2000/svg"}
    assert all(re.fullmatch(r"url\(#\w+\)", url) for url in re.findall(r"url\([^)]*\)", text))


def test_the_page_lets_in_its_own_style_and_nothing_else() -> None:
    digest = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
    assert f"sha256-{digest}" == STYLE_HASH
    text = page(shipped("skerry-bracelet"))
    assert (
        f"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src '{STYLE_HASH}'\">"
        in text
    )
    assert text.count("<style>") == 1
    assert f"<style>{STYLE}</style>" in text
    assert text.index("Content-Security-Policy") < text.index("<style>")


@pytest.mark.parametrize("name", NAMES)
def test_the_picture_is_as_long_as_the_piece(name: str) -> None:
    """Each row's cord, measured in the picture, adds up to the strands within half a millimetre in a hundred."""
    plan = shipped(name)
    drawn_mm = 0.0
    for text in scaled_svgs(plan, WIDE_MM):
        svg = ElementTree.fromstring(text)
        assert svg.get("width") == f"{WIDE_MM:g}mm"
        wide, high = (float(part) for part in svg.get("viewBox", "").split()[2:])
        per_mm = wide / WIDE_MM
        assert per_mm == PIXELS_PER_MM * FINER
        assert float(svg.get("height", "").removesuffix("mm")) == pytest.approx(high / per_mm, rel=1e-4)
        cords = [one for one in svg if one.tag.endswith("line") and one.get("y1") == one.get("y2")]
        for cord in cords:
            begin, end = float(cord.get("x1", 0)), float(cord.get("x2", 0))
            assert 0 <= begin <= end <= wide
            drawn_mm += (end - begin) / per_mm
    strands_mm = sum(strand.strand_length_mm for strand in plan.strands)
    own_mm = sum(own_knots_mm(plan, entry, len(strand.steps)) for entry, strand in enumerate(plan.strands))
    assert drawn_mm - sum(bare_ends_mm(plan)) == pytest.approx(strands_mm + own_mm, rel=0.005)


def bare_ends_mm(plan: Plan) -> Iterator[float]:
    """What the cord is drawn longer at the ends of strands that have none but the cord."""
    for entry in range(len(plan.strands)):
        strand = drawn_strand(plan, entry, 1.0)
        yield from (float(end.length_mm) for end in (strand.before, strand.after) if end and end.kind == "bare")


@pytest.mark.parametrize(("name", "long"), [("skerry-bracelet", 4 * 25.4), ("muckle-flugga-necklace", 100.0)])
def test_a_line_tells_whether_the_print_is_to_scale(name: str, long: float) -> None:
    """One unit of the line's own picture is a millimetre."""
    svg = re.search(
        r'<svg class="check" width="([\d.]+)mm" height="6mm" viewBox="-1 0 ([\d.]+) 6"', page(shipped(name))
    )
    assert svg
    assert svg[1] == svg[2]
    assert f'd="M 0 5 H {long:g}"' in page(shipped(name))


def test_a_piece_too_long_for_paper_is_told_without_a_picture() -> None:
    plan = shipped("skerry-bracelet")
    strand = plan.strands[0]
    many = replace(strand, elements=strand.elements * (MOST_DRAWN // len(strand.elements) + 1))
    text = page(replace(plan, strands=(many,)))
    assert TOO_LONG in text
    assert 'class="check"' not in text
