"""What is wrong with a text that is no length, as closely as can be said."""

from __future__ import annotations

import re
from collections.abc import Callable

from companion.core.values.measures.length_grammar import (
    HYPHENS,
    MM_PER_UNIT,
    MOST_CHARACTERS,
    PART,
    PARTS,
    SPELLINGS,
    THOUSANDS,
    VULGAR,
    read_number,
)
from companion.core.values.text import plain

EXPECTED = "a number and its unit (mm, cm, m, in, ft or yd)"
EXAMPLE = "write it like 238 mm, 23.8 cm, 9 3/8 in or 2 ft 6 in"


def quoted(text: str) -> str:
    """A text as a message shows it."""
    return f"‘{plain(text, MOST_CHARACTERS)}’"


def _without_sign(text: str) -> str:
    return "write it without the sign"


def _without_thousands(text: str) -> str:
    return f"write {text.replace(',', '')}, or {text.replace(',', '.')} for a decimal comma"


_NOT_BELOW_ONE = "with a fraction of 1 or more", lambda _: "write it like 9 3/8 in"
# What may be wrong with a length that isn't one, the first that fits: (where it shows, what to call it, what to write).
_SLIPS: tuple[tuple[str, str, Callable[[str], str]], ...] = (
    (rf"^[0-9]+(?: +| *[{HYPHENS}] *)[0-9]+/0*[1-9][0-9]* *\D*$", *_NOT_BELOW_ONE),
    (r"[-+−‐‑–±]", "with a sign", _without_sign),
    (r"[0-9][eE][0-9]", "with an e in the number", lambda _: "write the number out in full"),
    (THOUSANDS, "where the comma may be a thousands mark", _without_thousands),
    (r"[.,][0-9]*[.,]", "with more than one point or comma", lambda _: "write 1.5 or 1,5, and 1500 without a mark"),
    (r"/0+(?![0-9])", "with a 0 below the line", lambda _: "write a number from 1 up below the line, like 3/4"),
    (r"['′’]{2}", "with two marks for feet", lambda _: 'write in or one " for inches'),
    (r"(?:ft|['′’]) *[0-9][0-9 /]*$", "with inches that have no mark", lambda text: f"write {text} in"),
    (r"[0-9] +[0-9]+(?![0-9/])", "with a space inside the number", lambda _: "write the digits close up, like 1000 mm"),
)


def what_is_wrong(text: str) -> tuple[str, str, str]:
    """What was found in a text that is no length, what is expected, and what to write instead."""
    if not text:
        return "nothing", EXPECTED, EXAMPLE
    if any(c.isnumeric() and not c.isascii() and c not in VULGAR for c in text):
        return f"{quoted(text)}, with digits other than 0 to 9", EXPECTED, EXAMPLE
    hint = _unit_slip(text)
    if hint:
        return f"{quoted(text)}, with a unit that isn't known here", EXPECTED, hint
    for pattern, wrong, advice in _SLIPS:
        if re.search(pattern, text):
            return f"{quoted(text)}, {wrong}", EXPECTED, plain(advice(text))
    if re.fullmatch(PARTS, text) and len(re.findall(PART, text)) > 1:
        only = "one unit, or whole feet and then inches"
        return f"{quoted(text)}, with more than one unit", only, "write it like 120 cm or 2 ft 6 in"
    return quoted(text), EXPECTED, EXAMPLE


def _unit_slip(text: str) -> str:
    """What to write for a right number with a word that is no unit here, most often one written out or in capitals; ""
    for any other text."""
    match = re.fullmatch(r"(.*[^a-zA-Z])([a-zA-Z]+)\.?", text)
    number = match[1].strip() if match else ""
    if not match or read_number(number) is None:
        return ""
    word = match[2].lower()
    unit = SPELLINGS.get(word, word)
    return f"write {number} {unit}" if unit in MM_PER_UNIT else EXAMPLE
