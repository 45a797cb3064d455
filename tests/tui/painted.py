"""The colours that a screen is really painted in, read off the strips that go to the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from rich.color import Color, ColorSystem
from rich.segment import Segment
from textual.app import App

from tests.tui.toolkit import looks

Rgb = tuple[int, int, int]
# Drawn shapes, no letters: the bodies of beads (█ ▌ ░, and ● ○ in a row) and the thumb of a scroll bar (the eighths of
# a block).
SHAPES = frozenset("█▌░●○▁▂▃▄▅▆▇▉▊▋▍▎▏▔")

PIXELS = frozenset("▀▄")  # two pixels of a drawn picture


@dataclass(frozen=True, slots=True)
class Painted:
    """A stretch of one row in two colours."""

    text: str
    ink: Rgb
    ground: Rgb

    @property
    def is_shape(self) -> bool:
        """Whether nothing of it is to be read."""
        return set(self.text) <= SHAPES | {" "}

    @property
    def is_pixels(self) -> bool:
        """Whether it is light and shade of a drawn picture. What a bead's own colour comes to on the page is measured
        in tests/tui/widgets/test_palettes.py; its letter on it is measured here like any other."""
        return set(self.text) <= PIXELS | {" "}

    @property
    def contrast(self) -> float:
        """The contrast ratio of the two colours."""
        return contrast(self.ink, self.ground)


@cache
def luminance(colour: Rgb) -> float:
    """Source: WCAG 2.2, relative luminance, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (channel / 255 for channel in colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@cache
def contrast(one: Rgb, other: Rgb) -> float:
    """From 1 to 21. Source: WCAG 2.2, contrast ratio, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def painted(app: App, palette: tuple[Rgb, ...] | None = None) -> Iterator[Painted]:
    """All that can be seen of the app's screen, as its terminal shows it. `palette`: the sixteen colours of that
    terminal, where it has no more."""
    system = app.console._color_system or ColorSystem.TRUECOLOR
    for strip in looks.strips(app):
        for segment in strip:
            if segment.text.strip():
                yield painted_segment(segment, system, palette)


def painted_segment(segment: Segment, system: ColorSystem, palette: tuple[Rgb, ...] | None = None) -> Painted:
    """The segment as a terminal with that many colours shows it."""
    style = segment.style
    assert style is not None
    assert style.color is not None, f"in the terminal's own colour: {segment}"
    assert style.bgcolor is not None, f"on the terminal's own page: {segment}"
    assert not style.dim, f"dimmed by the terminal, nobody knows how far: {segment}"
    ink, ground = _rgb(style.color, system, palette), _rgb(style.bgcolor, system, palette)
    return Painted(segment.text, *((ground, ink) if style.reverse else (ink, ground)))


@cache
def _rgb(colour: Color, system: ColorSystem, palette: tuple[Rgb, ...] | None) -> Rgb:
    seen = colour.downgrade(system)
    return palette[seen.number] if palette else tuple(seen.get_truecolor())
