"""Whether the cord will reach, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.outlook import CordCheck, Fault
from companion.core.journal.piece import Piece
from companion.core.words.measured.cord_words import cord_line, cord_word
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
RUNS_OUT = CordCheck("runs out", 0.7, 21, 120.0, 0.2, 20)
HELD = CordCheck("short to hold", 0.01, None, 14.0, 0.9)


@pytest.mark.parametrize(
    ("cord", "said", "word", "short"),
    [
        (ENOUGH, "Enough cord.", "enough", "enough"),
        (
            SCANT,
            "△ Tight: 8 % chance of running out of cord. To be safe you need another 14 mm of each cord.",
            "tight",
            "tight",
        ),
        (
            RUNS_OUT,
            "▲ 2 in 3 that the cord ends before the last knot, near bead 20. To be safe you need "
            "another 12 cm of each cord.",
            "ends near bead 20",
            "ends, bead 20",
        ),
        (
            replace(RUNS_OUT, p_run_out=0.97, short_mm=0.0),
            "▲ Almost certainly the cord ends before the last knot, near bead 20.",
            "ends near bead 20",
            "ends, bead 20",
        ),
        (
            HELD,
            "△ The cord reaches the last knot, but little of it is left. To be safe you need another "
            "14 mm of each cord. Go on with tweezers: they hold a short end, and a needle draws it through.",
            "short to hold",
            "short to hold",
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
    assert cord_line(plan, seen(plan, SCANT, cut)).detail.startswith("It seems shorter than it should be. ")
    assert "seems" not in cord_line(plan, seen(plan, SCANT, replace(cut, p=0.4))).text


def test_enough_that_rests_on_a_doubted_reading_is_to_be_watched(plan) -> None:
    misread = Fault("misread", 0.7, 0, 18, 18, "free", -9.0)
    notice = cord_line(plan, seen(plan, ENOUGH, misread))
    assert notice.level == "watch"
    assert notice.text == (
        "Enough cord. Measure the leftover cord again: your reading after step 18 is well below what was expected."
    )
    for other in (replace(misread, off_mm=9.0), replace(misread, detail="strand"), replace(misread, p=0.4)):
        assert cord_line(plan, seen(plan, ENOUGH, other)).text == "Enough cord."
