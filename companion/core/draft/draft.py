"""A design while it is being made: every field as it was typed, a text that nothing has judged yet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain
from typing import Any

from msgspec import Struct, to_builtins
from msgspec.structs import replace

from companion.core.picture.marks import SPARE_LETTERS
from companion.core.values.measures.length_grammar import SPELLINGS

MEASURED = ("wrist", "neck", "length")
BY_MATERIAL = "as the material wants it"
MOST_TEXT = 400  # characters of one field
MOST_PATTERN = 20_000  # characters of a pattern: one that was opened can be long
MOST_BEADS = 36  # one letter or digit each
MOST_STRANDS = 12  # that the page has room for


class BeadDraft(Struct, frozen=True):
    """One kind of bead. `letter`: what stands for it in the pattern; `key`: its key in the file, "" for the letter;
    `in_hand`: how many the maker has, "" where they were not counted."""

    letter: str
    key: str = ""
    name: str = ""
    length: str = ""
    diameter: str = ""
    hole: str = ""
    colour: str = ""
    shape: str = "round"
    in_hand: str = ""


class StrandDraft(Struct, frozen=True):
    """The pattern of one strand. `times`: "fit", or how often the pattern comes."""

    name: str = ""
    pattern: str = ""
    knots: str = "on both sides of every bead"
    times: str = "fit"
    middle: str = ""


class Draft(Struct, frozen=True):
    """The whole design. `unit`: that of a bare number. `strand` to `middle` are the first strand's; `others` are
    worked, strung and closed as that one is. Both ends are closed alike; `end_length` and `end_tail` are each end's,
    "" for the usual. `source`: the file that it was opened from; `cord_in_hand`: how long a cord the maker has."""

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
    strand: str = ""
    pattern: str = ""
    knots: str = "on both sides of every bead"
    times: str = "fit"
    middle: str = ""
    others: tuple[StrandDraft, ...] = ()
    work: str = "along"
    stringing: str = BY_MATERIAL
    closure: str = "bead tip and clasp"
    finding: str = ""
    finding_size: str = ""
    end_length: str = ""
    end_tail: str = ""
    source: str = ""
    cord_in_hand: str = ""


def empty_draft(unit: str | None) -> Draft:
    """A design of which nothing is typed yet; `unit`: the maker's own, where she has set one."""
    return Draft(unit=unit) if unit else Draft()


def strands_of(draft: Draft) -> tuple[StrandDraft, ...]:
    """All strands, the first one first."""
    return (StrandDraft(draft.strand, draft.pattern, draft.knots, draft.times, draft.middle), *draft.others)


def with_strand(draft: Draft, number: int, strand: StrandDraft) -> Draft:
    """The draft with another strand in the place of that number (from 0); one more where there is none."""
    if number:
        others = (*draft.others[: number - 1], strand, *draft.others[number:])
        return replace(draft, others=others)
    return replace(
        draft, strand=strand.name, pattern=strand.pattern, knots=strand.knots, times=strand.times, middle=strand.middle
    )


def without_strand(draft: Draft, number: int) -> Draft:
    """The draft without one of its strands; the only one stays."""
    if not draft.others:
        return draft
    if number:
        return replace(draft, others=draft.others[: number - 1] + draft.others[number:])
    return replace(with_strand(draft, 0, draft.others[0]), others=draft.others[1:])


def keys_by_letter(draft: Draft) -> dict[str, str]:
    """Each bead's key in the file."""
    return {bead.letter: bead.key or bead.letter for bead in draft.beads}


def free_letter(draft: Draft, name: str, key: str = "") -> str:
    """A letter for one more kind of bead, where one is free the one that it has on pictures: its key's first, the first
    of a word of its name, any of them. Raises ValueError where none is left."""
    taken = {bead.letter for bead in draft.beads}
    own = key[:1] + "".join(word[0] for word in name.split()) + name + key
    wanted = (character.upper() for character in own if character.isascii() and character.isalpha())
    for letter in chain(wanted, SPARE_LETTERS[:MOST_BEADS]):
        if letter not in taken:
            return letter
    raise ValueError("no letter is left for one more kind of bead")


def not_in(draft: Draft, box: Sequence[BeadDraft]) -> list[BeadDraft]:
    """Those beads of the box that are not in the draft: a bead is known by its name and length."""
    there = {(bead.name.strip().casefold(), with_unit(bead.length, draft.unit)) for bead in draft.beads}
    return [bead for bead in box if (bead.name.casefold(), bead.length) not in there]


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
    beads = [bead for bead in _texts_of(document.get("beads"), BeadDraft) if bead.get("letter")]
    return Draft(
        **_texts(document, Draft),
        beads=tuple(BeadDraft(**bead) for bead in beads[:MOST_BEADS]),
        others=tuple(StrandDraft(**strand) for strand in _texts_of(document.get("others"), StrandDraft)[:MOST_STRANDS]),
    )


def _texts_of(documents: Any, kind: type[Struct]) -> list[dict[str, str]]:
    found = documents if isinstance(documents, list | tuple) else ()
    return [_texts(one, kind) for one in found if isinstance(one, dict)]


def _texts(document: dict[Any, Any], kind: type[Struct]) -> dict[str, str]:
    """The texts of a document that a value of that kind has a place for, none longer than it may be."""
    known = set(kind.__struct_fields__) - {"beads", "others"}
    texts = {key: value for key, value in document.items() if key in known and isinstance(value, str)}
    return {key: value[: MOST_PATTERN if key == "pattern" else MOST_TEXT] for key, value in texts.items()}
