"""The names of the sets of colours, and what a setting may call them."""

from __future__ import annotations

import re

# Plain words without spaces or commas: the toolkit reads a comma as "the first of these that there is".
COLOUR_SETS = ("lamp", "day", "lamp-contrast", "day-contrast")
_OTHER_WORDS = {"dark": "lamp", "night": "lamp", "light": "day"}


def colour_set(words: str) -> str | None:
    """The set that words such as "day", "Dark" or "night, high contrast" name; None where they name none."""
    said = {_OTHER_WORDS.get(word, word) for word in re.findall(r"[a-z]+", words.lower()[:100])} - {"high"}
    return next((name for name in COLOUR_SETS if set(name.split("-")) == said), None)
