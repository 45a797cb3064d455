"""Breaking and padding text by the columns it takes on a screen: some letters take two."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from rich.cells import cell_len, chop_cells, set_cell_size

from companion.core.words.notices import Level, Notice

_UNIT_OR_FRACTION = re.compile(r"(?:in|mm|cm|m|ft|%|\d+/\d+)[.,:;)]*")
LEFT_WHOLE = 2 / 3  # of the room, at the least, where a text is cut off between words
_LOUDNESS: tuple[Level, ...] = ("quiet", "watch", "off")
_SENTENCE_ENDS = re.compile(r"(?<=\.) (?=[A-Z])")


def _words(text: str) -> list[str]:
    """The words between which a line may break: never between a number and its fraction, its unit, ± or «step»."""
    words: list[str] = []
    for word in text.split(" "):
        before = words[-1] if words else ""
        counted = (before in ("step", "steps") or before[-1:] == "±") and word[:1].isdigit()
        if counted or (before[-1:].isdigit() and (word == "±" or _UNIT_OR_FRACTION.fullmatch(word))):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def _that_fit(words: list[str], columns: int) -> Iterator[str]:
    """The same; a length that is too wide with what it is uncertain by is broken before its ±."""
    for word in words:
        before, found, after = word.partition(" ± ")
        yield from (before, f"± {after}") if found and cell_len(word) > columns else (word,)


def wrapped(text: str, columns: int) -> list[str]:
    """Lines of at most so many columns, broken between words where that can be; one empty line for no text."""
    lines: list[str] = []
    line = ""
    for word in _that_fit(_words(text), columns):
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


def in_lines(text: str, columns: int) -> list[str]:
    """All its lines, each broken where no length is torn apart; what is set in stays so."""
    return [line for part in text.split("\n") for line in hanging(part, columns, _set_in(part))]


def _set_in(text: str) -> int:
    body = text.lstrip(" ")
    return len(text) - len(body)


def fitted(notices: Sequence[Notice], columns: int, rows: int) -> list[tuple[str, Level]]:
    """Those notices in at most so many lines. What does not fit is left out by whole sentences: reasons and figures
    first, those of quiet notices before others; then quiet notices that ask for nothing. Where that is not enough they
    stand in one paragraph, and without their headlines. What is to be done stays. Each line with the level of what it
    says: of one paragraph, that of the one that matters most."""
    parts = [_Parts(notice) for notice in notices]
    found = _lines(parts, columns)
    for together in _shortenings(parts):
        if len(found) <= rows:
            return found
        found = _in_one(parts, columns) if together else _lines(parts, columns)
    if len(found) <= rows:
        return found
    left_over = " ".join(text for text, _ in found[rows - 1 :])
    return [*found[: rows - 1], (shortened(left_over, columns), found[rows - 1][1])]


class _Parts:
    """What is left of a notice."""

    def __init__(self, notice: Notice) -> None:
        self.level, self.quiet, self.mark = notice.level, notice.level == "quiet", notice.mark
        self.head, self.action = notice.headline, notice.action
        self.details = _SENTENCE_ENDS.split(notice.detail) if notice.detail else []

    def __str__(self) -> str:
        said = " ".join(filter(None, (self.head, *self.details, self.action)))
        return f"{self.mark} {said}" if said and self.mark else said


def _lines(parts: Sequence[_Parts], columns: int) -> list[tuple[str, Level]]:
    return [(line, part.level) for part in parts if str(part) for line in wrapped(str(part), columns)]


def _in_one(parts: Sequence[_Parts], columns: int) -> list[tuple[str, Level]]:
    level = max((part.level for part in parts), key=_LOUDNESS.index)
    return [(line, level) for line in wrapped(" ".join(filter(None, map(str, parts))), columns)]


def _shortenings(parts: Sequence[_Parts]) -> Iterator[bool]:
    """Shorten them by one thing after the other; whether they stand in one paragraph by then."""
    for quiet in (True, False):
        for part in (part for part in reversed(parts) if part.quiet == quiet):
            while part.details:
                part.details.pop()
                yield False
    for part in (part for part in reversed(parts[1:]) if part.quiet and not part.action):
        part.head = ""
        yield False
    yield True
    for part in sorted((part for part in reversed(parts) if part.action), key=lambda part: not part.quiet):
        part.head = ""
        yield True
    for part in (part for part in parts[:1] if part.quiet and not part.action):
        part.head = ""
        yield True


def shortened(text: str, columns: int) -> str:
    """The text, or as many of its words as fit with an ellipsis; a long word is cut where too little would be left."""
    if cell_len(text) <= columns:
        return text
    room = max(0, columns - 2)
    whole, *_ = hanging(text, max(1, room), 0)
    if room * LEFT_WHOLE <= cell_len(whole) <= room:
        return f"{whole} …"
    return set_cell_size(text, room).rstrip() + " …"


def padded(text: str, columns: int) -> str:
    """The text in exactly so many columns."""
    return set_cell_size(text, columns)
