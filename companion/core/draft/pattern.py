"""A pattern as it is typed: letters for beads, a space for a knot, and marks of our own around them.

P P P S      beads, a single knot (a space, or -) after each but the last
P=P#P        a double knot (=) and a triple one (#)
{10 mm}      bare cord
[P S ]       what stands in the brackets, as often as fits
[P S ]x3     three times
<P S |M>     a side, the middle, and the side again the other way round
{30 P, knot every 4}   a run of one bead with a knot after every fourth; {fit P, knot every 4}: as many as fit
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from companion.core.values.design import Bead, BeadRun, Item, Knot, KnotKind, Mirror, Repeat, Space

KNOTS: dict[str, KnotKind] = {" ": "single", "-": "single", "·": "single", "=": "double", "#": "triple"}
SIGNS: dict[KnotKind, str] = {"single": " ", "double": "=", "triple": "#"}
GROUPS = "[]<>|{}"
_RUN = re.compile(r"(fit|[0-9]{1,6}) *([A-Za-z0-9])(?:, *knot every *([0-9]{1,6}))?")
_TIMES = re.compile(r"x *([0-9]{1,6})")
MOST_LEVELS = 12


class PatternError(ValueError):
    """What is typed is no pattern: why, and from which character on (from 0)."""

    def __init__(self, place: int, words: str) -> None:
        super().__init__(words)
        self.place = place


class BareCord(Struct, frozen=True):
    """Bare cord, its length as typed."""

    typed: str


class Repeated(Struct, frozen=True):
    """What comes several times; `count` None: as often as fits."""

    count: int | None
    of: tuple[Typed, ...]


class Mirrored(Struct, frozen=True):
    """A side, the middle, and the side again the other way round."""

    side: tuple[Typed, ...]
    middle: tuple[Typed, ...] = ()


Typed = Bead | Knot | BareCord | BeadRun | Repeated | Mirrored


def has_groups(text: str) -> bool:
    """Whether a pattern has marks of its own for repeats, middles and the like."""
    return any(sign in text for sign in GROUPS)


def read_pattern(text: str, letters: Sequence[str]) -> tuple[Typed, ...]:
    """The items of a pattern; beads are keyed by their letters, small or capital. Raises PatternError."""
    reader = _Reader(text, letters)
    items = reader.items("", 0)
    if not items:
        raise PatternError(0, "Type a pattern: a letter for each bead, a space for a knot.")
    return items


class _Reader:
    """Reads from left to right; `at` is the next character."""

    def __init__(self, text: str, letters: Sequence[str]) -> None:
        self.text, self.at = text, 0
        self.letters = {letter.upper(): letter for letter in letters}

    def items(self, until: str, level: int) -> tuple[Typed, ...]:
        """Everything before the first of these signs, or everything there is."""
        if level > MOST_LEVELS:
            raise PatternError(self.at, f"At most {MOST_LEVELS} brackets one in another.")
        found: list[Typed] = []
        while self.at < len(self.text) and self.text[self.at] not in until:
            found.append(self.item(level))
        return tuple(found)

    def item(self, level: int) -> Typed:
        """One item."""
        sign = self.text[self.at]
        if sign in KNOTS:
            self.at += 1
            return Knot(KNOTS[sign])
        if sign == "[":
            return self.repeat(level)
        if sign == "<":
            return self.mirror(level)
        if sign == "{":
            return self.braces()
        if sign.upper() not in self.letters:
            raise PatternError(self.at, self._unknown(sign))
        self.at += 1
        return Bead(self.letters[sign.upper()])

    def repeat(self, level: int) -> Repeated:
        """[…], with x and a number behind it or not."""
        begun = self.at
        of = self.group("[", "]", level)
        match = _TIMES.match(self.text, self.at)
        if match:
            self.at = match.end()
            if int(match[1]) < 1:
                raise PatternError(begun, "A repeat comes once or more.")
        if not of:
            raise PatternError(begun, "Type something between the brackets.")
        return Repeated(int(match[1]) if match else None, of)

    def mirror(self, level: int) -> Mirrored:
        """<side|middle>, or <side>."""
        begun = self.at
        self.at += 1
        side = self.items("|>", level + 1)
        middle: tuple[Typed, ...] = ()
        if self.text[self.at : self.at + 1] == "|":
            self.at += 1
            middle = self.items(">", level + 1)
        if self.text[self.at : self.at + 1] != ">":
            raise PatternError(begun, "Close the < with a >.")
        self.at += 1
        if not side:
            raise PatternError(begun, "Type a side between < and |.")
        return Mirrored(side, middle)

    def group(self, opens: str, closes: str, level: int) -> tuple[Typed, ...]:
        """What stands between two brackets; both are taken."""
        begun = self.at
        self.at += len(opens)
        found = self.items(closes, level + 1)
        if self.text[self.at : self.at + 1] != closes:
            raise PatternError(begun, f"Close the {opens} with a {closes}.")
        self.at += 1
        return found

    def braces(self) -> Typed:
        """{10 mm} or {30 P, knot every 4}."""
        begun, end = self.at, self.text.find("}", self.at)
        if end < 0:
            raise PatternError(begun, "Close the { with a }.")
        inside = self.text[begun + 1 : end].strip()
        self.at = end + 1
        match = _RUN.fullmatch(inside)
        if not match:
            return BareCord(inside)
        if match[2].upper() not in self.letters:
            raise PatternError(begun, self._unknown(match[2]))
        count = None if match[1] == "fit" else int(match[1])
        return BeadRun(self.letters[match[2].upper()], count, int(match[3]) if match[3] else None)

    def _unknown(self, sign: str) -> str:
        if not self.letters:
            return "Describe a bead first: its letter then stands for it here."
        return f"No bead has the letter {sign!r}. There is {', '.join(self.letters.values())}."


def pattern_text(items: Sequence[Item], letters: dict[str, str]) -> str:
    """A design's items as they would be typed; `letters`: the letter of each bead's key."""
    return "".join(_text(item, letters) for item in items)


def typed_text(items: Sequence[Typed]) -> str:
    """Items of a pattern as they would be typed: their keys are letters already."""
    return "".join(_typed_text(item) for item in items)


def _typed_text(item: Typed) -> str:
    match item:
        case Bead(key=letter):
            return letter
        case BareCord(typed=typed):
            return f"{{{typed}}}"
        case BeadRun(key=letter):
            return _text(item, {letter: letter})
        case Knot():
            return _text(item, {})
        case Repeated(count=count, of=of):
            return f"[{typed_text(of)}]{'' if count is None else f'x{count}'}"
        case Mirrored(side=side, middle=middle):
            return f"<{typed_text(side)}{f'|{typed_text(middle)}' if middle else ''}>"


def _text(item: Item, letters: dict[str, str]) -> str:
    match item:
        case Bead(key=key):
            return letters[key]
        case Knot(kind=kind):
            return SIGNS[kind]
        case Space(length_mm=length_mm):
            return f"{{{length_mm:g} mm}}"
        case BeadRun(key=key, count=count, knot_every=every):
            knots = f", knot every {every}" if every else ""
            return f"{{{'fit' if count is None else count} {letters[key]}{knots}}}"
        case Repeat(count=count, of=of):
            return f"[{pattern_text(of, letters)}]{'' if count is None else f'x{count}'}"
        case Mirror(side=side, middle=middle):
            centre = f"|{pattern_text(middle, letters)}" if middle else ""
            return f"<{pattern_text(side, letters)}{centre}>"
