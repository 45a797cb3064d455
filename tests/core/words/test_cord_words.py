"""Whether the cord will reach, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.outlook import CordCheck, Fault
from companion.core.journal.piece import Piece
from companion.core.words.cord_words import cord_line, cord_word
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import G, K, planned


@pytest.fixture
def plan():
    return planned([*[G, K] * 25], 200.0)


def seen(plan, cord, *faults):
    outlook = forecast(plan, Piece(plan.total_steps, 18))
    return replace(outlook, entries=(replace(outlook.entries[0], cord=cord),), faults=faults)


ENOUGH = CordCheck("enough", 0.001, None, 0.0)
SCANT = CordCheck("scant", 0.08, None, 14.0)
RUNS_OUT = CordCheck("runs out", 0.7, 21, 120.0)


@pytest.mark.parametrize(
    ("cord", "said", "word", "short"),
    [
        (ENOUGH, "Enough cord.", "enough", "enough"),
        (
            SCANT,
            "△ Scant: 8 % that the cord runs out. To be sure of it, 14 mm a layer is missing.",
            "scant",
            "scant",
        ),
        (
            RUNS_OUT,
            "▲ Runs out near step 21: 70 % that the cord runs out. To be sure of it, 12 cm a layer is missing.",
            "runs out near step 21",
            "out near 21",
        ),
        (
            replace(RUNS_OUT, step=None, short_mm=0.0),
            "▲ Runs out: 70 % that the cord runs out.",
            "runs out",
            "runs out",
        ),
    ],
)
def test_each_verdict(plan, cord, said, word, short) -> None:
    outlook = seen(plan, cord)
    assert str(cord_line(replace(plan, unit="cm" if "12 cm" in said else "mm"), outlook)) == said
    assert cord_word(plan, outlook) == word
    assert cord_word(plan, outlook, short=True) == short


def test_a_cord_that_seems_cut_shorter_says_so(plan) -> None:
    cut = Fault("cut shorter", 0.6, 0, 1, 18)
    assert cord_line(plan, seen(plan, SCANT, cut)).detail.endswith(" It seems shorter than it should be.")
    assert "seems" not in cord_line(plan, seen(plan, SCANT, replace(cut, p=0.4))).text


def test_enough_that_rests_on_a_doubted_reading_is_to_be_watched(plan) -> None:
    misread = Fault("misread", 0.7, 0, 18, 18, "free", -9.0)
    notice = cord_line(plan, seen(plan, ENOUGH, misread))
    assert notice.level == "watch"
    assert notice.text == "Enough cord only if the free-cord reading after step 18 is wrong: read it again."
    for other in (replace(misread, off_mm=9.0), replace(misread, detail="strand"), replace(misread, p=0.4)):
        assert cord_line(plan, seen(plan, ENOUGH, other)).text == "Enough cord."
