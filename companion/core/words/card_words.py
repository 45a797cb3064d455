"""Cord cards in words: in short, what a card knows of each knot, its test knots, and what one more would mean."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.cord.cards import CardTest, CordCard, half95_mm, knot_figures, narrowing
from companion.core.cord.cord import KnotFigures
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.cord.lessons import Lesson
from companion.core.values.design import KNOT_KINDS, KnotKind
from companion.core.values.measures.show_lengths import DisplayUnit, show
from companion.core.values.text import capitalised, cords_together, count_of, join_words, plain
from companion.core.words.notices import Notice

TOOLS = {"awl": "an awl", "needle": "a needle"}


# -- the cord ---------------------------------------------------------------------------------------------------------


def card_in_short(card: CordCard) -> str:
    """ "twisted silk 0.45, doubled: 6.1 ± 0.8 mm a single knot (5 tests)"."""
    layers = "" if card.layers == 1 else f", {cords_together(card.layers)}"
    parts = []
    for kind in KNOT_KINDS:
        tests = _tests(card, kind)
        if tests:
            figures = knot_figures(card, kind)
            half = half95_mm(figures.take_up_sd_mm, figures.degrees)
            parts.append(f"{figures.take_up_mm:.1f} ± {half:.1f} mm a {kind} knot ({count_of_tests(tests)})")
    return f"{plain(card.name)} {card.diameter_mm:.4g}{layers}: {', '.join(parts) or 'no tests yet'}"


def cord_described(card: CordCard) -> str:
    """The cord and how it is worked: "waxed linen, 0.6 mm, one cord, worked with an awl"."""
    material = "" if card.material == "other" else f"{card.material}, "
    return f"{material}{card.diameter_mm:g} mm, {cords_together(card.layers)}, worked with {TOOLS[card.worked_with]}"


def count_of_tests(count: int) -> str:
    """How many tests: "no tests yet", "1 test", "3 tests"."""
    return count_of(count, "test") if count else "no tests yet"


def _tests(card: CordCard, kind: KnotKind) -> int:
    return sum(test.kind == kind for test in card.tests)


# -- what a card knows of each kind of knot ---------------------------------------------------------------------------


def take_up_mean(figures: KnotFigures) -> str:
    """The mean take-up with its 95 %, to a hundredth of a mm: what one knot is off, a necklace is off many times."""
    return f"{figures.take_up_mm:.2f} ± {half95_mm(figures.take_up_sd_mm, figures.degrees):.2f}"


def length_mean(figures: KnotFigures) -> str:
    """The mean length with its 95 %."""
    return f"{figures.length_mm:.2f} ± {half95_mm(figures.length_sd_mm, figures.degrees):.2f}"


def kind_lines(card: CordCard, kind: KnotKind) -> tuple[str, str]:
    """Take-up and length of one kind of knot, each marked where it is only an estimate."""
    figures = knot_figures(card, kind)
    lessons = [lesson for lesson in card.lessons if lesson.kind == kind]
    take_up_known = card.rows(kind) or any(lesson.take_up for lesson in lessons)
    length_known = card.touching(kind) or any(lesson.length for lesson in lessons)
    estimated = " (estimated from the diameter)"
    return (
        f"take-up {take_up_mean(figures)} mm{'' if take_up_known else estimated}",
        f"length {length_mean(figures)} mm{'' if length_known else estimated}",
    )


def known_kinds(card: CordCard) -> list[KnotKind]:
    """The kinds of knot that were tested, or that a finished piece told of."""
    known = {test.kind for test in card.tests} | {lesson.kind for lesson in card.lessons}
    return [kind for kind in KNOT_KINDS if kind in known]


def kind_line(card: CordCard, kind: KnotKind) -> str:
    """What the card knows of one kind of knot, in a line; where that is nothing, the estimate."""
    if kind in known_kinds(card):
        return f"{kind}: {', '.join(kind_lines(card, kind))}; {_behind(card, kind)}"
    figures = knot_figures(card, kind)
    means = f"take-up {take_up_mean(figures)} mm, length {length_mean(figures)} mm"
    return f"{kind}: not tested; estimated from the diameter: {means}"


def _behind(card: CordCard, kind: KnotKind) -> str:
    """What the figures of a kind rest on: "3 tests and 2 finished pieces"."""
    tests = _tests(card, kind)
    pieces = len({lesson.piece for lesson in card.lessons if lesson.kind == kind})
    counts = ((tests, "test"), (pieces, "finished piece"))
    return " and ".join(count_of(count, noun) for count, noun in counts if count)


def card_lines(card: CordCard) -> list[str]:
    """What a list says under a card's name: the kinds that are known, and which are not tested."""
    untried = [kind for kind in KNOT_KINDS if kind not in known_kinds(card)]
    rest = [f"{join_words(untried)}: not tested, estimated from the diameter"] if untried else []
    return [*tested_lines(card), *rest]


