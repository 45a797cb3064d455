"""How lengths are written: the marks of units and the kinds of numbers, read exactly."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Literal

from companion.core.values.measures.units import VULGARS

Unit = Literal["mm", "cm", "m", "in", "ft", "yd"]

# The inch is 25.4 mm exactly. Source: Addendum to NBS Circular 572, "Calibration of Line Standards of Length", 1960
# (the yard 0.9144 m from 1 July 1959); NIST SP 811, appendix B.
MM_PER_UNIT: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction("25.4"),
    "ft": 12 * Fraction("25.4"),
    "yd": 36 * Fraction("25.4"),
}
MOST_CHARACTERS = 40

# Straight, prime and curly marks: the last are what a telephone's keyboard makes of the first.
SPELLINGS: dict[str, Unit] = {
    **{name: name for name in ("mm", "cm", "m", "in", "ft", "yd")},
    **dict.fromkeys('"″”', "in"),
    **dict.fromkeys("'′’", "ft"),
    **dict.fromkeys(("inch", "inches", "ins"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mms"), "mm"),
}
HYPHENS = "‐‑–-"  # between a whole number and its fraction, as in 9-3/8
VULGAR = {character: Fraction(unicodedata.normalize("NFKC", character).replace("⁄", "/")) for character in VULGARS}

# As text: `re` makes them up when a first length is read, and keeps them. A command that reads none need not wait.
_DECIMAL = r"[0-9]+[.,]?[0-9]*|[.,][0-9]+"
_FRACTION = rf"(?:([0-9]+)(?: +| *[{HYPHENS}] *))?([0-9]+)[/⁄]([0-9]+)"
_VULGAR_NUMBER = rf"(?:([0-9]+) *[{HYPHENS}]?)? *([{VULGARS}])"
THOUSANDS = r"(?<![0-9.,])[1-9][0-9]{0,2},[0-9]{3}(?![0-9.,])"
_UNITS = "|".join(sorted(SPELLINGS, key=len, reverse=True))  # "inches" before the "in" that it begins with
PART = rf"([0-9.,/⁄{VULGARS}][0-9.,/⁄ {VULGARS}{HYPHENS}]*?) *({_UNITS}) *"
PARTS = f"(?:{PART})+"


def read_number(text: str) -> Fraction | None:
    """A decimal, a fraction or a mixed number; None where the text is none of them, or says two things at once."""
    if re.search(THOUSANDS, text):
        return None
    if re.fullmatch(_DECIMAL, text):
        whole, _, decimals = text.replace(",", ".").partition(".")
        return Fraction(int(whole + decimals), 10 ** len(decimals))
    if match := re.fullmatch(_VULGAR_NUMBER, text):
        return int(match[1] or 0) + VULGAR[match[2]]
    match = re.fullmatch(_FRACTION, text)
    if not match or not int(match[3]):
        return None
    fraction = Fraction(int(match[2]), int(match[3]))
    if match[1] and fraction >= 1:  # 9 9/8 is no mixed number: more likely a slip for 9 1/8 or 9 7/8
        return None
    return int(match[1] or 0) + fraction


def tidied(text: str) -> str:
    """Every kind of space within a line, no-break ones too, made an ordinary one; none around."""
    if text.isascii():
        return text.replace("\t", " ").strip(" ")
    return "".join(" " if c == "\t" or unicodedata.category(c) == "Zs" else c for c in text).strip(" ")
