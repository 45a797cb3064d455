"""What stands on the terminal as an SVG: each character in its place, blocks and half blocks as the shapes they are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from rich.cells import cell_len
from rich.color import Color, ColorSystem
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

Rgb = tuple[int, int, int]
WIDE, HIGH, TYPE = 9, 18, 14.95  # of a character, in pixels, and the size of its letters
BASELINE = 14
PAPER, INK = (0, 0, 0), (200, 200, 200)  # of a terminal that is told nothing
# Left, top, right and bottom of each block, in shares of a character.
BLOCKS = {
    "█": (0, 0, 1, 1), "▀": (0, 0, 1, 0.5), "▄": (0, 0.5, 1, 1), "▌": (0, 0, 0.5, 1), "▐": (0.5, 0, 1, 1),
    **{chr(0x2580 + eighths): (0, 1 - eighths / 8, 1, 1) for eighths in range(1, 8)},
    "▔": (0, 0, 1, 0.125),
}  # fmt: skip


def terminal_svg(
    strips: Sequence[Strip], columns: int, system: ColorSystem, sixteen: Sequence[Rgb] | None = None
) -> str:
    """The lines of a screen so many columns wide. `sixteen`: the colours of a terminal that has no more."""
    width, height = columns * WIDE, len(strips) * HIGH
    drawn = "".join(piece for line, strip in enumerate(strips) for piece in _line(line, strip, system, sixteen))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" '
        f'font-family="DejaVu Sans Mono, monospace" font-size="{TYPE}" shape-rendering="crispEdges">'
        f"{_box(0, 0, width, height, PAPER)}{drawn}</svg>\n"
    )


def _line(line: int, strip: Strip, system: ColorSystem, sixteen: Sequence[Rgb] | None) -> Iterator[str]:
    column = 0
    for segment in strip:
        ink, paper = _colours(segment.style or Style(), system, sixteen)
        columns = cell_len(segment.text)
        yield _box(column * WIDE, line * HIGH, columns * WIDE, HIGH, paper)
        yield from _characters(segment, column, line, ink)
        column += columns


def _characters(segment: Segment, column: int, line: int, ink: Rgb) -> Iterator[str]:
    """The characters of a stretch in one colour: blocks as boxes, all others as text, each word in its own column."""
    style, word = segment.style or Style(), ""
    weight = ' font-weight="bold"' if style.bold else ""
    for character in f"{segment.text} ":
        x, y, is_wide = column * WIDE, line * HIGH, cell_len(character) > 1
        if word and (is_wide or character in BLOCKS or character.isspace()):
            begin = x - cell_len(word) * WIDE
            yield f'<text x="{begin}" y="{y + BASELINE}" fill="{_hex(ink)}"{weight}>{escape(word)}</text>'
            word = ""
        if character in BLOCKS:
            left, top, right, bottom = BLOCKS[character]
            yield _box(x + left * WIDE, y + top * HIGH, (right - left) * WIDE, (bottom - top) * HIGH, ink)
        elif is_wide:
            yield f'<text x="{x}" y="{y + BASELINE}" fill="{_hex(ink)}"{weight}>{escape(character)}</text>'
        elif not character.isspace():
            word += character
        column += cell_len(character)
    if style.underline and segment.text:
        end, columns = (column - 1) * WIDE, cell_len(segment.text) * WIDE
        yield _box(end - columns, line * HIGH + BASELINE + 2, columns, 1, ink)


def _colours(style: Style, system: ColorSystem, sixteen: Sequence[Rgb] | None) -> tuple[Rgb, Rgb]:
    """Ink and paper, as a terminal with that many colours shows them."""
    ink, paper = _seen(style.color, INK, system, sixteen), _seen(style.bgcolor, PAPER, system, sixteen)
    return (paper, ink) if style.reverse else (ink, paper)


def _seen(colour: Color | None, usual: Rgb, system: ColorSystem, sixteen: Sequence[Rgb] | None) -> Rgb:
    if colour is None or colour.is_default:
        return usual
    seen = colour.downgrade(system)
    if sixteen is not None and seen.number is not None:
        return sixteen[seen.number]
    return tuple(seen.get_truecolor())


def _box(x: float, y: float, width: float, height: float, colour: Rgb) -> str:
    return f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" fill="{_hex(colour)}"/>'


def _hex(colour: Rgb) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)