def tested_lines(card: CordCard) -> list[str]:
    """What the card knows of each kind that it knows anything of."""
    return [kind_line(card, kind) for kind in known_kinds(card)]


def narrowing_line(card: CordCard, kind: KnotKind) -> str:
    """What more test knots would do for the take-up; "" where they would not narrow it."""
    now_mm, then = narrowing(card, kind)
    (more, first_mm), *later = [(count, half_mm) for count, half_mm in then if half_mm < now_mm] or [(0, 0.0)]
    if not more:
        return ""
    knots = f"{more} more test knots would narrow the take-up to ± {first_mm:.2f} mm"
    return f"{knots}{''.join(f', {count} more to ± {half_mm:.2f} mm' for count, half_mm in later)}."


# -- a test -----------------------------------------------------------------------------------------------------------


def card_test_words(test: CardTest) -> str:
    """A test in words: "single, 10 knots: 30 cm before, 23.8 cm after, take-up 6.20 mm"."""
    parts = []
    typed = typed_parts(test)
    if test.row:
        parts += [f"{typed[0]} before", f"{typed[1]} after", f"take-up {test.row.take_up_mm:.2f} mm{_each(test.row)}"]
    if test.touching:
        parts += [f"touching row {typed[-1]}", f"length {test.touching.length_mm:.2f} mm{_each(test.touching)}"]
    return f"{test.kind}, {count_of(_measured(test).knots, 'knot')}: {', '.join(parts)}"


def _measured(test: CardTest) -> KnotTest | TouchingRow:
    some = test.row or test.touching
    assert some is not None  # a test has one of them
    return some


def _each(row: KnotTest | TouchingRow) -> str:
    return " each" if row.knots > 1 else ""


def typed_parts(test: CardTest) -> list[str]:
    """The lengths of a test as they were typed; as the ruler shows them where that is not kept."""
    lengths_mm = [test.row.before_mm, test.row.after_mm] if test.row else []
    lengths_mm += [test.touching.row_mm] if test.touching else []
    parts = [plain(part, 40) for part in test.typed.split("; ")]
    if len(parts) == len(lengths_mm) and all(parts):
        return parts
    unit = ruler_unit(_measured(test).ruler_step_mm) if lengths_mm else "mm"
    return [show(length_mm, unit) for length_mm in lengths_mm]


def ruler_unit(step_mm: float) -> DisplayUnit:
    """The unit of a ruler with that least division: inches where it is no whole or half millimetre."""
    return "mm" if (2 * step_mm).is_integer() else "in"


def card_test_lines(card: CordCard, test: CardTest) -> tuple[Notice, ...]:
    """What a test would mean, before it is taken: its own figures, the card's with it, and what more would do."""
    own = []
    if test.row:
        own.append(f"take-up {test.row.take_up_mm:.2f} mm a knot")
    if test.touching:
        own.append(f"length {test.touching.length_mm:.2f} mm a knot")
    with_it = replace(card, tests=(*card.tests, test))
    said = [f"This row: {', '.join(own)}.", f"The card would then say: {', '.join(kind_lines(with_it, test.kind))}."]
    return tuple(Notice("quiet", text) for text in (*said, narrowing_line(with_it, test.kind)) if text)


def lesson_lines(card: CordCard, learnt: tuple[Lesson, ...]) -> tuple[str, ...]:
    """For each kind of knot what the card says now, and would say then."""
    then = replace(card, lessons=(*card.lessons, *learnt))
    lines = []
    for kind in KNOT_KINDS:
        lesson = next((lesson for lesson in learnt if lesson.kind == kind), None)
        if lesson is None:
            continue
        old, new = knot_figures(card, kind), knot_figures(then, kind)
        parts = []
        if lesson.take_up:
            parts.append(f"take-up {take_up_mean(old)} → {take_up_mean(new)} mm")
        if lesson.length:
            parts.append(f"length {length_mean(old)} → {length_mean(new)} mm")
        lines.append(f"{capitalised(kind)} knot: {', '.join(parts)}.")
    return tuple(lines)
