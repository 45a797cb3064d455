"""Ruler readings in words: where to measure from, what one would mean, and what is believed of it."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Confirmed, Measured, Started, TakenOut
from companion.core.journal.fold import after, fold
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Space,
    Strand,
)
from companion.core.values.measures.show_lengths import show
from companion.core.words.measured.reading_words import (
    believed_line,
    expected_reading,
    reading_doubt,
    reading_lines,
    readings_lines,
    where_from,
)
from tests.core.forecast.longstone import AN_INCH_TOO_MUCH, READ, longstone, measured, reading

GLASS = BeadKind("g", "Glass", 6, 6, 1.0)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


USUAL_LAYOUT = (Repeat(30, (Bead("g"), Knot("single"))),)


def plan_of(length_mm=240.0, layout=USUAL_LAYOUT, start="plain tail"):
    return compile_plan(
        Design("Light", CORD, (GLASS,), (Strand(layout, End(start)),), Size("length", length_mm, 0, 2.0))
    )


@pytest.mark.parametrize(
    ("layout", "start", "words"),
    [
        ((Bead("g"), Knot("single")), "plain tail", "Measure from the first Glass to the end of the last one."),
        (
            (Knot("single"), Bead("g")),
            "bead tip and clasp",
            "Measure from the first knot to the end of the last one. Leave the bead tip out.",
        ),
        ((Space(5.0), Bead("g")), "plain tail", "Measure from where the bare cord begins to the end of the last one."),
        (
            (Bead("g"), Knot("single")),
            "endless",
            "Measure from the first Glass to the end of the last one. Leave the tail out.",
        ),
        (
            (Bead("g"), Knot("single")),
            "knotted to the clasp",
            "Measure from the first Glass to the end of the last one. Leave the clasp out.",
        ),
    ],
)  # fmt: skip
def test_where_the_rulers_nought_lies(layout, start, words) -> None:
    assert where_from(plan_of(layout=layout, start=start), 0) == words


@pytest.mark.parametrize(
    ("layout", "made", "words"),
    [
        ((Bead("g"), Knot("single")), 2, "Measure from the first Glass to the end of the last knot."),
        ((Bead("g"), Knot("single"), Bead("g")), 3, "Measure from the first Glass to the end of the last Glass."),
        ((Bead("g"), Knot("single"), Space(5.0)), 3, "Measure from the first Glass to the end of the bare cord."),
        ((Knot("single"), Bead("g"), Knot("single")), 1, "Measure from the first knot to the end of the last knot."),
    ],
)  # fmt: skip
def test_where_the_ruler_ends(layout, made, words) -> None:
    plan = plan_of(layout=layout)
    done = next(step.number for step in plan.strands[0].steps if step.elements == made)
    assert where_from(plan, 0, done) == words


SHORT = (Strand((Repeat(18, (Bead("g"), Knot("single"))),)),)
WIDE = compile_plan(Design("Light", CORD, (GLASS,), SHORT, Size("length", 144.0, 0, 12.0)))


def at(done, *off, plan=WIDE):
    """A piece of so many steps, with readings that are so far off the plan."""
    steps = plan.strands[0].steps
    events = [Started(plan.total_steps), *(Confirmed(number) for number in range(1, done + 1))]
    return fold([*events, *(Measured("strand", n, steps[n - 1].strand_mm + mm, "") for n, mm in off)])


def typed(piece, off_mm, plan=WIDE, keys=None):
    forecaster = Forecaster(plan, faults=True)
    length_mm = plan.strands[0].steps[piece.done - 1].strand_mm + off_mm
    supposed = forecaster.outlook(after(piece, Measured("strand", piece.done, length_mm, "")))
    return reading_lines(plan, piece, forecaster.outlook(piece), supposed, "strand", length_mm, keys or {})


def test_a_reading_that_is_too_much_to_be_the_ruler_says_what_to_look_at() -> None:
    """The length is right within 12 mm, and still a bead may be missing: the two sentences agree."""
    against, meant = typed(at(8, (4, 0.0)), -4.6, keys={"recount": "r, after Enter", "question tells": ""})
    assert (against.level, against.headline) == (
        "watch",
        "4.5 mm less than expected (40 mm): too much to be the ruler.",
    )
    assert (meant.level, meant.headline) == ("watch", "On length so far.")
    assert meant.action.startswith("Count the beads in steps 5 to 8 (r, after Enter): there should be 4.")
    assert meant.detail == ""


def test_nothing_unusual_is_said_only_where_nothing_is_wrong() -> None:
    """What is usual by itself may yet be the last straw: then the verdict speaks."""
    calm, meant = typed(at(12, (6, 0.0)), -2.2)
    assert calm.text.endswith("less than expected (72 mm): nothing unusual.")
    assert meant.level == "quiet"
    tight = compile_plan(Design("Light", CORD, (GLASS,), (Strand(USUAL_LAYOUT),), Size("length", 240.0, 0, 2.0)))
    against, meant = typed(at(12, (6, -1.0), plan=tight), -5.0, plan=tight)
    assert meant.headline == "On course for 227 ± 9 mm, 13 mm under your 240 mm."
    assert "nothing unusual" not in against.text


def test_the_only_reading_is_not_compared_with_all_readings() -> None:
    alone = after(at(8), Measured("strand", 8, 65.5, ""))
    assert believed_line(WIDE, alone, Forecaster(WIDE, faults=True).outlook(alone)) is None
    second = after(at(16, (8, 2.0)), Measured("strand", 16, WIDE.strands[0].steps[15].strand_mm - 2.0, ""))
    line = believed_line(WIDE, second, Forecaster(WIDE, faults=True).outlook(second))
    assert line is not None
    assert line.text == "You read 102 mm. All readings together make it 103 mm."


def test_what_calls_for_a_count_is_said_instead_of_what_is_believed() -> None:
    short = after(at(8, (4, 0.0)), Measured("strand", 8, 59.4, ""))
    assert believed_line(WIDE, short, Forecaster(WIDE, faults=True).outlook(short)) is None


# -- what a reading would mean, and what is believed of it afterwards -------------------------------------------------


def standing(done: int, *readings: Measured):
    """A piece with so many steps done, and what is to be expected of it."""
    plan = plan_of()
    piece = Piece(plan.total_steps, done, readings=readings)
    return plan, piece, Forecaster(plan, faults=True).outlook(piece)


ROW = {"recount": "type r"}


def told_of(length_mm: float, done: int = 20) -> str:
    """What is said of that reading before it is taken."""
    plan, piece, before = standing(done)
    read = after(piece, Measured("strand", done, length_mm, ""))
    supposed = Forecaster(plan, faults=True).outlook(read)
    return str(reading_lines(plan, piece, before, supposed, "strand", length_mm, {"recount": "type r"})[0])


def ends_mm(step: int) -> float:
    return plan_of().strands[0].steps[step - 1].strand_mm


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (19, "is where step 19 ends: is the screen one ahead (type r)?"),
        (21, "is where step 21 ends: is the screen one behind (type r)?"),
        (18, "is where step 18 ends: is the screen two ahead (type r)?"),
        (22, "is where step 22 ends: is the screen two behind (type r)?"),
    ],
)
@pytest.mark.parametrize("off_mm", [0.0, 1.0, -1.0])
def test_a_reading_that_fits_another_step_says_so(step, words, off_mm) -> None:
    length_mm = ends_mm(step) + off_mm
    assert told_of(length_mm).endswith(f"{show(length_mm, 'mm')} {words}")


@pytest.mark.parametrize(("step", "words"), [(4, "step 4 ends: is the screen one ahead?"), (6, "one behind?")])
def test_one_that_is_asked_about_before_it_is_taken_says_so_too(step, words) -> None:
    """Early on a step is a large share of the strand: the reading looks wrong, and yet only the screen may be."""
    plan, piece, before = standing(5, *(Measured("strand", n, ends_mm(n), "") for n in (3, 4, 5)))
    doubt = reading_doubt(plan, piece, before, "strand", ends_mm(step), keys={"jump": "type j"})
    assert doubt is not None
    assert doubt.endswith(f"{words} If so, first set it to step {step} (type j).")
    assert "Check the ruler" in reading_doubt(plan, piece, before, "strand", ends_mm(20))


@pytest.mark.parametrize("off_mm", [0.0, 1.5, -1.5, 4.0, -4.0, 28.0, -28.0])
def test_one_that_fits_this_step_or_none_near_it_does_not(off_mm) -> None:
    """As expected; between two steps; further off than two steps."""
    assert "is the screen" not in told_of(ends_mm(20) + off_mm)


def test_the_first_step_has_none_before_it_and_the_last_none_after_it() -> None:
    assert "is the screen" not in told_of(0.0, done=2)
    string = [step for step in plan_of().strands[0].steps if step.kind == "string"]
    last = string[-1]
    assert "is the screen" not in told_of(last.strand_mm + 8.0, done=last.number)
    assert "one ahead (type r)?" in told_of(last.strand_mm - 8.0, done=last.number)


def test_where_the_readings_before_say_otherwise_the_steps_lie_where_they_say() -> None:
    """Knots that run long: the steps before and after end further on than planned."""
    long_mm = [Measured("strand", step, ends_mm(step) * 1.06, "") for step in (8, 12, 16)]
    plan, piece, before = standing(20, *long_mm)
    here_mm = before.entries[0].strand_now.mean_mm
    assert here_mm > ends_mm(20) + 4
    length_mm = here_mm - (ends_mm(20) - ends_mm(19))
    supposed = Forecaster(plan, faults=True).outlook(after(piece, Measured("strand", 20, length_mm, "")))
    assert "where step 19 ends" in str(reading_lines(plan, piece, before, supposed, "strand", length_mm)[0])


def as_planned(kind) -> list[Measured]:
    """Three readings that agree with the plan."""
    plan = plan_of()
    ends = [(number, plan.strands[0].steps[number - 1]) for number in (8, 12, 16)]
    left_mm = plan.cuts[0].cut_mm / 2
    return [
        Measured(kind, number, step.strand_mm if kind == "strand" else left_mm - step.cord_used_mm, "")
        for number, step in ends
    ]


@pytest.mark.parametrize(("kind", "off_mm"), [("strand", -3.0), ("free", -9.0)])
def test_right_after_a_reading_what_was_read_stands_beside_what_is_believed(kind, off_mm) -> None:
    plan, piece, before = standing(20, *as_planned(kind))
    length_mm = expected_reading(plan, piece, before, kind).mean_mm + off_mm
    piece = after(piece, Measured(kind, 20, length_mm, ""))
    outlook = Forecaster(plan, faults=True).outlook(piece)
    read, believed = show(length_mm, "mm"), show(expected_reading(plan, piece, outlook, kind).mean_mm, "mm")
    assert read != believed
    said = believed_line(plan, piece, outlook)
    assert said is not None
    assert str(said) == f"You read {read}. All readings together make it {believed}."
    later = after(piece, Confirmed(21))
    assert believed_line(plan, later, Forecaster(plan, faults=True).outlook(later)) is None


@pytest.mark.parametrize("off_mm", [0.0, -8.0])
def test_it_is_not_said_where_both_agree_or_something_else_is_to_be_done(off_mm) -> None:
    plan, piece, _ = standing(20, Measured("strand", 10, ends_mm(10), ""))
    piece = after(piece, Measured("strand", 20, ends_mm(20) + off_mm, ""))
    outlook = Forecaster(plan, faults=True).outlook(piece)
    assert (outlook.verdict in ("recount", "measure again")) == bool(off_mm)
    assert believed_line(plan, piece, outlook) is None


def test_readings_that_are_taken_out_are_marked_so() -> None:
    plan, piece, _ = standing(20)
    first, second = Measured("strand", 8, 61.0, ""), Measured("free", 8, 310.0, "")
    piece = fold([first, second, TakenOut(1, first)], piece)
    assert readings_lines(plan, piece) == ["after step 8: strand 61 mm, taken out", "after step 8: cord left 310 mm"]


def test_it_is_not_said_of_a_reading_from_further_back() -> None:
    """What is believed is of where the piece stands; the reading is of another place."""
    plan, piece, _ = standing(20, *as_planned("strand"))
    piece = after(piece, Measured("strand", 18, ends_mm(18) - 3.0, ""))
    assert believed_line(plan, piece, Forecaster(plan, faults=True).outlook(piece)) is None


def test_an_inch_too_much_is_asked_once_more_and_told_as_one_story() -> None:
    plan, right = longstone(), 9 + 3 / 16
    piece = Piece(plan.total_steps, 16, readings=(reading(*READ[0]),))
    before = Forecaster(plan, faults=True).outlook(piece)
    _, slipped = measured(plan, READ[0], AN_INCH_TOO_MUCH)
    _, fine = measured(plan, READ[0], (16, right))
    mm = reading(*AN_INCH_TOO_MUCH).length_mm
    doubt = reading_doubt(plan, piece, before, "strand", mm, slipped)
    assert doubt is not None
    assert doubt.startswith("10 5/16 in is far from the ")
    assert reading_doubt(plan, piece, before, "strand", reading(16, right).length_mm, fine) is None
    against, meant = reading_lines(plan, piece, before, slipped, "strand", mm)
    assert "too much to be the ruler" not in f"{against} {meant}"
    assert meant.action == "Measure again."
