"""A pattern as it is typed: read, written again, and refused with its place."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.draft.pattern import (
    BareCord,
    Mirrored,
    PatternError,
    Repeated,
    has_groups,
    pattern_text,
    read_pattern,
)
from companion.core.values.design import Bead, BeadRun, Knot, Mirror, Repeat, Space

P, S, KNOT = Bead("P"), Bead("S"), Knot("single")
LETTERS = ("P", "S")


@pytest.mark.parametrize(
    ("typed", "items"),
    [
        ("PPS", (P, P, S)),
        ("p s", (P, KNOT, S)),
        ("P-S·P", (P, KNOT, S, KNOT, P)),
        ("P=S#", (P, Knot("double"), S, Knot("triple"))),
        ("P  S", (P, KNOT, KNOT, S)),
        (" [P ]", (KNOT, Repeated(None, (P, KNOT)))),
        ("[P S]x3P", (Repeated(3, (P, KNOT, S)), P)),
        ("<[P ]S |P>", (Mirrored((Repeated(None, (P, KNOT)), S, KNOT), (P,)),)),
        ("<P >", (Mirrored((P, KNOT)),)),
        ("{60 mm}P", (BareCord("60 mm"), P)),
        ("{30 P, knot every 4}", (BeadRun("P", 30, 4),)),
        ("{fit s}", (BeadRun("S", None, None),)),
    ],
)
def test_what_is_typed(typed: str, items: tuple) -> None:
    assert read_pattern(typed, LETTERS) == items


@pytest.mark.parametrize(
    ("typed", "place", "words"),
    [
        ("", 0, "Type a pattern"),
        ("PPQ", 2, "No bead has the letter 'Q'. There is P, S."),
        ("P[PS", 1, "Close the [ with a ]."),
        ("P[]", 1, "between the brackets"),
        ("<P|S", 0, "Close the < with a >."),
        ("<|S>", 0, "a side between"),
        ("P]", 1, "']'"),
        ("{10 mm", 0, "Close the { with a }."),
        ("[P]x0", 0, "once or more"),
        ("[" * 20, 13, "At most 12"),
        ("{3 Q}", 0, "'Q'"),
        ("P\x1bS", 1, "No bead"),
    ],
)
def test_what_is_no_pattern_says_where(typed: str, place: int, words: str) -> None:
    with pytest.raises(PatternError) as refused:
        read_pattern(typed, LETTERS)
    assert words in str(refused.value)
    assert refused.value.place == place


def test_without_beads_the_letters_are_asked_for() -> None:
    with pytest.raises(PatternError, match="Describe a bead first"):
        read_pattern("P", ())


SINGLE = st.one_of(
    st.sampled_from([P, S]), st.sampled_from([Knot("single"), Knot("double"), Knot("triple")]), st.just(Space(10.0)),
    st.builds(BeadRun, st.just("P"), st.one_of(st.none(), st.integers(1, 99)), st.one_of(st.none(), st.integers(1, 9))),
)  # fmt: skip
ITEMS = st.recursive(
    SINGLE,
    lambda inner: st.one_of(
        st.builds(Repeat, st.one_of(st.none(), st.integers(1, 99)), st.lists(inner, min_size=1, max_size=4).map(tuple)),
        st.builds(Mirror, st.lists(inner, min_size=1, max_size=4).map(tuple), st.lists(inner, max_size=3).map(tuple)),
    ),
    max_leaves=12,
)


def as_typed(item):
    """What the reader gives for an item of a design."""
    match item:
        case Space(length_mm=length_mm):
            return BareCord(f"{length_mm:g} mm")
        case Repeat(count=count, of=of):
            return Repeated(count, tuple(map(as_typed, of)))
        case Mirror(side=side, middle=middle):
            return Mirrored(tuple(map(as_typed, side)), tuple(map(as_typed, middle)))
        case _:
            return item


@given(st.lists(ITEMS, min_size=1, max_size=6))
def test_written_and_read_again_it_is_the_same(items) -> None:
    text = pattern_text(items, {"P": "P", "S": "S"})
    assert read_pattern(text, LETTERS) == tuple(map(as_typed, items))


@given(st.text(alphabet="PSps -=#[]<>|{}x0123456789,fit kno", max_size=30))
def test_anything_typed_is_read_or_refused(text: str) -> None:
    assert refused_at(text) in range(-1, len(text) + 1)


def refused_at(text: str) -> int:
    """Where it is refused; -1: it is read."""
    try:
        return -1 if read_pattern(text, LETTERS) else len(text)
    except PatternError as refused:
        return refused.place if str(refused) else -2


def test_what_says_all_itself() -> None:
    assert has_groups("[P ]")
    assert not has_groups("PP S=")
