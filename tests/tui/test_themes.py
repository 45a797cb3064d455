"""The colours that are really painted: every screen, every set of colours, every level, on every kind of terminal.

Source of what is asked for: WCAG 2.2: 4.5 to 1 for text (1.4.3), 7 to 1 in high contrast (1.4.6), 3 to 1 for shapes
(1.4.11).
"""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.color import Color as RichColor
from rich.color import ColorSystem
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import Monochrome
from textual.pilot import Pilot
from textual.screen import Screen

from companion.core.values.colour_sets import COLOUR_SETS
from companion.core.words.notices import Notice
from companion.tui.app import TallycordApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.contrast import LETTERS, SIXTEEN, Terminal
from companion.tui.cords.screen import CordsScreen
from companion.tui.follow.recap import RecapScreen
from companion.tui.follow.screen import FollowScreen
from companion.tui.knots.drawing import KnotDrawing
from companion.tui.routes import ToDesign, ToPiece
from companion.tui.start.screen import StartScreen
from companion.tui.themes import draws, ground_in, terminal_of, themes_on
from companion.tui.widgets.bead_style import bead_style
from companion.tui.widgets.piece_drawing import PieceDrawing
from companion.tui.widgets.text import TextLine
from companion.workshop import Workshop
from tests.examples import LONG
from tests.tui.painted import Painted, Rgb, contrast, painted, painted_segment
from tests.tui.screens import screen_text, until

TERMINALS = {
    "millions": {"COLORTERM": "truecolor"},
    "256": {"TERM": "xterm-256color"},
    "16": {"TERM": "xterm"},
    "no-colour": {"COLORTERM": "truecolor", "NO_COLOR": "1"},
}
BEADS = ("white", "pearl", "yellow", "lemon", "red", "teal", "navy", "black", "driftwoodish", "#777777")
TRAY = f"""
format: 1
name: The whole tray
size: {{length: 18 in, tolerance: 12 in}}
cord: {{name: silk, diameter: 0.45 mm, layers: 2}}
beads:
{"".join(f'  "bead {n}": {{length: 8 mm, colour: "{colour}"}}{chr(10)}' for n, colour in enumerate(BEADS))}
strand:
  layout: [{", ".join(f"bead {n}, bead {n}, knot" for n in range(len(BEADS)))}]
"""


def least(name: str) -> float:
    """What is asked of letters in that set."""
    return 7.0 if name.endswith("contrast") else 4.5


@pytest.fixture
def terminal(request, monkeypatch) -> str:
    """A terminal of that kind."""
    monkeypatch.delenv("COLORTERM")
    for setting, value in TERMINALS[request.param].items():
        monkeypatch.setenv(setting, value)
    return request.param


# -- the measure itself -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # the largest there is, in the definition of the contrast ratio itself
        ("#ffffff", "#ffffff", 1.0),  # the smallest
        ("#777777", "#ffffff", 4.48),  # published beside WCAG as the grey that just falls short of 4.5
        ("#767676", "#ffffff", 4.54),  # and the one that just meets it
        ("#595959", "#ffffff", 7.0),  # the grey that just meets 7
    ],
)
def test_the_ratio_is_the_published_one(one, other, ratio) -> None:
    rgb = Color.parse(one).rgb, Color.parse(other).rgb
    assert contrast(*rgb) == contrast(*reversed(rgb)) == pytest.approx(ratio, abs=0.005)


# -- the four sets ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("setting", "page"),
    [
        ("night, high contrast", "#000000"),
        ("day, high contrast", "#ffffff"),
        ("lamp-contrast", "#000000"),
        ("day-contrast", "#ffffff"),
        ("day", "#fbfaf6"),
        ("", "#14181b"),
        ("no such colours", "#14181b"),
    ],
)
async def test_the_setting_is_the_set_that_is_painted(workshop, skerry, monkeypatch, setting, page) -> None:
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TALLYCORD_COLOURS", setting)
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: app.screen.query(TextLine))
        assert next(painted(app)).ground == Color.parse(page).rgb


