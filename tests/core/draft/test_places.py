"""Where each element of a strand stands in its pattern, and the pattern changed there."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft, StrandDraft
from companion.core.draft.layout import layout_of
from companion.core.draft.pattern import Mirrored, Repeated, Typed, read_pattern, typed_text
from companion.core.draft.places import (
    edited,
    item_at,
    move_by,
    next_kind,
    places_of,
    put_after,
    put_before,
    put_in_place,
    reach_of,
    rewritten,
    take_out,
)
from companion.core.plan.layout import expand
from companion.core.values.design import Bead, BeadRun, Knot, Mirror, Repeat

LETTERS = ("P", "S", "G")
PATTERNS = ("P P S ", " <[G ]S |G> ", "=[S=P=]S=", "{7 P, knot every 3}G", "[[P ]x5S ]", "<[P ]x2|<S |G>>P", "<P S>")


def items_of(text: str) -> tuple[Typed, ...]:
    return read_pattern(text, LETTERS)


def paths_of(items: tuple[Typed, ...], fit: int) -> list[tuple[int, ...]]:
    return [place.path for place in places_of(items, fit)]


def as_layout(items: tuple[Typed, ...]) -> list[object]:
    found: list[object] = []
    for item in items:
        match item:
            case Repeated(count=count, of=of):
                found.append(Repeat(count, tuple(as_layout(of))))
            case Mirrored(side=side, middle=middle):
                found.append(Mirror(tuple(as_layout(side)), tuple(as_layout(middle))))
            case _:
                found.append(item)
    return found


@pytest.mark.parametrize("fit", [1, 2, 5])
@pytest.mark.parametrize("text", PATTERNS)
def test_every_element_of_the_plan_has_its_path(text: str, fit: int) -> None:
    items = items_of(text)
    elements, paths = expand(as_layout(items), fit), paths_of(items, fit)
    assert len(elements) == len(paths)
    for element, path in zip(elements, paths, strict=True):
        item = item_at(items, path)
        assert item == element or (isinstance(item, BeadRun) and element in (Bead(item.key), Knot("single")))


@settings(max_examples=100)
@given(st.sampled_from(PATTERNS), st.integers(0, 30), st.sampled_from([take_out, put_after(Bead("G")), move_by(1)]))
def test_a_change_shows_wherever_its_place_comes_and_nowhere_else(text: str, at: int, edit: object) -> None:
    items = items_of(text)
    paths = paths_of(items, 3)
    path = paths[at % len(paths)]
    changed = edited(items, path, edit)
    difference = len(expand(as_layout(changed), 3)) - len(paths)
    times = paths.count(path)
    if edit is take_out:
        assert difference == -times
    elif edit is not take_out and difference:
        assert difference == times or isinstance(item_at(items, path), BeadRun)


@pytest.mark.parametrize(
    ("text", "at", "edit", "wanted"),
    [
        ("[PPS ]", 5, put_before(Bead("G")), "[PGPS ]"),
        ("[PPS ]", 5, take_out, "[PS ]"),
        ("[PPS ]", 6, move_by(1), "[PP S]"),
        ("[PPS ]", 7, move_by(1), "[PPS ]"),
        ("P[S]x3P", 2, take_out, "PP"),
        ("<P S|G>", 0, put_after(Knot("double")), "<P= S|G>"),
        ("<P S|G>", 6, take_out, "< S|G>"),
        ("<P|G>", 2, take_out, "G"),
        ("<P|G>", 1, take_out, "<P>"),
        ("P P", 1, put_in_place(Knot("triple")), "P#P"),
    ],
)
def test_done_in_the_place(text: str, at: int, edit: object, wanted: str) -> None:
    items = items_of(text)
    assert typed_text(edited(items, paths_of(items, 3)[at], edit)) == wanted


@pytest.mark.parametrize(
    ("text", "at", "repeats", "mirror"),
    [
        ("PP", 0, False, False),
        ("[PP]x4S", 2, True, False),
        ("[PP]x4S", 8, False, False),
        ("<[P ]S|G>", 0, True, True),
        ("<[P ]S|G>", 2, False, True),
        ("<PS|G>", 2, False, False),
        ("[PS]x1", 0, False, False),
    ],
)
def test_what_changes_with_it(text: str, at: int, repeats: bool, mirror: bool) -> None:
    items = items_of(text)
    reach = reach_of(items, paths_of(items, 1)[at])
    assert (reach.repeats, reach.mirror) == (repeats, mirror)


def test_the_far_side_of_a_mirror_lies_the_other_way_round() -> None:
    places = places_of(items_of("<PS|G>P"), 1)
    assert [place.backward for place in places] == [False, False, False, True, True, False]
    nested = places_of(items_of("<<PS>|G>"), 1)  # a mirror within a side reads the same from either end
    assert [place.backward for place in nested] == [False, False, True, True, False, False, False, True, True]


def test_the_next_kind() -> None:
    assert next_kind(Knot("single"), LETTERS) == Knot("double")
    assert next_kind(Knot("triple"), LETTERS) == Knot("single")
    assert next_kind(Bead("G"), LETTERS) == Bead("P")
    assert next_kind(Bead("P"), ("P",)) is None
    assert next_kind(BeadRun("G", 4), LETTERS) == BeadRun("P", 4)  # all of them


def test_a_pattern_written_out_says_the_same() -> None:
    draft = Draft(beads=tuple(map(BeadDraft, "PS")), pattern="PPS", middle="S", others=(StrandDraft("lower", "P"),))
    for number in (0, 1):
        items = layout_of(draft, number)
        written = rewritten(draft, number, items)
        assert written is not None
        assert layout_of(written, number) == items
    assert rewritten(draft, 0, ()) is None
    assert replace(draft, pattern="x").others == draft.others
