"""Breaking and padding text by the columns it takes on a screen: some letters take two."""

from __future__ import annotations

import re
from collections.abc import Sequence

from rich.cells import cell_len, chop_cells, set_cell_size

_UNIT_OR_FRACTION = re.compile(r"(?:in|mm|cm|m|ft|%|\d+/\d+)[.,:;)]*")
_SENTENCE_ENDS = re.compile(r"(?<=\.) (?=[A-Z])")


def _words(text: str) -> list[str]:
    """The words between which a line may break: never between a number and its fraction, its unit, ± or «step»."""
    words: list[str] = []
    for word in text.split(" "):
        before = words[-1] if words else ""
        counted = before in ("±", "step", "steps") and word[:1].isdigit()
        if counted or (before[-1:].isdigit() and _UNIT_OR_FRACTION.fullmatch(word)):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def wrapped(text: str, columns: int) -> list[str]:
    """Lines of at most so many columns, broken between words where that can be; one empty line for no text."""
    lines: list[str] = []
    line = ""
    for word in _words(text):
        joined = f"{line} {word}" if line else word
        if cell_len(joined) <= columns:
            line = joined
            continue
        if line:
            lines.append(line)
        *whole, line = chop_cells(word, columns) if cell_len(word) > columns else [word]
        lines += whole
    return [*lines, line]


def hanging(text: str, columns: int, indent: int) -> list[str]:
    """Lines of at most so many columns, all but the first set in by `indent`."""
    body = text.lstrip(" ")
    lead = len(text) - len(body)
    first = wrapped(body, max(1, columns - lead))[0]
    rest = body[len(first) :].lstrip(" ")
    later = wrapped(rest, max(1, columns - indent)) if rest else []
    return [" " * lead + first, *(" " * indent + line for line in later)]


def fitted(texts: Sequence[str], columns: int, rows: int) -> list[str]:
    """Those texts in at most so many lines. What does not fit is left out by whole sentences, a text's last ones first;
    each text keeps its first."""
    sentences = [_SENTENCE_ENDS.split(text) for text in texts]

    def lines() -> list[str]:
        return [line for parts in sentences for line in wrapped(" ".join(parts), columns)]

    while len(lines()) > rows and any(len(parts) > 1 for parts in sentences):
        max(reversed(sentences), key=len).pop()
    found = lines()
    return found if len(found) <= rows else [*found[: rows - 1], shortened(" ".join(found[rows - 1 :]), columns)]


def shortened(text: str, columns: int) -> str:
    """The text, or as much of it as fits with an ellipsis."""
    return text if cell_len(text) <= columns else set_cell_size(text, max(0, columns - 2)).rstrip() + " …"


def padded(text: str, columns: int) -> str:
    """The text in exactly so many columns."""
    return set_cell_size(text, columns)
