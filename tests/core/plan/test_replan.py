"""Chosen for the rest: what is made stays, what is left is worked out anew, and the sums still hold."""

from __future__ import annotations

import json

import pytest

from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import Changed, Confirmed, Started
from companion.core.journal.fold import after, fold, undo_of
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import changed_plan, with_rest
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Strand,
)
from companion.core.values.element_codes import from_code, to_code
from companion.core.values.errors import NotPossible
from tests.core.oracles.plan_checks import check_identities
from tests.core.random_designs import random_design

G, K = Bead("g"), Knot("single")
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0),)


def plan_of(repeats: int):
    return compile_plan(Design("Light", CORD, KINDS, (Strand((Repeat(repeats, (G, K)),)),), Size("length", 200.0)))


def test_one_more_is_the_plan_that_had_one_more() -> None:
    """The plan of 26 repeats, but for its cut: the cord of 25 is cut already."""
    old, wanted = plan_of(25), plan_of(26)
    new = with_rest(old, 0, (*old.strands[0].elements, G, K))
    (mine,), (other,) = new.strands, wanted.strands
    assert (mine.elements, mine.beads, mine.knots) == (other.elements, other.beads, other.knots)
    assert mine.strand_length_mm == pytest.approx(other.strand_length_mm)
    assert mine.take_up_mm == pytest.approx(other.take_up_mm)
    assert new.finished_length_mm == pytest.approx(wanted.finished_length_mm)
    assert new.finished_high95_mm == pytest.approx(wanted.finished_high95_mm)
    assert mine.need_sd_mm == pytest.approx(other.need_sd_mm)
    assert [step.text for step in mine.steps][1:] == [step.text for step in other.steps][1:]  # the first says the cut
    assert mine.cut_mm == old.strands[0].cut_mm
    assert mine.margin_mm == pytest.approx(old.strands[0].margin_mm - 14)  # 8 of strand and 6 of take-up
    assert mine.run_out_risk > old.strands[0].run_out_risk
    check_identities(new)


def test_the_same_rest_is_the_same_plan() -> None:
    for seed in range(60):
        plan = compile_plan(random_design(seed))
        for entry, strand in enumerate(plan.strands):
            again = with_rest(plan, entry, strand.elements)
            for mine, other in zip(again.strands[entry].steps, strand.steps, strict=True):
                assert (mine.text, mine.beads, mine.knot, mine.elements) == (
                    other.text, other.beads, other.knot, other.elements,
                )  # fmt: skip
                assert mine.free_cord_mm == pytest.approx(other.free_cord_mm, abs=1e-6)
                assert mine.strand_mm == pytest.approx(other.strand_mm, abs=1e-6)
            assert again.finished_length_mm == pytest.approx(plan.finished_length_mm)
            assert again.strands[entry].margin_mm == pytest.approx(strand.margin_mm, abs=1e-6)
            assert again.strands[entry].run_out_risk == pytest.approx(strand.run_out_risk, abs=1e-9)
            assert again.longest == plan.longest
            assert again.target_mm == pytest.approx(plan.target_mm)


def test_codes_there_and_back() -> None:
    for seed in range(40):
        for strand in compile_plan(random_design(seed)).strands:
            assert tuple(from_code(to_code(element)) for element in strand.elements) == strand.elements
    for nothing in ("bead", "", None, True, ["=b"]):
        with pytest.raises(ValueError, match=r"no element|a number is expected"):
            from_code(nothing)


