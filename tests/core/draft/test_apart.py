"""A repeat or a place of a run let stand apart: nothing lies otherwise than before, and it is alone there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.draft.apart import stood_apart
from companion.core.draft.pattern import Mirrored, Repeated, read_pattern, typed_text
from companion.core.draft.places import places_of, reach_of
from companion.core.values.design import Bead, BeadRun, Knot

LEAF = st.sampled_from([Bead("P"), Bead("S"), Knot("single"), Knot("double")])
RUN = st.builds(BeadRun, st.sampled_from("PS"), st.integers(1, 9), st.sampled_from([None, 1, 2, 4]))
ITEM = st.recursive(
    LEAF | RUN,
    lambda inner: (
        st.builds(Repeated, st.integers(1, 4), st.lists(inner, min_size=1, max_size=3).map(tuple))
        | st.builds(
            Mirrored, st.lists(inner, min_size=1, max_size=3).map(tuple), st.lists(inner, max_size=2).map(tuple)
        )
    ),
    max_leaves=8,
)


def written_out(items, fit=1) -> list:
    """Every bead and knot in its order, by a way of its own."""
    found = []
    for item in items:
        if isinstance(item, Repeated):
            found += written_out(item.of, fit) * (fit if item.count is None else item.count)
        elif isinstance(item, Mirrored):
            side = written_out(item.side, fit)
            found += [*side, *written_out(item.middle, fit), *side[::-1]]
        elif isinstance(item, BeadRun):
            for number in range(1, (fit if item.count is None else item.count) + 1):
                found.append(Bead(item.key))
                if item.knot_every and number % item.knot_every == 0:
                    found.append(Knot("single"))
        else:
            found.append(item)
    return found


@given(st.lists(ITEM, min_size=1, max_size=4), st.data())
def test_the_strand_stays_as_it_was_and_in_the_end_the_place_is_alone(items, data) -> None:
    items, before = tuple(items), written_out(items)
    element = data.draw(st.integers(0, len(before) - 1))
    for _ in range(20):
        apart = stood_apart(items, element)
        if apart is None:
            break
        assert written_out(apart) == before
        assert read_pattern(typed_text(apart), "PS")
        items = apart
    assert stood_apart(items, element) is None
    reach = reach_of(items, places_of(items)[element].path)
    assert not reach.repeats
    assert not reach.run


@pytest.mark.parametrize(
    ("pattern", "fit", "element", "apart"),
    [
        ("[P S ]", 4, 5, "P S P S [P S ]"),
        ("[P S ]", 4, 0, "P S [P S ]"),
        ("[P S ]", 4, 15, "[P S ]P S "),
        ("[P S ]", 1, 0, None),
        ("{fit P, knot every 2}", 6, 4, "{2 P, knot every 2}PP {fit P, knot every 2}"),
        ("{fit P, knot every 2}", 5, 6, "{fit P, knot every 2}P"),
        ("{9 P}", 1, 3, "{3 P}P{5 P}"),
        ("<[P ]S |P>", 3, 16, "<P [P ]S |P>"),
    ],
)
def test_what_fits_goes_on_to_be_fitted(pattern, fit, element, apart) -> None:
    found = stood_apart(read_pattern(pattern, "PS"), element, fit)
    assert (found and typed_text(found)) == apart
