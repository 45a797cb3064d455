"""The forms of the Cords screens: a new card, and a test knot with what it would mean before it is taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Never, get_args

from companion.core.cord.cards import MOST_KNOTS, MOST_NAME, CardTest, CordCard, card_test_doubt, impossible
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.values.design import KNOT_KINDS, MOST_LAYERS, Material, Tool
from companion.core.values.measures.lengths import LengthError, unit_of, whole_number
from companion.core.values.measures.show_lengths import DisplayUnit
from companion.core.values.measures.units import SIXTEENTH_INCH_MM
from companion.core.values.text import plain
from companion.core.words.card_words import card_test_lines, ruler_unit
from companion.core.words.notices import Notice
from companion.tui.dialogs.form import Field, Form, FormJudged, Values
from companion.tui.dialogs.lengths import UNIT_WORDS, typed_mm
from companion.tui.dialogs.question import ONCE_MORE

# What a ruler may read to: its least division in mm, and the unit of the numbers on it.
RULERS: dict[str, tuple[float, DisplayUnit]] = {"1 mm": (1.0, "mm"), "1/16 in": (SIXTEENTH_INCH_MM, "in")}
LEAST_MM, MOST_MM = 0.1, 5.0  # cord thinner or thicker than this is questioned; our own estimate


class NotYet(Exception):
    """What is typed is not whole yet, or can't be: a sentence, and the line it is about."""

    def __init__(self, text: str, at: str) -> None:
        super().__init__(text)
        self.at = at

    @property
    def judged(self) -> FormJudged[Never]:
        """The same as a form says it."""
        return FormJudged(None, (Notice("quiet", str(self)),), at=self.at)


# -- a new card -------------------------------------------------------------------------------------------------------


def card_form(
    cards: Sequence[CordCard], begin_with: Values | None = None, said: tuple[Notice, ...] = ()
) -> Form[CordCard]:
    """A new cord card. `cards`: those there are; `begin_with`: what was typed before."""
    before = {"name": "", "diameter": "", "layers": "1", "material": "silk", "tool": "awl", **(begin_with or {})}

    def judge(values: Values) -> FormJudged[CordCard]:
        try:
            card = card_of(values, cards)
        except NotYet as not_yet:
            return not_yet.judged
        odd = not LEAST_MM <= card.diameter_mm <= MOST_MM
        doubt = f"Cord of {card.diameter_mm:.4g} mm is unusual. {ONCE_MORE}" if odd else ""
        next_comes = Notice("quiet", "Test knots come next: three are a good beginning.")
        return FormJudged(card, (next_comes,), doubt)

    fields = (
        Field("name", "name", before["name"], "as designs write it"),
        Field("diameter", "diameter", before["diameter"], "such as 0.6 mm"),
        Field("layers", "cords together", before["layers"]),
        Field("material", "material", before["material"], choices=get_args(Material)),
        Field("tool", "worked with", before["tool"], choices=get_args(Tool)),
    )
    return Form("New cord card", fields, judge, said=said)


def card_of(values: Values, cards: Sequence[CordCard]) -> CordCard:
    """The card as typed, without tests. Raises NotYet."""
    name = plain(values["name"], MOST_NAME)
    if not name:
        raise NotYet("A name for the cord, worked this way: such as waxed linen, doubled.", "name")
    if any(card.name.lower() == name.lower() for card in cards):
        raise NotYet(f"There is a card named {name} already: give this one a name of its own.", "name")
    if not values["diameter"].strip():
        text = "How thick is the cord? Its label says; or wind it ten times round a pencil and divide the width by ten."
        raise NotYet(f"{text} A bare number is in millimetres.", "diameter")
    diameter_mm = _length_mm(values, "diameter", "mm")
    layers = _count(values, "layers", MOST_LAYERS, "cords")
    material = next(word for word in get_args(Material) if word == values["material"])
    tool = next(word for word in get_args(Tool) if word == values["tool"])
    return CordCard(name, diameter_mm, layers, material, tool)


