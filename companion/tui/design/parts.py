"""The parts of a design as forms: what each asks for, and the draft with the answers in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import get_args

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.table import CLOSURES
from companion.core.draft.draft import BY_MATERIAL, MEASURED, BeadDraft, Draft, free_letter
from companion.core.draft.layout import KNOT_RULES
from companion.core.picture.outlines import SHAPE_WORDS
from companion.core.values.design import Material, Stringing, Tool, Work
from companion.tui.dialogs.form import Field

UNITS = ("mm", "cm", "in")
SHAPES = ("round", "oval", "barrel", "tube", "cube", "disc", "bicone", "drop", "daisy", "chip")
NO_CARD = "none: as written or estimated"
assert set(SHAPES) <= set(SHAPE_WORDS)


class PartForm(Struct, frozen=True):
    """One part of a draft: its title, its fields, and which bead it is of (-1: of none)."""

    title: str
    fields: tuple[Field, ...]
    bead: int = -1


def part_form(draft: Draft, part: str, cards: tuple[str, ...], bead: int = -1) -> PartForm:
    """The form of a part: "what", "size", "cord", "pattern", "ends", or "beads" with the bead's number (from 0)."""
    if part == "beads":
        return _bead_form(draft, bead)
    title, fields = {
        "what": ("Name", _what(draft)),
        "size": ("How long", _size(draft)),
        "cord": ("Cord", _cord(draft, cards)),
        "knots": ("What your knots take, if you have measured it", _knots(draft)),
        "pattern": ("Pattern", _pattern(draft)),
        "ends": ("Ends", _ends(draft)),
    }[part]
    return PartForm(title, fields)


def with_answers(draft: Draft, form: PartForm, values: Mapping[str, str]) -> Draft:
    """The draft with what is typed in a form."""
    if form.bead < 0:
        typed = {key: "" if value == NO_CARD else value for key, value in values.items()}
        return replace(draft, **typed)
    beads = list(draft.beads)
    there = beads[form.bead] if form.bead < len(beads) else BeadDraft(free_letter(draft, values["name"]))
    beads[form.bead : form.bead + 1] = [replace(there, **values)]
    return replace(draft, beads=tuple(beads))


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
        Field("tolerance", "within", draft.tolerance, "how near; empty: 3 mm"),
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
    )
    return PartForm(f"Bead {there.letter}" if there.letter else "One more bead", fields, bead)


def _pattern(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("pattern", "pattern", draft.pattern, "a letter for each bead: PPPPS"),
        Field("knots", "knots", draft.knots, choices=KNOT_RULES),
        Field("times", "how often", draft.times, "fit, or a number"),
        Field("middle", "middle bead", draft.middle, "mirrored about it; empty: none"),
        Field("work", "worked", draft.work, choices=get_args(Work)),
        Field("stringing", "strung", draft.stringing, choices=(BY_MATERIAL, *get_args(Stringing))),
    )


def _ends(draft: Draft) -> tuple[Field, ...]:
    return (
        Field("closure", "closed by", draft.closure, choices=tuple(CLOSURES)),
        Field("finding", "called", draft.finding, "hook clasp, toggle, horn button"),
        Field("finding_size", "its size", draft.finding_size, "of the button, bead or bore"),
        Field("end_length", "adds", draft.end_length, "each end; empty: the usual"),
        Field("end_tail", "tail", draft.end_tail, "each end; empty: the usual"),
    )