@pytest.mark.parametrize("name", COLOUR_SETS)
async def test_each_set_has_a_name_of_its_own_in_the_toolkit(app, name) -> None:
    """A name becomes a class of the stylesheet, and one with a comma is read as a list of names."""
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", name)
    async with app.run_test(size=(80, 24)):
        app.theme = name
        assert app.current_theme.name == name
        assert {one for one in app.classes if one.startswith("-theme-")} == {f"-theme-{name}"}


def test_the_sets_are_those_that_are_named() -> None:
    assert tuple(theme.name for theme in themes_on(Terminal())) == COLOUR_SETS


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_without_colour_no_warning_is_fainter_than_the_text(name) -> None:
    theme = next(theme for theme in themes_on(Terminal(grey=True)) if theme.name == name)
    assert theme.foreground == theme.success == theme.warning == theme.error


# -- every screen -----------------------------------------------------------------------------------------------------


def pieces(workshop: Workshop, skerry: Path, tray: Path) -> None:
    """A piece that is on plan, one that is off, one whose cord runs out, and one of beads in every kind of colour."""
    for strand_off_mm, free_off_mm in ((0, 0), (-8, 0), (0, -100)):
        opened = workshop.jump(workshop.start(skerry), 15)
        step = opened.plan.strands[0].steps[14]
        opened = workshop.measure(opened, "strand", step.strand_mm + strand_off_mm, "ruler")
        workshop.measure(opened, "free", step.free_cord_mm + free_off_mm, "ruler")
    opened = workshop.start(tray)
    workshop.jump(opened, opened.plan.total_steps // 2)
    workshop.let_go()


async def follow(pilot: Pilot, name: str) -> FollowScreen:
    """Follow that piece, by its recap."""
    app = pilot.app
    await until(pilot, lambda: not app.screen.is_modal)
    app.go(ToPiece(name))
    await until(pilot, lambda: isinstance(app.screen, RecapScreen) and app.screen.session.opened.name == name)
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(app.screen, FollowScreen) and app.screen.outlook is not None)
    return app.screen


async def scenes(pilot: Pilot, skerry: Path) -> AsyncIterator[str]:
    """One screen after the other; the name of each, when it stands."""
    app = pilot.app
    await until(pilot, lambda: isinstance(app.screen, BenchScreen))
    await pilot.pause()
    yield "bench"
    await pilot.press("k")
    await until(pilot, lambda: isinstance(app.screen, CordsScreen))
    yield "cords"
    await pilot.press("plus")
    await dialog(pilot)
    yield "a form"
    await pilot.press("escape")
    await until(pilot, lambda: isinstance(app.screen, CordsScreen))
    app.go(ToDesign(skerry, new=True))
    await until(pilot, lambda: isinstance(app.screen, StartScreen))
    yield "start"
    app.go(ToPiece("skerry-bracelet"))
    await until(pilot, lambda: isinstance(app.screen, RecapScreen))
    yield "recap"
    screen = await follow(pilot, "skerry-bracelet")
    yield "follow"
    for level in ("quiet", "watch", "off"):
        screen.query_one("#verdict", TextLine).say([Notice(level, "Three knots and a bead.")])
        yield f"follow, {level}"
    keys = (
        ("m", "measure"),
        ("v", "readings"),
        ("k", "how it is tied"),
        ("question_mark", "help"),
        ("colon", "palette"),
    )
    for key, words in keys:
        await pilot.press(key)
        await dialog(pilot)
        yield words
        if key == "m":
            await pilot.press("7")
            await pilot.pause()
            yield "measure, typed"
        await pilot.press("escape")
    await follow(pilot, "skerry-bracelet-2")
    yield "follow, too short"
    await pilot.press("w")
    await dialog(pilot)
    yield "what to do"
    await pilot.press("escape")
    await follow(pilot, "skerry-bracelet-3")
    yield "follow, cord runs out"
    await follow(pilot, "the-whole-tray")
    yield "follow, all kinds of beads"


