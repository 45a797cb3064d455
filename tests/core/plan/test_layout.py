"""Elements one at a time are the elements all at once, from either end."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from companion.core.plan.layout import expand, in_order
from companion.core.values.design import Bead, BeadRun, Knot, Mirror, Repeat, Space

ELEMENTS = st.sampled_from([Bead("a"), Bead("b"), Knot("single"), Knot("double"), Space(3.0)])
COUNTS = st.one_of(st.none(), st.integers(1, 4))
ITEMS = st.recursive(
    st.one_of(ELEMENTS, st.builds(BeadRun, st.just("a"), COUNTS, st.one_of(st.none(), st.integers(1, 3)))),
    lambda inner: st.one_of(
        st.builds(Repeat, COUNTS, st.lists(inner, min_size=1, max_size=3).map(tuple)),
        st.builds(Mirror, st.lists(inner, min_size=1, max_size=3).map(tuple), st.lists(inner, max_size=2).map(tuple)),
    ),
    max_leaves=8,
)


@given(st.lists(ITEMS, min_size=1, max_size=4), st.integers(1, 4))
def test_one_at_a_time_is_all_at_once(items, fit) -> None:
    whole = expand(items, fit)
    assert list(in_order(items, fit)) == whole
    assert list(in_order(items, fit, backward=True)) == whole[::-1]
