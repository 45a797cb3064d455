"""What is wrong with a name that a maker gives a piece."""

from __future__ import annotations

from companion.core.journal.names import MOST_NAME, PATH_MARKS, alike
from companion.core.values.measures.lengths import LengthError, read_length_mm
from companion.core.values.text import plain


def name_fault(name: str) -> str:
    """Why the maker cannot give a piece this name, as a sentence; "" if she can."""
    if not alike(name):
        return "A name needs a letter or a digit."
    if plain(name, MOST_NAME) != name:
        return f"A name is one line of at most {MOST_NAME} letters."
    if any(mark in name for mark in PATH_MARKS):
        return "A name has no slash in it: it would look like a file."
    if name.startswith("-"):
        return "A name begins with a letter or a digit: a dash at its beginning would be read as an option."
    try:
        read_length_mm(name, "mm")
    except LengthError:
        return ""
    return f"{name} would be read as a length. Add a word to it."
