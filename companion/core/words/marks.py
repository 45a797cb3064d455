"""Marks of the screen, as a command prints them."""

from __future__ import annotations

# What no command prints, whoever reads it: a voice says "black up-pointing triangle", or nothing at all.
ALWAYS = (("▲ ", "Warning: "), ("△ ", "Warning: "), ("▲", "Warning:"), ("△", "Warning:"), ("«", '"'), ("»", '"'))


def for_everybody(text: str) -> str:
    """What a command prints: warnings in words, straight quotes."""
    for mark, words in ALWAYS:
        text = text.replace(mark, words)
    return text
