"""What to cut, and what a cord cut otherwise would mean, in words."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.cord.cord import KnotFigures
from companion.core.journal.piece import Piece
from companion.core.plan.cut import ArmRule, arm_rule, cut_risk, share_a_layer_mm, told_cut_mm
from companion.core.plan.plan import Cut, Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import KNOT_KINDS, KnotKind
from companion.core.values.measures.show_lengths import (
    DisplayUnit,
    display_unit,
    number_and_unit,
    rounded_up_mm,
    show,
    show_up,
)
from companion.core.values.measures.units import MM_PER_INCH, UNNOTICED_MM
from companion.core.values.text import capitalised, count_of, count_word, join_words, one_in, percent, share
from companion.core.words.notices import Level, Notice

LITTLE_RISK = 0.05  # up to which a cut that is shorter than planned is but a little short; our own choice
RISKY = 0.25  # chance of running out from which on a short cut is marked as off; our own choice


class CutLine(Struct, frozen=True):
    """One line of the cut list: `depth` says how far it is set in; `strong`: the heading, and the first length."""

    text: str
    depth: int = 0
    strong: bool = False


def cut_list(plan: Plan, own_arm_mm: float | None = None) -> Iterator[CutLine]:
    """What to cut, with the risk it was chosen for, the arm rule beside it (by the maker's own arm where it is known),
    and what the knots take."""
    unit = display_unit(plan.unit)
    yield CutLine("Cut", strong=True)
    for number, (cut, length) in enumerate(zip(plan.cuts, cut_lengths(plan), strict=True)):
        yield CutLine(length, 1, strong=number == 0)
        yield from (CutLine(text, 2) for text in _reasons(plan, cut, unit, own_arm_mm))
    yield from (CutLine(text, 1) for text in (*extra_cut_lines(plan), *knot_lines(plan)))


def really_cut(plan: Plan, cut: int, length_mm: float) -> str:
    """How long a cord of the plan (from 0) was really cut, mm, as the maker has said: "you cut 47 in (upper)"."""
    name = f" ({plan.cuts[cut].name})" if len(plan.cuts) > 1 else ""
    return f"you cut {show(length_mm, display_unit(plan.unit))}{name}"


def really_cut_lines(plan: Plan, piece: Piece) -> Iterator[str]:
    """The same of each cord of which she has said so."""
    for number in range(len(plan.cuts)):
        length_mm = piece.cut_mm(number)
        if length_mm is not None:
            yield really_cut(plan, number, length_mm)


def cut_lengths(plan: Plan) -> Iterator[str]:
    """How long to cut each cord, and what of."""
    unit = display_unit(plan.unit)
    for cut in plan.cuts:
        name = f"{cut.name}: " if len(plan.cuts) > 1 else ""
        yield f"{name}{show_up(cut.cut_mm, unit)} ({_other_unit(cut, unit)}) of {_cord(plan, cut)}"


class CutFigure(Struct, frozen=True):
    """A cord to cut, its length to be shown large: the number by itself, its unit, and what is told beside it."""

    number: str
    unit: str
    lines: tuple[str, ...]


def cut_figures(plan: Plan, own_arm_mm: float | None = None) -> Iterator[CutFigure]:
    """The cords of the cut list, each with what it is of and its risk."""
    unit = display_unit(plan.unit)
    for cut in plan.cuts:
        name = f"{cut.name}, " if len(plan.cuts) > 1 else ""
        what = f"{name}of {_cord(plan, cut)} ({_other_unit(cut, unit)})"
        number, shown_unit = number_and_unit(rounded_up_mm(cut.cut_mm, unit), unit)
        yield CutFigure(number, shown_unit, (what, *_reasons(plan, cut, unit, own_arm_mm)))


def extra_cut_lines(plan: Plan) -> Iterator[str]:
    """The cords that are cut apart from the strands'."""
    for extra in plan.extra_cords:
        length = show_up(extra.cut_mm, display_unit(plan.unit))
        yield f"{length} more, by itself, for the {extra.purpose}"


def knot_lines(plan: Plan) -> Iterator[str]:
    """What each kind of knot in the plan takes and gives."""
    for kind in KNOT_KINDS:
        if any(dict(strand.knots)[kind] for strand in plan.strands):
            yield _knot(plan, kind)


def _other_unit(cut: Cut, unit: DisplayUnit) -> str:
    """The same length, rounded up as it is, in the unit that is not the maker's."""
    return show(rounded_up_mm(cut.cut_mm, unit), "mm" if unit == "in" else "in")


def _cord(plan: Plan, cut: Cut) -> str:
    layers = {1: "", 2: ", used doubled"}.get(cut.layers, f", for {count_word(cut.layers)} cords together")
    return f"{plan.cord.name}, {plan.cord.diameter_mm:.4g} mm{layers}"


def _reasons(plan: Plan, cut: Cut, unit: DisplayUnit, own_arm_mm: float | None) -> Iterator[str]:
    margin_mm = sum(plan.strands[entry].margin_mm for entry in cut.entries)
    risk = max(plan.strands[entry].run_out_risk for entry in cut.entries)
    each = " in each cord" if cut.layers > 1 else ""
    planned, spare = show(cut.cut_mm, unit), f"{show(margin_mm, unit)} spare{each} ({one_in(risk)} would run out)"
    rounded = planned != show_up(cut.cut_mm, unit)
    yield f"rounded up from {planned}, which includes {spare}" if rounded else f"includes {spare}"
    yield _arm(arm_rule(plan, cut.layers, own_arm_mm), cut.cut_mm, unit)
    if len(cut.entries) > 1:
        number = plan.cuts.index(cut)
        told_mm = told_cut_mm(plan, number)
        each_mm = {e: cut.layers * share_a_layer_mm(plan, number, e, told_mm) for e in cut.entries}
        shares = [f"{plan.strands[e].in_a_sentence} {show(mm, unit)}" for e, mm in each_mm.items()]
        yield f"shared between {join_words(shares)}"


def _arm(rule: ArmRule, cut_mm: float, unit: DisplayUnit) -> str:
    arms = count_of(rule.arms, "arm's length", "one")
    if cut_mm < rule.low_mm:
        verdict = "this plan needs less"
    else:
        verdict = "this plan needs more" if cut_mm > rule.high_mm else "about what this plan needs"
    low, high = show(rule.low_mm, unit), show(rule.high_mm, unit)
    long = f"about {low}" if low == high else f"{low} to {high}"
    return f"old rule of thumb: {arms}, {long}; {verdict}"


def _knot(plan: Plan, kind: KnotKind) -> str:
    figures = plan.cord.knot(kind)
    card = _from_card(plan.cord.card, figures)
    source = {"design": "from the design", "card": card, "estimate": "estimated"}[figures.source]
    takes = f"{figures.take_up_mm:.1f} mm of {'each cord' if plan.cord.layers > 1 else 'the cord'}"
    longer = f"makes the piece {figures.length_mm:.1f} mm longer"
    return f"each {kind} knot uses up {takes} and {longer} ({source}){_in_her_unit(plan, figures.take_up_mm)}"


def _in_her_unit(plan: Plan, take_up_mm: float) -> str:
    """For one who works in inches: how many knots use one."""
    if display_unit(plan.unit) != "in" or take_up_mm <= 0:
        return ""
    knots = round(MM_PER_INCH / take_up_mm)
    return f"; about {count_word(knots)} knots use an inch" if 2 <= knots <= 20 else ""


def _from_card(card: str | None, figures: KnotFigures) -> str:
    half = f", the {figures.estimated} estimated" if figures.estimated else ""
    return f"from the cord card {card}{half}"


# -- a cord cut otherwise ---------------------------------------------------------------------------------------------


def cut_lines(plan: Plan, cut: int, length_mm: float) -> tuple[Notice, ...]:
    """What it would mean to cut a cord (the plan's number `cut`) to that length, whole, mm: its run-out risk."""
    planned_mm = told_cut_mm(plan, cut)
    short_mm = planned_mm - length_mm
    risk = cut_risk(plan, cut, length_mm)
    if short_mm <= UNNOTICED_MM:
        return (Notice("quiet", f"As long as planned, or longer: {percent(risk)} chance of running out."),)
    short = f"{show(short_mm, display_unit(plan.unit))} less than planned"
    if not cut_questioned(plan, cut, length_mm):
        if risk <= LITTLE_RISK:
            return (Notice("quiet", f"A little short: {short}, {percent(risk)} chance of running out."),)
        return (Notice("watch", f"{capitalised(short)}: {percent(risk)} chance of running out."),)
    level: Level = "off" if risk > RISKY else "watch"
    return (
        Notice(level, f"Much too short: {short} ({share(short_mm / planned_mm)})."),
        Notice(
            level, capitalised(f"{percent(risk)} chance of running out before the end. A fresh cord would be surer.")
        ),
    )


def cut_questioned(plan: Plan, cut: int, length_mm: float) -> bool:
    """Whether a cut is so much shorter than planned, or so likely to run out, that it is asked about before the first
    knot."""
    planned_mm = told_cut_mm(plan, cut)
    shorter = length_mm < planned_mm - UNNOTICED_MM
    much = length_mm <= planned_mm * (1 - USUAL.short_cut_questioned)
    return much or (shorter and cut_risk(plan, cut, length_mm) > RISKY)
