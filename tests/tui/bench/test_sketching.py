"""The beads in the rows of the bench: read once it stands, one at a time, and no key waits for them."""

from __future__ import annotations

import shutil
from pathlib import Path
from threading import Event

import pytest
from rich.style import Style

from companion.tui.app import TallycordApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.follow.recap import RecapScreen
from companion.tui.routes import ToDesign, ToPiece
from companion.tui.themes import ground_of
from companion.workshop import open_at
from companion.workshop.bench.sketches import Sketched
from tests.tui.screens import screen_text, until, until_bench_drawn, until_seen
from tests.tui.toolkit import looks

GIVE_UP_SECONDS = 60
HOSTILE = """format: 1
name: "[@click=app.quit]x[/]"
cord: {name: "[red]silk", diameter: 0.45 mm}
beads: {"[b]": {name: "[reverse]pearl", length: 6 mm, colour: "[@click]"}}
strand: {layout: ["[b]", knot]}
"""


@pytest.fixture
def pieces(workshop, patterns, tmp_path, monkeypatch):
    """A piece begun, one half done, one finished."""
    monkeypatch.chdir(tmp_path)
    for name, share in (("fastnet-cuff", 0.0), ("skerry-bracelet", 0.5), ("girdle-ness-anklet", 1.0)):
        opened = workshop.start(patterns / f"{name}.yaml")
        opened = workshop.jump(opened, int(opened.plan.total_steps * share))
        if share == 1:
            workshop.finish(opened, opened.plan.finished_length_mm)
    workshop.let_go()
    return workshop


def row_with(text: str, words: str) -> str:
    """The row of the list that begins so."""
    return next(line for line in text.split("\n") if line.lstrip(" ›").startswith(words))


async def test_each_row_has_its_own_beads(pieces) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=(80, 60)) as pilot:
        text = await until_bench_drawn(pilot)
        assert "○○○○○○○○" in row_with(text, "Fastnet cuff")
        assert "●" not in row_with(text, "Fastnet cuff")
        half = row_with(text, "Skerry bracelet")
        assert (half.count("●"), half.count("○")) == (5, 7)  # 10 of its 23 beads are on
        assert "○" not in row_with(text, "Girdle Ness anklet")
        assert row_with(text, "girdle-ness-anklet").count("●") == 15
        assert "length 24 cm, clasp" in row_with(text, "girdle-ness-anklet")
        assert row_with(text, "fastnet-cuff").count("●") == 9
        assert "•" not in text


async def test_they_are_in_their_own_colours_under_the_cursor_too(pieces) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=(80, 60)) as pilot:
        await until_bench_drawn(pilot)
        app.screen.rows.begin_with(ToPiece("skerry-bracelet"))
        await until_bench_drawn(pilot)
        ground = ground_of(app)
        teal, silver = (ground.shape(colour) for colour in ((20, 130, 130), (190, 194, 200)))
        line = next(strip for strip in looks.strips(app) if "Skerry" in strip.text and "›" in strip.text)
        colours = {_rgb(segment.style) for segment in line if segment.text and set(segment.text) <= {"●", "○"}}
        assert teal in colours
        assert colours <= {teal, silver}


def _rgb(style: Style) -> tuple[int, int, int]:
    return tuple(style.color.get_truecolor())


@pytest.mark.parametrize("setting", [{"NO_COLOR": "1"}, {"COLORTERM": "", "TERM": "xterm-16color"}])
async def test_without_colours_they_are_letters(pieces, monkeypatch, setting) -> None:
    for name, value in setting.items():
        monkeypatch.setenv(name, value)
    app = TallycordApp(pieces)
    async with app.run_test(size=(80, 60)) as pilot:
        text = await until_bench_drawn(pilot)
        assert "sbsbsbsb" in row_with(text, "Fastnet cuff")
        assert "SSLSSLSS" in row_with(text, "Girdle Ness anklet")
        assert "GGGGGGGGGGSGSGG" in row_with(text, "skerry-bracelet")