async def dialog(pilot: Pilot) -> None:
    """Wait until something lies over the work and has been laid out."""
    await until(pilot, lambda: pilot.app.screen.is_modal and pilot.app.screen.query("KeyLine"))
    await pilot.pause()


def is_drawn_on(screen: Screen) -> bool:
    """Whether a piece or a knot is drawn there in pixels."""
    return screen.has_class("-drawn") or bool(screen.query(PieceDrawing)) or bool(screen.query(KnotDrawing))


def faults(app: TallycordApp, name: str) -> list[str]:
    """What is too faint, in words."""
    found = []
    drawn = draws(terminal_of(app)) and any(is_drawn_on(screen) for screen in app.screen_stack)
    for palette in SIXTEEN if app.console.color_system == "standard" else (None,):
        for one in painted(app, palette):
            if one.is_pixels and drawn:
                continue
            asked = 3.0 if one.is_shape else least(name)
            if one.contrast < asked:
                found.append(f"{one.contrast:.2f} for {one.text.strip()!r}, {one.ink} on {one.ground}")
            if app.no_color and palette is None and len({*one.ink}) + len({*one.ground}) > 2:
                found.append(f"coloured: {one}")
    return sorted(set(found))


def sets_for(scene: int, terminal: str) -> tuple[str, ...]:
    """The sets of colours that a scene is painted in on that terminal: one, by turns, so that each scene is seen on all
    four terminals and in all four sets, and each set on each terminal; all four everywhere in the long run."""
    turn = (scene + [*TERMINALS].index(terminal)) % len(COLOUR_SETS)
    return COLOUR_SETS if LONG else COLOUR_SETS[turn : turn + 1]


def test_each_scene_is_seen_in_each_set() -> None:
    for scene in range(4):
        assert {name for terminal in TERMINALS for name in sets_for(scene, terminal)} == {*COLOUR_SETS}
    for terminal in TERMINALS:
        assert {name for scene in range(4) for name in sets_for(scene, terminal)} == {*COLOUR_SETS}


# The terminal that draws in pixels is a large one; in the long run a small one too.
SEEN_ON = [*((name, (80, 24)) for name in TERMINALS if LONG or name != "millions"), ("millions", (120, 40))]


@pytest.mark.parametrize(("terminal", "size"), SEEN_ON, indirect=["terminal"])
async def test_all_that_is_painted_can_be_read(workshop, skerry, tmp_path, monkeypatch, terminal, size) -> None:
    monkeypatch.chdir(tmp_path)
    tray = tmp_path / "the-whole-tray.yaml"
    tray.write_text(TRAY, encoding="utf-8")
    pieces(workshop, skerry, tray)
    app, wrong, seen = TallycordApp(workshop), {}, []
    async with app.run_test(size=size) as pilot:
        async for scene in scenes(pilot, skerry):
            seen.append(scene)
            for name in sets_for(len(seen), terminal):
                app.theme = name
                page = Color.parse(app.current_theme.background)
                await until(pilot, lambda page=page: app.screen_stack[0].styles.background == page)
                await pilot.pause()
                if found := faults(app, name):
                    wrong[scene, name] = found
    assert len(seen) == 19
    assert wrong == {}


