"""How knots are tied, in words: what differs by kind, tool and layers, and what must not be said."""

from __future__ import annotations

from itertools import product

import pytest
from msgspec.structs import replace

from companion.core.picture.colours import COLOUR_WORDS
from companion.core.tying.shown import BeadLook
from companion.core.values.design import KNOT_KINDS
from companion.core.words.trade.knot_lore import Beside, lore, moment_of
from tests.core.hand_plans import hand_plan

TEAL = COLOUR_WORDS["teal"]
EVERY = list(product(KNOT_KINDS, ("awl", "needle"), (1, 2, 3, 8)))


def words(kind, tool="awl", layers=1):
    told = lore(kind, tool, layers)
    return " ".join((told.title, *told.steps, *told.mistakes))


@pytest.mark.parametrize(
    ("kind", "passes"), [("single", "once."), ("double", "twice before"), ("triple", "three times")]
)
def test_each_kind_passes_the_end_through_as_often_as_its_name_says(kind, passes):
    """Common practice, no source: once, once more, twice more before tightening."""
    told = lore(kind, "awl", 1)
    assert sum("pass the end through it" in step and passes in step for step in told.steps) == 1
    assert told.title == f"{kind.capitalize()} knot"


@pytest.mark.parametrize(
    ("kind", "crossings", "word"), [("single", 3, ""), ("double", 5, "five"), ("triple", 7, "seven")]
)
def test_as_many_crossings_are_drawn_as_are_to_be_counted(kind, crossings, word):
    told = lore(kind, "awl", 1)
    assert sum(line.count("╲") for line in told.drawing[-3:-2]) == crossings
    assert any(f"count {word} crossings" in mistake for mistake in told.mistakes) == bool(word)


@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_only_the_tool_in_hand_is_spoken_of(kind):
    assert "awl" in words(kind, "awl")
    assert "needle" not in words(kind, "awl")
    assert "needle" in words(kind, "needle")
    assert "awl" not in words(kind, "needle")


@pytest.mark.parametrize(("layers", "said"), [(2, "two cords"), (3, "three cords"), (8, "eight cords")])
def test_layers_are_tied_as_one(layers, said):
    assert f"Lay the {said} side by side" in words("single", layers=layers)
    assert "One cord stands out" in words("single", layers=layers)


def test_a_single_layer_is_not_told_about_several():
    assert "cords" not in words("double", layers=1)
    assert "One cord stands out" not in words("double", layers=1)


def test_two_knots_on_one_another_are_not_called_a_double():
    assert any("two single knots, not a double" in mistake for mistake in lore("single", "awl", 1).mistakes)


@pytest.mark.parametrize(("kind", "tool", "layers"), EVERY)
def test_sentences_are_kind_short_and_few(kind, tool, layers):
    told = lore(kind, tool, layers)
    assert 5 <= len(told.steps) <= 7
    assert told.mistakes
    for sentence in (*told.steps, *told.mistakes):
        assert len(sentence) <= 130
        assert sentence.endswith(".")
        assert "!" not in sentence
        assert "{" not in sentence
        assert "please" not in sentence.lower()


def test_beads_that_are_strung_already_are_kept_away_and_the_finished_end_goes_through() -> None:
    """The end has the beads on it that are still to come, so it is the other one that passes. Common practice, no
    source."""
    told = lore("single", "awl", 1, moment=Beside(strung=True))
    assert (
        told.steps[0]
        == "Draw the next bead up close, slide the others well away, and pinch the cord just past that one."
    )
    assert "drop the finished end through it once" in told.steps[1]
    assert not any("pass the end" in step for step in told.steps)


@pytest.mark.parametrize("strung", [False, True])
@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_before_the_first_bead_no_bead_is_pushed_up_or_drawn(kind, strung) -> None:
    told = lore(kind, "awl", 1, moment=Beside(strung, first=True))
    words = " ".join(told.steps)
    assert "close to the bead" not in words
    assert "against the bead" not in words
    assert not any("by the bead" in mistake for mistake in told.mistakes)
    assert not any("█" in line for line in told.drawing)


def test_the_moment_is_read_from_the_plan() -> None:
    """Silk is strung first; the strand begins with a knot; the bead that is drawn is the one that comes before."""
    plan = hand_plan()
    strand = replace(plan.strands[0], strung_all_first=True)
    plan = replace(plan, strands=(strand,))
    step = strand.steps[0]
    assert moment_of(plan, 0, replace(step, elements=1)) == Beside(strung=True, first=True)
    glass = moment_of(plan, 0, replace(step, elements=3))
    assert (glass.strung, glass.first, glass.letter, glass.bead.form, glass.colour) == (True, False, "G", "round", TEAL)
    silver = moment_of(plan, 0, replace(step, elements=23))
    assert silver.letter == silver.bead.letter == "S"
    assert silver.bead.ratio == pytest.approx(2 / 5)  # 2 mm long and 5 mm wide


@pytest.mark.parametrize(("kind", "tool", "layers"), EVERY)
def test_what_is_drawn_is_what_is_told(kind, tool, layers) -> None:
    for left_handed in (False, True):
        shown = lore(kind, tool, layers, left_handed, Beside(strung=True, letter="S", bead=BeadLook(letter="S"))).shown
        assert (shown.name, shown.tool, shown.layers) == (f"{kind} knot", tool, layers)
        assert (shown.left_handed, shown.strung) == (left_handed, True)
        assert shown.bead == BeadLook(letter="S")
    assert lore(kind, tool, layers, moment=Beside(first=True)).shown.bead is None
