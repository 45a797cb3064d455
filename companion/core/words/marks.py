"""Marks of the screen, as a command prints them."""

from __future__ import annotations

# What no command prints, whoever reads it: a voice says "black up-pointing triangle", or nothing at all.
ALWAYS = (("▲ ", "Warning: "), ("△ ", "Warning: "), ("▲", "Warning:"), ("△", "Warning:"), ("«", '"'), ("»", '"'))

# The warnings of the bench that a piece itself shows with an open triangle: to be watched, not to be seen to now. Of a
# length "watch" is no warning any more, and still stands in what was stored before.
_LENGTH, _CORD = ("", "watch", "measure again"), ("", "cord tight", "cord short to hold")
TO_WATCH = {", ".join(filter(None, (length, cord))) for length in _LENGTH for cord in _CORD} - {""}


def warned(warning: str) -> str:
    """A piece's warning on the bench with the mark that the piece itself shows; "" for none."""
    return f"{'△' if warning in TO_WATCH else '▲'} {warning}" if warning else ""


def for_everybody(text: str) -> str:
    """What a command prints: warnings in words, straight quotes."""
    for mark, words in ALWAYS:
        text = text.replace(mark, words)
    return text