@pytest.mark.parametrize("terminal", TERMINALS, indirect=True)
async def test_the_whole_piece_can_be_read(workshop, tmp_path, terminal) -> None:
    """Its letters, the length inside it, the large figures and the marks of the beads: before the first knot, and after
    the last."""
    tray = tmp_path / "the-whole-tray.yaml"
    ends = "{closure: bead tip and clasp}"
    tray.write_text(f"{TRAY}  start: {ends}\n  end: {ends}\n", encoding="utf-8")
    opened = workshop.start(tray)
    name = workshop.finish(workshop.jump(opened, opened.plan.total_steps), opened.plan.finished_length_mm).name
    workshop.let_go()
    app, wrong = TallycordApp(workshop, design=tray, new=True), {}
    async with app.run_test(size=(200, 60)) as pilot:
        for scene, page in enumerate(("start", "result")):
            if page == "result":
                app.go(ToPiece(name))
            await until(pilot, lambda page=page: type(app.screen).__name__ == f"{page.capitalize()}Screen")
            await until(pilot, lambda: app.screen.query(PieceDrawing))
            for colours in sets_for(scene, terminal):
                app.theme = colours
                await until(pilot, lambda: all(piece.is_drawn for piece in app.screen.query(PieceDrawing)))
                await pilot.pause()
                lettered = bool(re.search("▀[A-Z0-9]▀", screen_text(app)))
                assert lettered == (page == "start" and draws(terminal_of(app)))
                if found := faults(app, colours):
                    wrong[page, colours] = found
    assert wrong == {}


@pytest.mark.parametrize("terminal", ["millions"], indirect=True)
async def test_a_scroll_bar_is_seen(terminal, workshop, skerry) -> None:
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(60, 18)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, StartScreen))
        await pilot.press("question_mark")
        await dialog(pilot)
        for name in COLOUR_SETS:
            app.theme = name
            await pilot.pause()
            styles = app.screen.query_one("#page").styles
            track = styles.scrollbar_background
            for thumb in (styles.scrollbar_color, styles.scrollbar_color_hover, styles.scrollbar_color_active):
                assert contrast(thumb.rgb, track.rgb) >= 3.0


# -- any bead ---------------------------------------------------------------------------------------------------------

CHANNELS = st.tuples(*[st.integers(0, 255)] * 3)
KINDS = st.builds(
    Terminal, st.sampled_from((ColorSystem.TRUECOLOR, ColorSystem.EIGHT_BIT, ColorSystem.STANDARD)), st.booleans()
)


def seen_bead(colour: Rgb, char: str, made: bool, name: str, terminal: Terminal) -> list[Painted]:
    """One character of a bead on the page of that set, in each palette that the terminal may have."""
    ground = ground_in(name, terminal)
    page = Style(bgcolor=RichColor.from_rgb(*ground.page))
    segments = [Segment(char, page + bead_style(colour, char, made, ground))]
    if terminal.grey:
        segments = Monochrome().apply(segments, Color(*ground.page))
    palettes = SIXTEEN if terminal.colours is ColorSystem.STANDARD else (None,)
    return [painted_segment(segments[0], terminal.colours, palette) for palette in palettes]


@given(CHANNELS, st.sampled_from(COLOUR_SETS), KINDS)
def test_a_bead_of_any_colour_can_be_read(colour, name, terminal) -> None:
    """Its letter where it is made, present and to come; and its body where it is made is seen on the page."""
    letters = seen_bead(colour, "G", True, name, terminal) + seen_bead(colour, "g", False, name, terminal)
    assert min(one.contrast for one in letters) >= least(name)
    assert min(one.contrast for one in seen_bead(colour, "█", True, name, terminal)) >= 3.0


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_a_bead_that_is_seen_keeps_its_own_colour(name) -> None:
    """Only what would be lost is made lighter or darker: #777777 with its 4.5 to 1 is a body on any page."""
    grey = (0x77, 0x77, 0x77)
    if least(name) == LETTERS:
        assert ground_in(name, Terminal()).body(grey) == grey
    lightness = sum(ground_in(name, Terminal()).letter(grey))
    assert lightness >= sum(grey) if name.startswith("lamp") else lightness <= sum(grey)


def test_a_bead_without_a_known_colour_is_drawn_in_the_texts() -> None:
    ground = ground_in("lamp", Terminal())
    assert bead_style(None, "G", True, ground).reverse  # ink and paper change places, as where a colour is known
    assert not bead_style(None, "█", True, ground).reverse
    assert bead_style(None, "g", False, ground).color is None
