"""A design while it is being made: every field as it was typed, a text that nothing has judged yet."""

from __future__ import annotations

from itertools import chain
from typing import Any

from msgspec import Struct, to_builtins

from companion.core.picture.marks import SPARE_LETTERS
from companion.core.values.measures.length_grammar import SPELLINGS

MEASURED = ("wrist", "neck", "length")
BY_MATERIAL = "as the material wants it"
MOST_TEXT = 400  # characters of one field
MOST_BEADS = 36  # one letter or digit each


class BeadDraft(Struct, frozen=True):
    """One kind of bead. `letter`: what stands for it in the pattern; `key`: its key in the file, "" for the letter."""

    letter: str
    key: str = ""
    name: str = ""
    length: str = ""
    diameter: str = ""
    hole: str = ""
    colour: str = ""
    shape: str = "round"


class Draft(Struct, frozen=True):
    """The whole design. `unit`: that of a bare number. `times`: "fit", or how often the pattern comes. Both ends are
    closed alike; `end_length` and `end_tail` are each end's, "" for the usual."""

    name: str = ""
    note: str = ""
    unit: str = "mm"
    measured: str = "wrist"
    body: str = ""
    ease: str = ""
    turns: str = "1"
    tolerance: str = ""
    cord: str = ""
    material: str = "silk"
    cord_diameter: str = ""
    layers: str = "1"
    tool: str = "awl"
    card: str = ""
    single_take_up: str = ""
    single_length: str = ""
    double_take_up: str = ""
    double_length: str = ""
    triple_take_up: str = ""
    triple_length: str = ""
    beads: tuple[BeadDraft, ...] = ()
    pattern: str = ""
    knots: str = "on both sides of every bead"
    times: str = "fit"
    middle: str = ""
    work: str = "along"
    stringing: str = BY_MATERIAL
    closure: str = "bead tip and clasp"
    finding: str = ""
    finding_size: str = ""
    end_length: str = ""
    end_tail: str = ""


def keys_by_letter(draft: Draft) -> dict[str, str]:
    """Each bead's key in the file."""
    return {bead.letter: bead.key or bead.letter for bead in draft.beads}


def free_letter(draft: Draft, name: str) -> str:
    """A letter for one more kind of bead: of its name where one is free. Raises ValueError where none is left."""
    taken = {bead.letter for bead in draft.beads}
    wanted = (character.upper() for character in name if character.isascii() and character.isalpha())
    for letter in chain(wanted, SPARE_LETTERS[:MOST_BEADS]):
        if letter not in taken:
            return letter
    raise ValueError("no letter is left for one more kind of bead")


def with_unit(text: str, unit: str) -> str:
    """A typed length with its unit; a bare number is in `unit`. What is no number stays as it was typed."""
    text = text.strip()
    bare = text[-1:].isnumeric() and not any(text.lower().endswith(spelling.lower()) for spelling in SPELLINGS)
    return f"{text} {unit}" if bare else text


def draft_document(draft: Draft) -> dict[str, Any]:
    """The draft as plain values, to be kept."""
    document: dict[str, Any] = to_builtins(draft)
    return document


def draft_from(document: Any) -> Draft | None:
    """A draft from the values it was kept as; None if they are no draft. Fields that are not known are left out."""
    if not isinstance(document, dict):
        return None
    known = set(Draft.__struct_fields__) - {"beads"}
    values = {key: value[:MOST_TEXT] for key, value in document.items() if key in known and isinstance(value, str)}
    bead_keys = BeadDraft.__struct_fields__
    beads = []
    for bead in document.get("beads") or ():
        found = {
            key: value[:MOST_TEXT] for key, value in dict(bead).items() if key in bead_keys and isinstance(value, str)
        }
        if found.get("letter"):
            beads.append(BeadDraft(**found))
    return Draft(**values, beads=tuple(beads[:MOST_BEADS]))
