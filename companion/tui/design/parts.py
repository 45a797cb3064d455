"""The parts of a design as forms: what each asks for, and the draft with the answers in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import get_args

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.table import CLOSURES
from companion.core.draft.draft import (
    BY_MATERIAL,
    MEASURED,
    MOST_PATTERN,
    BeadDraft,
    Draft,
    StrandDraft,
    free_letter,
    strands_of,
    with_strand,
)
from companion.core.draft.layout import KNOT_RULES
from companion.core.picture.outlines import SHAPE_WORDS
from companion.core.values.design import Material, Stringing, Tool, Work
from companion.core.words.drafting.draft_words import usual_tolerance
from companion.tui.dialogs.form import Field

UNITS = ("mm", "cm", "in")
SHAPES = ("round", "oval", "barrel", "tube", "cube", "disc", "bicone", "drop", "daisy", "chip")
NO_CARD = "none: as written or estimated"
assert set(SHAPES) <= set(SHAPE_WORDS)


class PartForm(Struct, frozen=True):
    """One part of a draft: its title, its fields, and of "beads" and "pattern" which one it is of (from 0)."""

    part: str
    title: str
    fields: tuple[Field, ...]
    number: int = 0


def part_form(draft: Draft, part: str, cards: tuple[str, ...], number: int = 0) -> PartForm:
    """The form of a part: "what", "size", "cord", "knots", "ends", "reach", or "beads" and "pattern" with the bead's or
    the strand's number (from 0; the one after the last is a new one)."""
    if part == "beads":
        return _bead_form(draft, number)
    if part == "pattern":
        return _pattern_form(draft, number)
    title, fields = {
        "what": ("Name", _what(draft)),
        "size": ("How long", _size(draft)),
        "cord": ("Cord", _cord(draft, cards)),
        "knots": ("What your knots take, if you have measured it", _knots(draft)),
        "ends": ("Ends", _ends(draft)),
        "reach": ("From the cord you have", _reach(draft)),
    }[part]
    return PartForm(part, title, fields)


def with_answers(draft: Draft, form: PartForm, values: Mapping[str, str]) -> Draft:
    """The draft with what is typed in a form."""
    if form.part == "pattern":
        return _with_pattern(draft, form.number, values)
    if form.part != "beads":
        typed = {key: "" if value == NO_CARD else value for key, value in values.items()}
        return replace(draft, **typed)
    if form.number < len(draft.beads):
        beads = list(draft.beads)
        beads[form.number] = replace(beads[form.number], **values)
        return replace(draft, beads=tuple(beads))
    return with_bead(draft, replace(BeadDraft(""), **values))


def with_bead(draft: Draft, bead: BeadDraft) -> Draft:
    """The draft with one more kind of bead. Raises ValueError where no letter is left for it."""
    letter = free_letter(draft, bead.name, bead.key)
    return replace(draft, beads=(*draft.beads, replace(bead, letter=letter)))


def _with_pattern(draft: Draft, number: int, values: Mapping[str, str]) -> Draft:
    own = {key: value for key, value in values.items() if key in StrandDraft.__struct_fields__}
    shared = {key: value for key, value in values.items() if key not in own}
    strands = strands_of(draft)
    strand = strands[number] if number < len(strands) else StrandDraft()
    return with_strand(replace(draft, **shared), number, replace(strand, **own))


def without_bead(draft: Draft, bead: int) -> Draft:
    """The draft without one kind of bead; its letter stays in the pattern, which then says so."""
    return replace(draft, beads=draft.beads[:bead] + draft.beads[bead + 1 :])


def _what(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("name", "name", draft.name, "what the piece is called"),
        Field("note", "note", draft.note, "anything to remember"),
        Field("unit", "bare numbers in", draft.unit, choices=UNITS),
    )


def _size(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("measured", "measured is", draft.measured, choices=MEASURED),
        Field("body", "how long", draft.body, "close round, or the whole length"),
        Field("ease", "ease", draft.ease, "for comfort, such as 20 mm"),
        Field("turns", "times round", draft.turns, "1; a wrap that goes twice: 2"),
        Field("tolerance", "within", draft.tolerance, f"how near; empty: {usual_tolerance(draft)}"),
    )


