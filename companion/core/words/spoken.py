"""Texts for the ear: the same words without the marks that a screen reader says badly or not at all."""

from __future__ import annotations

import re
from fractions import Fraction

from companion.core.values.measures.length_grammar import VULGAR
from companion.core.words.marks import for_everybody

_NUMBER = r"[−-]?(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?)"
_UNITS = {"in": ("inch", "inches"), "cm": ("centimetre", "centimetres"), "mm": ("millimetre", "millimetres")}
# "3 in 4", "5 in the first side": there "in" is no inch.
_NO_INCH = r"(?! (?:[0-9]|(?:the|this|these|those|that|all|every|order|place|which|it|them|your)\b))"
_UNIT = rf"(in\b{_NO_INCH}|cm\b|mm\b)"
# Patterns as text: `re` makes them up at the first word that is to be heard, and keeps them.
_LENGTH = rf"(?<![\w./])({_NUMBER}) {_UNIT}"
_BETWEEN = rf"(?<![\w./])({_NUMBER}) (±|to) ({_NUMBER}) {_UNIT}"
_MIXED = r"(?<![\w./])([0-9]+) ([0-9]+/[1-9][0-9]*)(?![\w/])"
_PERCENT = r"(?<=[0-9])\s?%"
_VULGAR = f"([0-9]+)? ?([{''.join(VULGAR)}])"
_PARTS = {2: ("half", "halves"), 4: ("quarter", "quarters"), 8: ("eighth", "eighths"), 16: ("sixteenth", "sixteenths")}
_MARKS = (
    (" ± ", " plus or minus "),
    ("± ", "plus or minus "),
    ("±", "plus or minus "),
    (" · ", ", "),
    ("·  ", ""),
    ("·", ","),
    (" → ", " to "),
    ("→", " to "),
    (" › ", ", "),
    (" × ", " times "),
    ("×", " times "),
    ("²", " squared"),
    ("⌀", "diameter "),
    ("`", '"'),
)
_SIGNS = str.maketrans({"‘": "'", "’": "'", "“": '"', "”": '"', "′": "'", "″": '"', "…": "...", "⁄": "/", "•": ""})
_RANGE = r"(?<=[0-9])\s?[–—]\s?(?=[0-9])"
_DASH = r"\s?[–—]\s?"
_MINUS = r"−(?=[0-9])"


def spoken(text: str) -> str:
    """The same for the ear: lengths with their fractions and units in words, no mark that is not said as it is meant.

    "3 3/8 in" is "3 and 3 eighths inches"; "7 15/16 ± 3/8 in" has "plus or minus".
    """
    text = re.sub(_VULGAR, _written_out, for_everybody(text))
    text = re.sub(_BETWEEN, _two_lengths, text)
    text = re.sub(_LENGTH, lambda found: _length(found[1], found[2]), text)
    text = re.sub(
        _PERCENT, " percent", re.sub(_MIXED, lambda found: f"{found[1]} and {_part(Fraction(found[2]))}", text)
    )
    text = re.sub(_DASH, ", ", re.sub(_RANGE, " to ", text))
    for mark, words in _MARKS:
        text = text.replace(mark, words)
    return re.sub(_MINUS, "minus ", text).replace("−", "minus").translate(_SIGNS)


def _written_out(found: re.Match[str]) -> str:
    part = VULGAR[found[2]]
    return " ".join(filter(None, (found[1], f"{part.numerator}/{part.denominator}")))


def _two_lengths(found: re.Match[str]) -> str:
    joint = "plus or minus" if found[2] == "±" else found[2]
    return f"{_length(found[1], found[4])} {joint} {_length(found[3], found[4])}"


def _length(number: str, unit: str) -> str:
    """A number as a length is written, with its unit in words."""
    one, many = _UNITS[unit]
    if "/" not in number:
        return f"{number} {one if number == '1' else many}"
    whole, _, part = number.rpartition(" ")
    words = _part(Fraction(part)) if not part.endswith("/0") else part
    if whole:
        return f"{whole} and {words} {many}"
    return f"half an {one}" if part == "1/2" else f"{words} of an {one}"


def _part(part: Fraction) -> str:
    """A fraction as it is said: "a half", "3 eighths"."""
    one, many = _PARTS.get(part.denominator, ("", ""))
    if not one:
        return f"{part.numerator} over {part.denominator}"
    if part.numerator == 1:
        return f"a {one}" if part.denominator <= 4 else f"1 {one}"
    return f"{part.numerator} {many}"
