"""How a bead kind is marked on the screen: a letter, a colour and an outline, from its own words and nothing else."""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from string import ascii_uppercase, digits

from msgspec import Struct

from companion.core.picture.colours import Colour, colour_of
from companion.core.picture.outlines import Outline, outline_of
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out
from companion.core.values.design import BeadKind

# Where a kind's own letters are all taken. The Greek and Cyrillic ones are those that no Latin letter is like.
SPARE_LETTERS = ascii_uppercase + digits + "ΓΔΘΛΞΠΣΦΨΩБДЖИЛЦЧШЩЪЫЭЮЯ"
_LOWERED_DIGITS = str.maketrans(digits, "₀₁₂₃₄₅₆₇₈₉")


class BeadMark(Struct, frozen=True):
    """How one bead kind is drawn. `colour` None: no colour word was known, drawn plain.

    `shared`: another kind has the same letter, for there are more kinds than letters; the legend should say so.
    """

    letter: str
    key: str
    name: str
    colour: Colour | None
    outline: Outline
    shared: bool = False


def marks_of(kinds: Sequence[BeadKind]) -> tuple[BeadMark, ...]:
    """A mark for each kind, in order. Letters are capitals or digits, one column wide; no two are the same while there
    are enough.

    A kind's letter is its key's initial, else an initial in its name, else any other letter of the two.
    """
    return _marks(tuple(kinds))


@lru_cache(maxsize=8)  # a step that is marked asks for those of its plan several times
def _marks(kinds: tuple[BeadKind, ...]) -> tuple[BeadMark, ...]:
    taken: list[str] = []
    for number, kind in enumerate(kinds):
        free = (letter for letter in (*_own_letters(kind), *SPARE_LETTERS) if letter not in taken)
        taken.append(next(free, SPARE_LETTERS[number % len(SPARE_LETTERS)]))
    times = Counter(taken)
    return tuple(
        BeadMark(letter, kind.key, kind.name, colour_of(kind.colour), outline_of(kind.shape), times[letter] > 1)
        for letter, kind in zip(taken, kinds, strict=True)
    )


def letters_of(kinds: Sequence[BeadKind]) -> dict[str, str]:
    """The letter of each kind, by key."""
    return {mark.key: mark.letter for mark in marks_of(kinds)}


def legend(plan: Plan) -> tuple[BeadMark, ...]:
    """The marks of the kinds that the plan really uses, in the order of the design."""
    used = {kind.key for kind, _ in beads_to_count_out(plan)}
    return tuple(mark for mark in marks_of(plan.beads) if mark.key in used)


def coming_letter(letter: str) -> str:
    """The letter of a bead still to come: small where the made one is a capital, low where it is a digit."""
    return letter.lower().translate(_LOWERED_DIGITS)


def _own_letters(kind: BeadKind) -> Iterator[str]:
    yield from _usable(kind.key[:1])
    yield from _usable((word[0] for word in kind.name.split()), or_digits=True)
    yield from _usable(kind.name + kind.key)


def _usable(characters: Iterable[str], or_digits: bool = False) -> Iterator[str]:
    """Those of the characters that can be a mark, as capitals without accents."""
    for character in characters:
        if or_digits and character in digits:
            yield character
        base = unicodedata.normalize("NFD", character)[0]
        capital, small = base.upper(), base.lower()
        if capital != small and _fits_a_column(capital) and _fits_a_column(small):
            yield capital


def _fits_a_column(text: str) -> bool:
    """One letter, one column, written left to right. Source: Unicode Standard Annex 11, East Asian Width."""
    return (
        len(text) == 1
        and unicodedata.category(text) in ("Lu", "Ll")
        and unicodedata.bidirectional(text) == "L"
        and unicodedata.east_asian_width(text) not in "WF"
    )