# -- a test knot ------------------------------------------------------------------------------------------------------


def card_test_form(card: CordCard, begin_with: Values | None = None, said: tuple[Notice, ...] = ()) -> Form[CardTest]:
    """One row of test knots. What stays from row to row is there already; the lengths are to be typed."""
    last = card.tests[-1] if card.tests else None
    some = (last.row or last.touching) if last else None
    before = {
        "kind": last.kind if last else "single",
        "knots": str(some.knots) if some else "1",
        "ruler": "1/16 in" if some and ruler_unit(some.ruler_step_mm) == "in" else "1 mm",
        "before": "",
        "after": "",
        "row": "",
        **(begin_with or {}),
    }
    fields = (
        Field("kind", "knot", before["kind"], choices=KNOT_KINDS),
        Field("knots", "how many", before["knots"]),
        Field("ruler", "ruler reads to", before["ruler"], choices=tuple(RULERS)),
        Field("before", "length before", before["before"], "of one cord"),
        Field("after", "length after", before["after"], "of the same cord, knots in it"),
        Field("row", "knots touching", before["row"], "from first to last, if measured"),
    )
    return Form(f"Test knots · {plain(card.name, 40)}", fields, _judge_card_test(card), "before", said)


def _judge_card_test(card: CordCard) -> Callable[[Values], FormJudged[CardTest]]:
    def judge(values: Values) -> FormJudged[CardTest]:
        try:
            test = card_test_of(values)
        except NotYet as not_yet:
            return not_yet.judged
        question = card_test_doubt(test, card.diameter_mm)
        if question and test.row and impossible(test.row):
            return FormJudged(None, (Notice("quiet", question),), at="before")
        if question:
            asked = (Notice("watch", question),)
            return FormJudged(test, (*asked, *card_test_lines(card, test)), f"{question} {ONCE_MORE}")
        return FormJudged(test, card_test_lines(card, test))

    return judge


def card_test_of(values: Values) -> CardTest:
    """The row as typed. Raises NotYet."""
    knots = _count(values, "knots", MOST_KNOTS, "knots")
    ruler_mm, unit = RULERS[values["ruler"]]
    typed = {key: values[key].strip() for key in ("before", "after", "row")}
    if not any(typed.values()):
        bare = f"A bare number is in {UNIT_WORDS[unit]}."
        raise NotYet(
            f"Type the length before and after, or how long a row of touching knots is, or both. {bare}", "before"
        )
    for missing, there in (("after", "before"), ("before", "after")):
        if typed[there] and not typed[missing]:
            _length_mm(values, there, unit)
            raise NotYet(f"Now the length {missing} the knots were tied.", missing)
    lengths = {key: _length_mm(values, key, unit) for key, text in typed.items() if text}
    row = KnotTest(lengths["before"], lengths["after"], knots, ruler_mm) if "before" in lengths else None
    touching = TouchingRow(lengths["row"], knots, ruler_mm) if "row" in lengths else None
    kind = next(kind for kind in KNOT_KINDS if kind == values["kind"])
    kept = "; ".join(_with_unit(typed[key], unit) for key in lengths)
    return CardTest(kind, row, touching, plain(kept, 120))


def _length_mm(values: Values, key: str, unit: DisplayUnit) -> float:
    """A typed length, mm; a bare number is in that unit. Raises NotYet."""
    try:
        return typed_mm(values[key], unit, above_zero=True)
    except LengthError as error:
        raise NotYet(str(error), key) from error


def _count(values: Values, key: str, most: int, what: str) -> int:
    try:
        count = whole_number(values[key].strip())
    except LengthError:
        count = 0
    if not 1 <= count <= most:
        raise NotYet(f"How many {what}? A whole number from 1 to {most}.", key)
    return count


def _with_unit(text: str, unit: DisplayUnit) -> str:
    """What was typed, with the unit it was taken in where it has none."""
    return text if unit_of(text) else f"{text} {unit}"
