"""Text from outside made fit for one line of a screen, and the rules of grammar that sentences are built by."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

# What no text kept here may hold: control characters but tab and line ends, line and paragraph separators, what
# reorders text, what is no character.
FORBIDDEN = (  # a pattern, made up by `re` when it is first asked for
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]"
)
# Drawn as nothing though Unicode counts them as letters or marks: Hangul fillers, the combining grapheme joiner, silent
# Khmer vowels, variation selectors (Unicode 15, DerivedCoreProperties: Default_Ignorable_Code_Point).
_INVISIBLE = frozenset(
    map(chr, (0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x180B, 0x180C, 0x180D, 0x180F, 0x3164, 0xFFA0))
) | frozenset(map(chr, (*range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0))))
_MOST_MARKS = 2  # accents piled on one letter; more would climb over the lines above
_LONGEST_WORD = 60  # a longer word is no slip of the pen, and comparing it would take its time
LEAST_PERCENT = 0.0095  # what rounds to 1 %
_COUNT_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def plain(text: str, limit: int = 200) -> str:
    """One line at most `limit` screen columns wide. Odd spaces become plain ones; control, bidirectional, joining,
    invisible, private and unassigned characters are left out; at most two accents stay on a letter."""
    if text.isascii() and text.isprintable():
        return text.lstrip()[:limit].rstrip()
    kept: list[str] = []
    columns = marks = 0
    for character in text:
        category = unicodedata.category(character)
        if character.isspace():
            character, category = " ", "Zs"
        elif category[0] == "C" or character in _INVISIBLE:
            continue
        marks = marks + 1 if category[0] == "M" else 0
        # Nothing kept yet: a space is not needed, and an accent would land on whatever stands before this text.
        if marks > _MOST_MARKS or (not kept and (marks or character == " ")):
            continue
        columns += _columns(character, category)
        if columns > limit:
            break
        kept.append(character)
    return "".join(kept).rstrip()


def _columns(character: str, category: str) -> int:
    """Columns that a character takes on a terminal. Source: Unicode Standard Annex 11, East Asian Width."""
    if category in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


# -- the grammar of a sentence ----------------------------------------------------------------------------------------


def capitalised(text: str) -> str:
    """The text as it begins a sentence: its first letter large, the others as they are."""
    return text[:1].upper() + text[1:]


def uncapitalised(text: str) -> str:
    """The text as it stands within a sentence: its first letter small, the others as they are."""
    return text[:1].lower() + text[1:]


def closed(text: str) -> str:
    """The text with a full stop at its end; one that has it already stays as it is."""
    return text if text.endswith(".") else f"{text}."


def sentences(*texts: str) -> str:
    """Whole sentences in a row; empty ones are left out."""
    return " ".join(filter(None, texts))


def count_word(count: int) -> str:
    """The count as a sentence says it: "one" to "twelve" in words, any other in digits."""
    return _COUNT_WORDS[count - 1] if 1 <= count <= len(_COUNT_WORDS) else str(count)


def plural(name: str, count: int) -> str:
    """A bead's name for so many of them: "Grey pearls", "Silver daisies"; names that end in s stay as they are."""
    if count == 1 or not name or name[-1] in "sxz" or not name[-1].isalpha():
        return name
    if name[-1] == "y" and name[-2:-1] not in "aeiou":
        return f"{name[:-1]}ies"
    return f"{name}es" if name.endswith(("ch", "sh")) else f"{name}s"


def count_of(count: int, noun: str, one: str = "1") -> str:
    """So many of a thing: "1 knot", "3 knots", "3 Silver daisies"; `one`: how one is said, "one" or "a"."""
    return f"{one if count == 1 else count} {plural(noun, count)}"


def cords_together(layers: int) -> str:
    """How many cords run side by side, as makers say it: "one cord", "doubled", "3 cords together"."""
    return {1: "one cord", 2: "doubled"}.get(layers, f"{layers} cords together")


def join_words(words: Sequence[str]) -> str:
    """The words as one list in a sentence: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def percent(p: float) -> str:
    """A chance in whole per cent, never 0 or 100: "84 %", "under 1 %", "over 99 %"."""
    if p < LEAST_PERCENT:
        return "under 1 %"
    return "over 99 %" if p > 1 - LEAST_PERCENT else share(p)


def one_in(p: float) -> str:
    """A small chance as people count it: "1 in 100", "fewer than 1 in 10,000"; a large one in per cent."""
    if p < 1e-4:
        return "fewer than 1 in 10,000"
    return f"1 in {round(1 / p):,}" if p <= 0.2 else percent(p)


def share(part: float) -> str:
    """A part of 1 in whole per cent: 0.07 is "7 %"."""
    return f"{100 * part:.0f} %"


# -- misspelt words ---------------------------------------------------------------------------------------------------


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice that a misspelt word most likely stands for, whatever its capitals; None if none is near."""
    from difflib import get_close_matches  # for a misspelt word only: most starts have none

    if len(word) > _LONGEST_WORD:
        return None
    as_written: dict[str, str] = {}
    for choice in choices:
        as_written.setdefault(choice.lower(), choice)
    close = get_close_matches(word.lower(), as_written, n=1)
    return as_written[close[0]] if close else None