def _cord(draft: Draft, cards: tuple[str, ...]) -> tuple[Field, ...]:
    choices = (Field("card", "cord card", draft.card or NO_CARD, choices=(NO_CARD, *cards)),) if cards else ()
    return (
        *choices,
        Field("cord", "called", draft.cord, "such as twisted silk"),
        Field("material", "material", draft.material, choices=get_args(Material)),
        Field("cord_diameter", "thickness", draft.cord_diameter, "such as 0.45 mm"),
        Field("layers", "cords together", draft.layers, "1; doubled: 2"),
        Field("tool", "knots set with", draft.tool, choices=get_args(Tool)),
    )


def _knots(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("single_take_up", "single uses up", draft.single_take_up, "of each cord; empty: estimated"),
        Field("single_length", "single is long", draft.single_length, "along the strand"),
        Field("double_take_up", "double uses up", draft.double_take_up),
        Field("double_length", "double is long", draft.double_length),
        Field("triple_take_up", "triple uses up", draft.triple_take_up),
        Field("triple_length", "triple is long", draft.triple_length),
    )


def _bead_form(draft: Draft, bead: int) -> PartForm:
    there = draft.beads[bead] if bead < len(draft.beads) else BeadDraft("")
    shapes = SHAPES if there.shape in SHAPES else (there.shape, *SHAPES)
    fields = (
        Field("name", "name", there.name, "such as Pink glass"),
        Field("length", "length", there.length, "along the hole, such as 8 mm"),
        Field("diameter", "thickness", there.diameter, "across; empty: as its length"),
        Field("hole", "hole", there.hole, "how wide; empty: not checked"),
        Field("colour", "colour", there.colour, "any words: pale sea green"),
        Field("shape", "shape", there.shape, choices=shapes),
        Field("in_hand", "you have", there.in_hand, "how many; empty: not counted"),
        Field("key", "in the file", there.key, "one word for it; empty: its letter"),
    )
    return PartForm("beads", f"Bead {there.letter}" if there.letter else "One more bead", fields, bead)


def _pattern_form(draft: Draft, number: int) -> PartForm:
    strands = strands_of(draft)
    several = len(strands) > 1 or number == len(strands)
    strand = strands[number] if number < len(strands) else StrandDraft(knots=draft.knots, times=draft.times)
    fields: tuple[Field, ...] = (
        Field("pattern", "pattern", strand.pattern, "a letter for each bead: PPPPS", most=MOST_PATTERN),
        Field("knots", "knots", strand.knots, choices=KNOT_RULES),
        Field("times", "how often", strand.times, "fit, or a number"),
        Field("middle", "middle bead", strand.middle, "mirrored about it; empty: none"),
    )
    if several:
        fields = (Field("name", "strand", strand.name, "its name: upper, middle, lower"), *fields)
    if number == 0:
        fields = (*fields, *_for_all_strands(draft))
    return PartForm("pattern", "Pattern" if number < len(strands) else "One more strand", fields, number)


def _for_all_strands(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("work", "worked", draft.work, choices=get_args(Work)),
        Field("stringing", "strung", draft.stringing, choices=(BY_MATERIAL, *get_args(Stringing))),
    )


def _reach(draft: Draft) -> tuple[Field, ...]:
    return (Field("cord_in_hand", "a cord of", draft.cord_in_hand, "such as 2 m: what would it make?"),)


def _ends(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("closure", "closed by", draft.closure, choices=tuple(CLOSURES)),
        Field("finding", "called", draft.finding, "hook clasp, toggle, horn button"),
        Field("finding_size", "its size", draft.finding_size, "of the button, bead or bore"),
        Field("end_length", "adds", draft.end_length, "each end; empty: the usual"),
        Field("end_tail", "tail", draft.end_tail, "each end; empty: the usual"),
    )
