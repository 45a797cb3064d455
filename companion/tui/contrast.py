"""What the terminal makes of a colour, and how a colour is made to be seen on it."""

from __future__ import annotations

from msgspec import Struct
from rich.color import Color as TerminalColour
from rich.color import ColorSystem
from textual.color import Color

from companion.core.picture.colours import BLACK, WHITE, Colour, contrast_ratio, readable_on

# Source: WCAG 2.2: 1.4.3 contrast (minimum), 1.4.6 contrast (enhanced), 1.4.11 non-text contrast.
LETTERS, LETTERS_HIGH, SHAPES = 4.5, 7.0, 3.0


# A terminal of sixteen colours has them as its owner likes. Two that are common: xterm's own (its XTerm-col.ad), and
# those of the VGA text mode, which the Linux console has.
_XTERM = """000000 cd0000 00cd00 cdcd00 0000ee cd00cd 00cdcd e5e5e5
            7f7f7f ff0000 00ff00 ffff00 5c5cff ff00ff 00ffff ffffff"""
_VGA = """000000 aa0000 00aa00 aa5500 0000aa aa00aa 00aaaa aaaaaa
          555555 ff5555 55ff55 ffff55 5555ff ff55ff 55ffff ffffff"""
SIXTEEN: tuple[tuple[Colour, ...], ...] = tuple(
    tuple(Color.parse(f"#{code}").rgb for code in codes.split()) for codes in (_XTERM, _VGA)
)


class Terminal(Struct, frozen=True):
    """How many colours there are. `grey`: only greys are wanted (NO_COLOR)."""

    colours: ColorSystem = ColorSystem.TRUECOLOR
    grey: bool = False

    def shown(self, colour: Colour) -> tuple[Colour, ...]:
        """The colour as it comes out: one, or one for each palette that a terminal of sixteen colours may have."""
        seen = Color(*colour).monochrome.rgb if self.grey else colour
        if self.colours is ColorSystem.TRUECOLOR:
            return (seen,)
        nearest = TerminalColour.from_rgb(*seen).downgrade(self.colours)
        if self.colours is ColorSystem.EIGHT_BIT:
            return (Color.from_rich_color(nearest).rgb,)
        return tuple(palette[nearest.number or 0] for palette in SIXTEEN)

    def contrast(self, one: Colour, other: Colour) -> float:
        """The contrast ratio of two colours as they come out; the lowest that is to be feared."""
        return min(contrast_ratio(*pair) for pair in zip(self.shown(one), self.shown(other), strict=True))


class Ground(Struct, frozen=True):
    """What a bead is drawn on. `letters`: the least contrast of what is to be read."""

    page: Colour
    letters: float
    terminal: Terminal

    def letter(self, colour: Colour) -> Colour:
        """The colour of a letter in the bead's colour."""
        return readable_on(self.page, colour, self.letters, self.terminal.contrast)

    def shape(self, colour: Colour) -> Colour:
        """The colour of what is to be seen on the page, and has no letter on it."""
        return readable_on(self.page, colour, SHAPES, self.terminal.contrast)

    def body(self, colour: Colour) -> Colour:
        """The colour of the bead's body: to be seen on the page, and its letter to be read on it."""
        body = self.shape(colour)
        return body if self.terminal.contrast(self.ink(body), body) >= self.letters else self.letter(colour)

    def ink(self, body: Colour) -> Colour:
        """The colour of a letter on a body: black or white."""
        return max((BLACK, WHITE), key=lambda ink: self.terminal.contrast(ink, body))
