"""Every design that comes with Tallycord: made from nothing by keys alone, and opened and saved again."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.core.draft.draft import BeadDraft, Draft, StrandDraft
from companion.core.plan.plan_json import plan_json
from companion.tui.app import TallycordApp
from companion.tui.routes import ToDraft
from tests.examples import LONG
from tests.tui.design.by_keys import Answers, fill_in, to_page
from tests.tui.screens import until_seen

SHIPPED = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"), key=lambda path: path.name)
# Three strands, two sides, and beads of several kinds, each on another screen; in the long run all twelve designs, and
# the bracelet on all three.
SIZES = {"60x18": (60, 18), "80x24": (80, 24), "120x40": (120, 40)}
SOME = {"inner-farne-strands": "80x24", "muckle-flugga-necklace": "60x18", "skerry-bracelet": "120x40"}
MADE = [
    (path, size)
    for path in SHIPPED
    for size in SIZES
    if SOME.get(path.stem) == size or (LONG and (size == "80x24" or path.stem == "skerry-bracelet"))
]


@pytest.fixture
def own(workshop, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    return workshop


def what_is_typed(draft: Draft) -> Iterator[tuple[str, Answers]]:
    """The parts in the order of the page, each with what a maker types in its lines."""
    yield "name", (draft.name, draft.note, draft.unit)
    yield "length", (draft.measured, draft.body, draft.ease, draft.turns, draft.tolerance)
    yield "cord", (draft.cord, draft.material, draft.cord_diameter, draft.layers, draft.tool)
    numbers = ("single", "double", "triple")
    yield "its knots", tuple(getattr(draft, f"{kind}_{what}") for kind in numbers for what in ("take_up", "length"))
    for number, bead in enumerate(draft.beads):
        yield "+ one more kind" if number else "beads", of_a_bead(bead)
    yield "pattern", (*of_a_strand(draft), draft.work, draft.stringing)
    for strand in draft.others:
        yield "strands", (strand.name, *of_a_strand(strand))
    if draft.others:
        yield "pattern", (draft.strand, None, None, None, None, None, None)
    yield "ends", (draft.closure, draft.finding, draft.finding_size, draft.end_length, draft.end_tail)


def of_a_bead(bead: BeadDraft) -> Answers:
    return (bead.name, bead.length, bead.diameter, bead.hole, bead.colour, bead.shape, "", bead.key)


def of_a_strand(strand: Draft | StrandDraft) -> Answers:
    return (strand.pattern, strand.knots, strand.times, strand.middle)


@pytest.mark.parametrize(("path", "size"), MADE, ids=[f"{path.stem}-{size}" for path, size in MADE])
async def test_made_from_nothing_its_plan_is_the_same(own, path, size) -> None:
    app = TallycordApp(own)
    async with app.run_test(size=SIZES[size]) as pilot:
        page = await to_page(pilot)
        for label, answers in what_is_typed(own.drafts.copy_of(path)):
            await fill_in(pilot, label, answers)
        assert page.judged.findings == ()
        await pilot.press("ctrl+s")
        await until_seen(pilot, "Saved among your designs")
    (made,) = own.drafts.folder.glob("*.yaml")
    assert made.name == path.name
    plans = [json.dumps(plan_json(own.plan(place).plan)) for place in (made, path)]
    assert plans[0] == plans[1]
    assert own.drafts.kept() is None


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
async def test_opened_and_saved_no_byte_is_another(own, path) -> None:
    app = TallycordApp(own, first=ToDraft(path))
    before = path.read_bytes()
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "A copy of")
        await pilot.press("ctrl+s")
        await until_seen(pilot, "Saved among your designs")
    (copy,) = own.drafts.folder.glob("*.yaml")
    assert copy.read_bytes() == path.read_bytes() == before
