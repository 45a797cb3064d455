"""Cord cards: one cord worked one way, with its test knots as the maker entered them, and what they come to."""

from __future__ import annotations

from math import sqrt

from msgspec import Struct

from companion.core.cord.cord import CardFigures, KnotFigures, estimate
from companion.core.cord.knot_tests import KnotTest, TouchingRow, figures_from_tests, reading_sd_mm
from companion.core.cord.lessons import Lesson, taught
from companion.core.maths.distributions import student_quantile
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, CordDesign, KnotKind, Material, Tool

MOST_DIAMETERS = 40  # more take-up than this is more likely a slip of the ruler; our own estimate
LENGTH_DIAMETERS = (1, 25)  # least and most of a knot along the strand; our own estimate
MOST_KNOTS = 1000  # of one test
MOST_NAME = 60  # columns of a card's name


class CardTest(Struct, frozen=True):
    """One test of a card: a length of cord before and after, a row of touching knots, or both; and what was typed."""

    kind: KnotKind
    row: KnotTest | None = None
    touching: TouchingRow | None = None
    typed: str = ""


class CordCard(Struct, frozen=True):
    """A cord worked one way, with its tests in the order in which they were entered."""

    name: str
    diameter_mm: float
    layers: int = 1
    material: Material = "other"
    worked_with: Tool = "awl"
    tests: tuple[CardTest, ...] = ()
    lessons: tuple[Lesson, ...] = ()  # of finished pieces

    def rows(self, kind: KnotKind) -> tuple[KnotTest, ...]:
        """The lengths before and after of one kind of knot."""
        return tuple(test.row for test in self.tests if test.kind == kind and test.row)

    def touching(self, kind: KnotKind) -> tuple[TouchingRow, ...]:
        """The rows of touching knots of one kind."""
        return tuple(test.touching for test in self.tests if test.kind == kind and test.touching)


def knot_figures(card: CordCard, kind: KnotKind, assumptions: Assumptions = USUAL) -> KnotFigures:
    """Figures of one kind of knot: from its tests, or estimated from the diameter where there are none."""
    cord, rows, touching = _cord(card), card.rows(kind), card.touching(kind)
    tried = rows or touching
    figures = (
        figures_from_tests(cord, kind, rows, touching, assumptions) if tried else estimate(cord, kind, assumptions)
    )
    return taught(figures, [lesson for lesson in card.lessons if lesson.kind == kind])


def card_figures(card: CordCard, assumptions: Assumptions = USUAL) -> CardFigures:
    """The card as plans use it: the kinds of knot that were tried."""
    tried = {test.kind for test in card.tests} | {lesson.kind for lesson in card.lessons}
    knots = tuple((kind, knot_figures(card, kind, assumptions)) for kind in KNOT_KINDS if kind in tried)
    pieces = len({lesson.piece for lesson in card.lessons})
    return CardFigures(card.name, knots, pieces, diameter_mm=card.diameter_mm, layers=card.layers)


def half95_mm(sd_mm: float, degrees: float) -> float:
    """Half the width of the interval that holds a mean with 95 %, mm."""
    return student_quantile(0.975, degrees) * sd_mm


def narrowing(
    card: CordCard, kind: KnotKind, more: tuple[int, ...] = (2, 5), assumptions: Assumptions = USUAL
) -> tuple[float, tuple[tuple[int, float], ...]]:
    """Half the 95 % interval of the mean take-up, mm: now, and after so many more test knots, each in its own length.

    The scatter of one knot is taken to stay as it is estimated now: only the number of tests grows.
    """
    now, rows = knot_figures(card, kind, assumptions), card.rows(kind)
    ruler_mm = rows[-1].ruler_step_mm if rows else assumptions.ruler_step_mm
    one = now.take_up_scatter_mm**2 + reading_sd_mm(KnotTest(0.0, 0.0, 1, ruler_mm), assumptions) ** 2
    then = []
    for count in more:
        sd_mm = 1 / sqrt(1 / now.take_up_sd_mm**2 + count / one) if now.take_up_sd_mm and one else 0.0
        degrees = assumptions.knot_scatter_degrees + len(rows) + count - 1
        then.append((count, half95_mm(sd_mm, degrees)))
    return half95_mm(now.take_up_sd_mm, now.degrees), tuple(then)


def impossible(row: KnotTest) -> bool:
    """Whether the row can't be right: knots never make a cord longer."""
    return row.after_mm > row.before_mm


def row_doubt(row: KnotTest, diameter_mm: float) -> str | None:
    """Why a row is probably wrong, as a question to the maker; None if nothing speaks against it."""
    if impossible(row):
        return "The cord is longer after the knots than before: were the two lengths swapped?"
    if row.after_mm == row.before_mm:
        return "The knots used up no cord: did you measure the second length after tying them?"
    if row.take_up_mm >= MOST_DIAMETERS * diameter_mm:
        times = row.take_up_mm / diameter_mm
        return (
            f"Each knot used up {times:.0f} times the cord's thickness; 8 to 30 is usual. Check what you measured "
            f"and counted."
        )
    return None


def card_test_doubt(test: CardTest, diameter_mm: float) -> str | None:
    """Why a test is probably wrong, from its lengths before and after or its touching row; None if nothing speaks
    against it."""
    if test.row and (question := row_doubt(test.row, diameter_mm)):
        return question
    if test.touching is None:
        return None
    times = test.touching.length_mm / diameter_mm
    if LENGTH_DIAMETERS[0] <= times <= LENGTH_DIAMETERS[1]:
        return None
    found = f"Each knot is {times:.2g} times as long as the cord is thick; 2 to 8 is usual."
    return f"{found} Check what you measured and counted."


def _cord(card: CordCard) -> CordDesign:
    return CordDesign(card.name, card.diameter_mm, card.layers, card.material, card.worked_with)
