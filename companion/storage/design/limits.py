"""How large a design file may be."""

MOST_BYTES = 1024 * 1024
