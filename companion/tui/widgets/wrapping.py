"""Breaking and padding text by the columns it takes on a screen: some letters take two."""

from __future__ import annotations

from rich.cells import cell_len, chop_cells, set_cell_size


def wrapped(text: str, columns: int) -> list[str]:
    """Lines of at most so many columns, broken between words where that can be; one empty line for no text."""
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        joined = f"{line} {word}" if line else word
        if cell_len(joined) <= columns:
            line = joined
            continue
        if line:
            lines.append(line)
        *whole, line = chop_cells(word, columns) if cell_len(word) > columns else [word]
        lines += whole
    return [*lines, line]


def shortened(text: str, columns: int) -> str:
    """The text, or as much of it as fits with an ellipsis."""
    return text if cell_len(text) <= columns else set_cell_size(text, max(0, columns - 2)).rstrip() + " …"


def padded(text: str, columns: int) -> str:
    """The text in exactly so many columns."""
    return set_cell_size(text, columns)