async def test_nothing_is_read_for_the_first_frame(pieces) -> None:
    """Not even what reads it is loaded; and what one bench has read is there at once in the next."""
    app = TallycordApp(pieces)
    async with app.run_test(size=(80, 24)) as pilot:
        assert isinstance(app.screen, BenchScreen)
        if not app.screen.sketching.stands:
            assert "sketches" not in vars(pieces)
        await until_bench_drawn(pilot)
        await pilot.press("k")
        await until_seen(pilot, "No cord cards yet")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, BenchScreen) and app.screen.rows.rows)
        assert app.screen.rows.beads_of(next(row for row in app.screen.rows.rows if row.strip))


async def test_no_key_waits_for_it(pieces, skerry, monkeypatch) -> None:
    """However long one takes: keys go on, rows stand with their dots, and the page can be left."""
    hold, asked = Event(), Event()
    folder = pieces.designs_folder.parent

    class Slow:
        def __init__(self) -> None:
            self.own = open_at(folder)

        def plan(self, path: Path):
            asked.set()
            hold.wait(GIVE_UP_SECONDS)
            return self.own.plan(path)

        def open(self, name: str):
            asked.set()
            hold.wait(GIVE_UP_SECONDS)
            return self.own.open(name)

        def close(self) -> None:
            self.own.close()

    monkeypatch.setattr(pieces.sketches, "_reader", Slow)
    app = TallycordApp(pieces)
    async with app.run_test(size=(120, 40)) as pilot:
        await until(pilot, asked.is_set)
        before = app.screen.rows.chosen
        await pilot.press("down")
        await until(pilot, lambda: app.screen.rows.chosen != before)
        assert "••" in row_with(screen_text(app), "Skerry bracelet")
        app.screen.rows.begin_with(ToPiece("skerry-bracelet"))
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, RecapScreen))
        hold.set()
        await pilot.press("escape")
        text = await until_bench_drawn(pilot)
        assert "●" in row_with(text, "Skerry bracelet")


async def test_what_can_not_be_read_keeps_its_row_and_is_not_asked_for_again(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "broken.yaml").write_text("format: 1\nname: [", encoding="utf-8")
    (tmp_path / "hostile.yaml").write_text(HOSTILE, encoding="utf-8")
    read = []
    known = workshop.sketches.read
    monkeypatch.setattr(workshop.sketches, "read", lambda what: (read.append(what), known(what))[1])
    app = TallycordApp(workshop)
    async with app.run_test(size=(120, 40)) as pilot:
        app.screen.rows.begin_with(ToDesign(tmp_path / "hostile.yaml"))
        text = await until_bench_drawn(pilot)
        assert row_with(text, "broken").strip() == "broken" or "●" not in row_with(text, "broken")
        assert "●" in row_with(text, "hostile")
        assert "[@click=app.quit]x[/]" in text
        app.screen.sketching.read_next()
        await until_bench_drawn(pilot)
    assert len(read) == len(set(read))


async def test_an_error_that_nobody_thought_of_leaves_the_row_as_it_is(pieces, monkeypatch) -> None:
    def fails():
        raise RuntimeError("unheard of")

    monkeypatch.setattr(pieces.sketches, "_reader", fails)
    app = TallycordApp(pieces)
    async with app.run_test(size=(120, 40)) as pilot:
        text = await until_bench_drawn(pilot)
        assert "●" not in text
        assert "••" in row_with(text, "Skerry bracelet")


async def test_a_design_that_is_written_anew_is_read_anew(workshop, skerry, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    own = tmp_path / "own.yaml"
    shutil.copy(skerry, own)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_bench_drawn(pilot)
        strip = workshop.sketches.bead_strip(own)
        own.write_text(own.read_text().replace("glass, knot", "silver, knot"), encoding="utf-8")
        await until(pilot, lambda: workshop.sketches.bead_strip(own) not in (None, strip))


def test_nothing_is_known_of_nothing(workshop) -> None:
    assert workshop.sketches.bead_strip(Path("gone.yaml")) is None
    assert Sketched() == Sketched(None, None)