def test_a_change_folds_and_is_taken_back_like_a_step() -> None:
    old = plan_of(25)
    change = Changed(
        0, 6, tuple(to_code(e) for e in (*old.strands[0].elements[6:], G, K)), 1.5, old.total_steps + 1, "more"
    )
    kind, values = event_to_document(change)
    assert event_from_document(kind, json.loads(json.dumps(values))) == change
    piece = fold([Started(old.total_steps), Confirmed(1), Confirmed(2), change, Confirmed(3)])
    assert (piece.done, piece.total_steps, piece.changes) == (3, old.total_steps + 1, (change,))
    new = changed_plan(old, piece.changes)
    assert new.total_steps == piece.total_steps
    assert new.strands[0].closure_length_mm == pytest.approx(old.strands[0].closure_length_mm + 1.5)
    for done, changes in ((2, 1), (2, 0), (1, 0), (0, 0)):
        piece = after(piece, undo_of(piece))
        assert (piece.done, len(piece.changes)) == (done, changes)
    assert piece.total_steps == old.total_steps
    with pytest.raises(NotPossible):
        undo_of(piece)


def test_two_entries_change_together_and_an_end_takes_another_closure() -> None:
    strand = Strand((Repeat(9, (G, K)),), work="from the middle")
    old = compile_plan(Design("Light", CORD, KINDS, (strand,), Size("wrist", 90.0)))
    first, second = (tuple(to_code(element) for element in one.elements) for one in old.strands)
    more = ((1, 0, (*second, "=g", "single")),)
    change = Changed(0, 2, (*first[2:], "=g", "single"), 4.0, 0, "a pair", more, "cord end and clasp")
    new = changed_plan(old, (change,))
    check_identities(new)
    assert [len(one.elements) - len(was.elements) for one, was in zip(new.strands, old.strands, strict=True)] == [2, 2]
    assert new.finished_length_mm == pytest.approx(old.finished_length_mm + 2 * 8 + 4)
    end = new.strands[0]
    assert (end.end_closure, end.end_closure_cord_mm, end.end_tail_mm) == ("cord end and clasp", 8, 20)
    assert end.steps[-1].text.startswith("Cut both cords square, 8 mm beyond the strand")
    assert new.strands[1].end_closure == old.strands[1].end_closure


def test_the_target_of_a_wrist_goes_with_the_beads() -> None:
    """As a fresh plan of the changed layout has it."""
    kinds = (BeadKind("g", "Glass", 6, 6), BeadKind("p", "Pea", 4, 12))

    def plan_with(extra: tuple) -> object:
        return compile_plan(
            Design("Light", CORD, kinds, (Strand((Repeat(10, (G, K)), *extra)),), Size("wrist", 150.0, 10))
        )

    old, wanted = plan_with(()), plan_with((Bead("p"), K))
    new = with_rest(old, 0, (*old.strands[0].elements, Bead("p"), K))
    assert new.target_mm == pytest.approx(wanted.target_mm)
    assert new.target_mm > old.target_mm + 1


def test_a_mirror_may_be_changed_too() -> None:
    plan = compile_plan(
        Design("Light", CORD, KINDS, (Strand((Mirror((Repeat(5, (G, K)),), (G,)),)),), Size("length", 90.0))
    )
    check_identities(with_rest(plan, 0, plan.strands[0].elements[:-2]))


@pytest.mark.parametrize(
    ("closure", "step"), [("bead tip and clasp", -1), ("French wire and clasp", 0), ("cord end and clasp", -1)]
)
def test_the_step_that_fits_the_clasp_says_how_much_longer_it_is_to_be(closure, step) -> None:
    end = End(closure)
    plan = compile_plan(Design("Light", CORD, KINDS, (Strand((Repeat(20, (G, K)),), end, end),), unit="mm"))
    rest = tuple(to_code(element) for element in plan.strands[0].elements[10:])
    longer, shorter = (
        "3 mm longer than planned: a longer clasp, or a ring.",
        "2 mm shorter than planned: a shorter clasp.",
    )
    for closure_mm, said in ((3.0, longer), (-2.0, shorter)):
        new = changed_plan(plan, (Changed(0, 10, rest, closure_mm, plan.total_steps, ""),))
        before, after = ([one.text for one in p.strands[0].steps if one.kind == "end"] for p in (plan, new))
        assert after[step] == f"{before[step]} This end is to come out {said}"
        assert [a for n, a in enumerate(after) if a != before[n]] == [after[step]]
