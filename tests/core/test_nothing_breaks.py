"""Whatever is typed in, on whatever design: every sum stays a number, and every sentence can be said."""

from __future__ import annotations

from math import isfinite

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.forecast.counting import stretch_to_count
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import remedies
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, Repeat, Size, Strand
from companion.core.words.measured.cord_words import cord_is_done, cord_line, cord_word
from companion.core.words.measured.counting_words import stretch_words
from companion.core.words.measured.fault_words import fault_words
from companion.core.words.measured.join_words import join_words
from companion.core.words.measured.reading_words import reading_doubt, reading_lines
from companion.core.words.measured.verdict_words import verdict_line
from tests.examples import few_examples

BEADS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 9, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2)
LAYOUTS = {
    "one bead": (Bead("g"),),
    "one knot": (Knot("single"),),
    "no knots": (Repeat(50, (Bead("g"),)),),
    "no beads": (Repeat(12, (Knot("double"),)),),
    "usual": (Repeat(15, (Bead("g"), Knot("single"), Bead("s"), Knot("double"))),),
}
SIZES = {"no target": None, "a target": Size("length", 200.0, 0, 3.0), "no tolerance": Size("length", 200.0, 0, 0.0)}
NUMBERS = st.one_of(st.floats(0, 400), st.sampled_from([0.0, 40_000.0, 1e6, 1e-9, 25.4]))


def said(plan, piece) -> None:
    """Everything that is said of a piece."""
    outlook = Forecaster(plan, faults=True).outlook(piece)
    for expected in (outlook.finished, *(entry.free_end for entry in outlook.entries)):
        assert isfinite(expected.mean_mm)
        assert expected.sd_mm >= 0
        assert expected.low95_mm <= expected.high95_mm
    assert 0 <= outlook.p_fault <= 1
    assert all(0 <= entry.cord.p_run_out <= 1 for entry in outlook.entries)
    found = remedies(plan, piece, outlook)
    assert cord_is_done(plan, outlook) != bool(cord_line(plan, outlook).text)
    lines = [verdict_line(plan, piece, outlook), *([] if cord_is_done(plan, outlook) else [cord_line(plan, outlook)])]
    lines += reading_lines(plan, piece, outlook, outlook, "strand", 12.0)
    texts = [line.text for line in lines] + [fault_words(plan, fault) for fault in outlook.faults]
    texts += [one.text for one in found] + [cord_word(plan, outlook), join_words(plan, outlook)]
    texts.append(stretch_words(plan, stretch_to_count(plan, piece, outlook), piece.done))
    texts.append(reading_doubt(plan, piece, outlook, "free", 5.0) or "none")
    assert all(text.strip() and "nan" not in text.split() and "inf" not in text.split() for text in texts)


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("size", SIZES)
@few_examples
@given(data=st.data())
def test_odd_designs_and_odd_readings(layout, size, data) -> None:
    plan = compile_plan(Design("Odd", CORD, BEADS, (Strand(LAYOUTS[layout]),), SIZES[size]))
    done = data.draw(st.integers(0, plan.total_steps))
    reading = st.tuples(st.sampled_from(["strand", "free"]), st.integers(0, done), NUMBERS)
    taken = data.draw(st.lists(reading, max_size=5))
    readings = tuple(Measured(kind, step, mm, "") for kind, step, mm in taken)
    counted = tuple(
        Recounted(max(a, b), min(a, b), beads)
        for a, b, beads in data.draw(
            st.lists(st.tuples(st.integers(0, done), st.integers(0, done), st.integers(-2, 2)), max_size=2)
        )
    )
    said(plan, Piece(plan.total_steps, done, readings=readings, counted=counted))


def test_ten_thousand_beads() -> None:
    plan = compile_plan(Design("Long", CORD, BEADS, (Strand((Repeat(10_000, (Bead("g"), Knot("single"))),)),)))
    there = plan.strands[0].steps[5000]
    taken = (Measured("strand", 5001, there.strand_mm * 1.01, ""), Measured("free", 5001, 1e5, ""))
    said(plan, Piece(plan.total_steps, 5001, readings=taken))
