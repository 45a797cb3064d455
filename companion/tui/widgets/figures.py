"""A number in block digits, to be read from across the table, and beside it what it is."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from companion.core.picture.block_digits import block_digits
from companion.tui.widgets.wrapping import wrapped

BESIDE = 3  # columns between the digits and the words
LEAST_WORDS = 30  # columns; where there are fewer the words stand below
LARGE_FROM = Size(160, 50)  # the screen on which digits are twice as large


def times_on(screen: Size) -> int:
    """How many times as large digits are on a screen of that size."""
    return 2 if screen.width >= LARGE_FROM.width and screen.height >= LARGE_FROM.height else 1


class Figure(Struct, frozen=True):
    """One number with its unit, and the lines beside it."""

    number: str
    unit: str
    lines: tuple[str, ...]


class Figures(Widget):
    """Some numbers, one under another."""

    def __init__(self, figures: Sequence[Figure], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.figures = tuple(figures)

    def show(self, figures: Sequence[Figure]) -> None:
        """Show other numbers."""
        self.figures = tuple(figures)
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._lines(max(1, width)))

    def render(self) -> Content:
        return Content("\n").join(self._lines(max(1, self.content_size.width)))

    def _lines(self, columns: int) -> list[Content]:
        """Each number with its words; all words begin in one column."""
        numbers = [_digits(figure, times_on(self.app.size)) for figure in self.figures]
        lead = max((len(number[0]) for number in numbers), default=0) + BESIDE
        lines: list[Content] = []
        for figure, number in zip(self.figures, numbers, strict=True):
            blank = [Content("")] if lines else []
            below = columns - lead < LEAST_WORDS
            lines += [*blank, *(_over(figure, number, columns) if below else _beside(figure, number, lead, columns))]
        return lines


def _digits(figure: Figure, times: int) -> list[str]:
    """The lines of a number, its unit at the foot of the last digit."""
    *above, last = block_digits(figure.number, times)
    unit = f" {figure.unit}"
    return [*(line + " " * len(unit) for line in above), last + unit]


def _over(figure: Figure, number: list[str], columns: int) -> list[Content]:
    words = [line for text in figure.lines for line in wrapped(text, columns)]
    return [*(Content.styled(line, "bold") for line in number), *map(Content, words)]


def _beside(figure: Figure, number: list[str], lead: int, columns: int) -> list[Content]:
    """The words beside the number, both ending on one line where there are few, both beginning on one where many."""
    words = [line for text in figure.lines for line in wrapped(text, columns - lead)]
    words = [""] * (len(number) - len(words)) + words
    digits = number + [""] * (len(words) - len(number))
    return [Content.assemble((line.ljust(lead), "bold"), text) for line, text in zip(digits, words, strict=True)]
