"""Numbers in digits three lines tall, to be read from across the table."""

from __future__ import annotations

LINES = 3
# Each digit's five rows of pixels, three across; the sixth row is left free.
_ROWS = {
    "0": ("111", "101", "101", "101", "111"), "1": ("010", "110", "010", "010", "111"),
    "2": ("111", "001", "111", "100", "111"), "3": ("111", "001", "011", "001", "111"),
    "4": ("101", "101", "111", "001", "001"), "5": ("111", "100", "111", "001", "111"),
    "6": ("111", "100", "111", "101", "111"), "7": ("111", "001", "010", "010", "010"),
    "8": ("111", "101", "111", "101", "111"), "9": ("111", "101", "111", "001", "111"),
    "/": ("001", "001", "010", "100", "100"), " ": ("000",) * 5,
}  # fmt: skip
_BLOCKS = {("0", "0"): " ", ("1", "0"): "▀", ("0", "1"): "▄", ("1", "1"): "█"}


def block_digits(text: str) -> tuple[str, str, str]:
    """Three lines of equal width that show a number such as "46" or "3/8". Raises KeyError for any other sign."""
    rows = ["0".join(_ROWS[sign][row] for sign in text) for row in range(5)]
    rows.append("0" * len(rows[0]))
    first, second, third = (
        "".join(_BLOCKS[pair] for pair in zip(rows[line], rows[line + 1], strict=True)) for line in (0, 2, 4)
    )
    return first, second, third
