"""Numbers in block digits, to be read from across the table."""

from __future__ import annotations

ROWS = 5
# Each sign's rows of pixels. Where they are odd in number one more is left free below.
_ROWS = {
    "0": ("111", "101", "101", "101", "111"), "1": ("010", "110", "010", "010", "111"),
    "2": ("111", "001", "111", "100", "111"), "3": ("111", "001", "011", "001", "111"),
    "4": ("101", "101", "111", "001", "001"), "5": ("111", "100", "111", "001", "111"),
    "6": ("111", "100", "111", "101", "111"), "7": ("111", "001", "010", "010", "010"),
    "8": ("111", "101", "111", "101", "111"), "9": ("111", "101", "111", "001", "111"),
    "/": ("001", "001", "010", "100", "100"), " ": ("000",) * 5, ".": ("0", "0", "0", "0", "1"),
}  # fmt: skip
_BLOCKS = {("0", "0"): " ", ("1", "0"): "▀", ("0", "1"): "▄", ("1", "1"): "█"}


def block_digits(text: str, times: int = 1) -> tuple[str, ...]:
    """Lines of equal width that show a number such as "46", "3/8" or "19.5": three, five where they are twice as large
    (`times`). Raises KeyError for any other sign."""
    rows = ["0".join(_ROWS[sign][row] for sign in text) for row in range(ROWS)]
    rows = ["".join(pixel * times for pixel in row) for row in rows for _ in range(times)]
    rows += ["0" * len(rows[0])] * (len(rows) % 2)
    return tuple(
        "".join(_BLOCKS[pair] for pair in zip(upper, lower, strict=True))
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    )
