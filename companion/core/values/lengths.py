"""Lengths and counts as makers write them, read exactly. `show_lengths` is the way back to the screen."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from companion.core.values.text import plain

Unit = Literal["mm", "cm", "m", "in", "ft", "yd"]

# The inch is 25.4 mm exactly. Source: Addendum to NBS Circular 572, "Calibration of Line Standards of Length", 1960
# (the yard 0.9144 m from 1 July 1959); NIST SP 811, appendix B.
MM_PER_INCH = 25.4
SIXTEENTH_INCH_MM = MM_PER_INCH / 16
UNNOTICED_MM = 0.8  # half a sixteenth of an inch: a length off by less is as it should be
COARSEST_RULER_MM = MM_PER_INCH  # nothing coarser is a ruler for this work
MM_PER_UNIT: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction("25.4"),
    "ft": 12 * Fraction("25.4"),
    "yd": 36 * Fraction("25.4"),
}
MOST_CHARACTERS = 40
MOST_MM = 1_000_000  # 1 km
MOST_COUNT = 100_000

# Straight, prime and curly marks: the last are what a telephone's keyboard makes of the first.
_SPELLINGS: dict[str, Unit] = {
    **{name: name for name in ("mm", "cm", "m", "in", "ft", "yd")},
    **dict.fromkeys('"″”', "in"),
    **dict.fromkeys("'′’", "ft"),
}
_VULGAR = {
    character: Fraction(unicodedata.normalize("NFKC", character).replace("⁄", "/"))
    for character in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
}
_VULGARS = "".join(_VULGAR)

_DECIMAL = re.compile(r"[0-9]+[.,]?[0-9]*|[.,][0-9]+")
_FRACTION = re.compile(r"(?:([0-9]+) +)?([0-9]+)[/⁄]([0-9]+)")
_VULGAR_NUMBER = re.compile(rf"([0-9]+)? *([{_VULGARS}])")
_THOUSANDS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2},[0-9]{3}(?![0-9.,])")
_PART = re.compile(rf"([0-9.,/⁄{_VULGARS}][0-9.,/⁄ {_VULGARS}]*?) *({'|'.join(_SPELLINGS)}) *")
_PARTS = re.compile(f"(?:{_PART.pattern})+")

_UNIT_WORDS: dict[str, Unit] = {
    **dict.fromkeys(("inch", "inches", "ins"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mms"), "mm"),
}
_EXPECTED = "a number and its unit (mm, cm, m, in, ft or yd)"
_EXPECTED_COUNT = "a whole number from 1 to 100,000"
_EXAMPLE = "write it like 197 mm, 19.7 cm, 7 3/4 in or 2 ft 6 in"


class LengthError(ValueError):
    """A length or a count that can't be taken as written: what was found, what is expected, what to write instead.

    The three are fit for a screen whatever the text held; str() makes one sentence of them.
    """

    def __init__(self, found: str, expected: str, hint: str) -> None:
        super().__init__(found, expected, hint)
        self.found = found
        self.expected = expected
        self.hint = hint

    def __str__(self) -> str:
        return f"Found {self.found}; expected {self.expected}: {self.hint}."


@lru_cache(maxsize=4096)
def read_length_mm(text: str, default_unit: Unit | None = None, *, above_zero: bool = False) -> Fraction:
    """The length in mm, exactly as written; a bare number is of the default unit, where there is one.

    Raises LengthError for anything else than a length from 0 (or just above it, with `above_zero`) to 1 km.
    """
    (number, written), *inches = _parts(text)
    unit = written or default_unit
    if unit is None:
        bare = _tidy(text)
        raise LengthError(f"{_quoted(text)}, without a unit", _EXPECTED, f"write {bare} mm or {bare} in")
    length_mm = number * MM_PER_UNIT[unit]
    for more, _ in inches:
        length_mm += more * MM_PER_UNIT["in"]
    if length_mm > MOST_MM:
        raise LengthError(_quoted(text), "at most 1 km", "look at the unit and the decimal point")
    if above_zero and not length_mm:
        raise LengthError(_quoted(text), "a length above 0", "write what the ruler says")
    return length_mm


def unit_of(text: str) -> Unit | None:
    """The unit that a length is written in; of feet and inches, the inch; None for a bare number.

    Raises LengthError.
    """
    return _parts(text)[-1][1]


def whole_number(text: str) -> int:
    """A count written in the digits 0 to 9, from 1 to 100,000. Raises LengthError."""
    digits = _tidy(text)
    if not re.fullmatch(f"[0-9]{{1,{MOST_CHARACTERS}}}", digits):
        found = _quoted(text) if digits else "nothing"
        raise LengthError(found, _EXPECTED_COUNT, "write it in digits alone, like 12")
    if not 1 <= int(digits) <= MOST_COUNT:
        raise LengthError(_quoted(text), _EXPECTED_COUNT, "write a number in that range")
    return int(digits)


# -- reading ----------------------------------------------------------------------------------------------------------


def _parts(text: str) -> list[tuple[Fraction, Unit | None]]:
    """The numbers of a length with their units: one pair, or feet and inches. Raises LengthError."""
    if len(text) > MOST_CHARACTERS:
        raise LengthError(f"a length of {len(text)} characters", f"at most {MOST_CHARACTERS}", _EXAMPLE)
    tidy = _tidy(text)
    if not tidy[-1:].isalpha():
        bare = _number(tidy)
        if bare is not None:
            return [(bare, None)]
    written = _PART.findall(tidy) if _PARTS.fullmatch(tidy) else []
    numbers = [_number(number.strip()) for number, _ in written]
    units = [_SPELLINGS[unit] for _, unit in written]
    feet_and_inches = units == ["ft", "in"] and written[0][0].isdigit()
    if len(units) != 1 and not feet_and_inches:
        raise _refusal(tidy)
    parts: list[tuple[Fraction, Unit | None]] = []
    for number, unit in zip(numbers, units, strict=True):
        if number is None:
            raise _refusal(tidy)
        parts.append((number, unit))
    return parts


def _number(text: str) -> Fraction | None:
    """A decimal, a fraction or a mixed number; None where the text is none of them, or says two things at once."""
    if _THOUSANDS.search(text):
        return None
    if _DECIMAL.fullmatch(text):
        whole, _, decimals = text.replace(",", ".").partition(".")
        return Fraction(int(whole + decimals), 10 ** len(decimals))
    if match := _VULGAR_NUMBER.fullmatch(text):
        return int(match[1] or 0) + _VULGAR[match[2]]
    match = _FRACTION.fullmatch(text)
    if not match or not int(match[3]):
        return None
    fraction = Fraction(int(match[2]), int(match[3]))
    if match[1] and fraction >= 1:  # 7 5/4 is no mixed number: more likely a slip for 7 1/4 or 7 3/4
        return None
    return int(match[1] or 0) + fraction


def _tidy(text: str) -> str:
    """Every kind of space within a line, no-break ones too, made an ordinary one; none around."""
    if text.isascii():
        return text.replace("\t", " ").strip(" ")
    return "".join(" " if c == "\t" or unicodedata.category(c) == "Zs" else c for c in text).strip(" ")


# -- refusing ---------------------------------------------------------------------------------------------------------


def _quoted(text: str) -> str:
    return f"‘{plain(text, MOST_CHARACTERS)}’"


def _without_hyphen(text: str) -> str:
    return "write " + re.sub(r"(?<=[0-9]) *[-‐‑–] *", " ", text)


def _without_sign(text: str) -> str:
    return "write it without the sign"


def _without_thousands(text: str) -> str:
    return f"write {text.replace(',', '')}, or {text.replace(',', '.')} for a decimal comma"


# What may be wrong with a length that isn't one, the first that fits: (where it shows, what to call it, what to write).
_SLIPS: tuple[tuple[str, str, Callable[[str], str]], ...] = (
    (rf"[0-9] *[-‐‑–] *(?:[0-9]+/|[{_VULGARS}])", "with a hyphen", _without_hyphen),
    (r"[-+−‐‑–±]", "with a sign", _without_sign),
    (r"[0-9][eE][0-9]", "with an exponent", lambda _: "write the number out in full"),
    (_THOUSANDS.pattern, "where the comma may be a thousands mark", _without_thousands),
    (r"[.,][0-9]*[.,]", "with more than one point or comma", lambda _: "write 1.5 or 1,5, and 1500 without a mark"),
    (r"/0+(?![0-9])", "with a fraction of nothing", lambda _: "write a number from 1 up below the line, like 3/4"),
    (r"['′’]{2}", "with two marks for feet", lambda _: 'write in or one " for inches'),
    (r"^[0-9]+ +[0-9]+/[0-9]+ *\D*$", "with a fraction that isn't below 1", lambda _: "write it like 7 3/4 in"),
    (r"(?:ft|['′’]) *[0-9][0-9 /]*$", "with inches that lack their unit", lambda text: f"write {text} in"),
    (r"[0-9] +[0-9]+(?![0-9/])", "with a space inside the number", lambda _: "write the digits close up, like 1000 mm"),
)


def _refusal(text: str) -> LengthError:
    """What is wrong with a text that is no length, as closely as can be told."""
    if not text:
        return LengthError("nothing", _EXPECTED, _EXAMPLE)
    if any(c.isnumeric() and not c.isascii() and c not in _VULGAR for c in text):
        return LengthError(f"{_quoted(text)}, with digits other than 0 to 9", _EXPECTED, _EXAMPLE)
    if worded := _unit_slip(text):
        return worded
    for pattern, wrong, hint in _SLIPS:
        if re.search(pattern, text):
            return LengthError(f"{_quoted(text)}, {wrong}", _EXPECTED, plain(hint(text)))
    if _PARTS.fullmatch(text) and len(_PART.findall(text)) > 1:
        only = "one unit, or whole feet and then inches"
        return LengthError(f"{_quoted(text)}, with more than one unit", only, "write it like 120 cm or 2 ft 6 in")
    return LengthError(_quoted(text), _EXPECTED, _EXAMPLE)


def _unit_slip(text: str) -> LengthError | None:
    """A right number followed by a word that is no unit here: most often one written out, or in capitals."""
    match = re.fullmatch(r"(.*[^a-zA-Z])([a-zA-Z]+)\.?", text)
    number = match[1].strip() if match else ""
    if not match or _number(number) is None:
        return None
    word = match[2].lower()
    unit = _UNIT_WORDS.get(word, word)
    hint = f"write {number} {unit}" if unit in MM_PER_UNIT else _EXAMPLE
    return LengthError(f"{_quoted(text)}, with a unit that isn't known here", _EXPECTED, hint)
