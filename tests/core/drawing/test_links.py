"""The links of a closed piece: everything on it, once, in its order, and as long as the plan says."""

from __future__ import annotations

from collections import Counter

import pytest
from msgspec.structs import replace

from companion.core.drawing.links import chains_of
from companion.core.picture.colours import COLOUR_WORDS
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead, Space
from companion.workshop import open_at
from tests.conftest import REPO
from tests.core.hand_plans import KNOT_MM, hand_plan, skerry_elements

DESIGNS = sorted(path.stem for path in (REPO / "patterns").glob("*.yaml"))
OPEN = {"portland-bill-key-cord"}


def shipped(data_folder, name: str) -> Plan:
    plan = open_at(data_folder).plan(REPO / "patterns" / f"{name}.yaml").plan
    assert plan is not None
    return plan


@pytest.mark.parametrize("name", DESIGNS)
def test_a_closed_piece_is_as_long_as_its_plan_and_holds_all_its_beads(data_folder, name) -> None:
    plan = shipped(data_folder, name)
    chains = chains_of(plan)
    assert (not chains) == (name in OPEN)
    if chains:
        assert max(chain.length_mm for chain in chains) == pytest.approx(plan.finished_length_mm, abs=1e-6)
        on_it = Counter(link.key for chain in chains for link in chain.links if link.kind == "bead")
        planned: Counter[str] = Counter()
        for strand in plan.strands:
            planned.update(dict(strand.beads))
        assert on_it == Counter({key: count for key, count in planned.items() if count})


def test_both_sides_of_a_strand_are_one_chain_from_its_start_to_its_end(data_folder) -> None:
    plan = shipped(data_folder, "wolf-rock-necklace")
    (chain,) = chains_of(plan)
    first, second = plan.strands
    keys = [element.key for element in (*reversed(second.elements), *first.elements) if isinstance(element, Bead)]
    assert [link.key for link in chain.links if link.kind == "bead"] == keys
    assert keys[:3] == keys[:-4:-1]  # a mirror, and both ends are at the clasp


def test_several_strands_are_a_chain_each(data_folder) -> None:
    assert [round(chain.length_mm) for chain in chains_of(shipped(data_folder, "inner-farne-strands"))] == [
        403,
        424,
        446,
    ]


@pytest.mark.parametrize("closures", [("plain tail", "plain tail"), ("bead tip and clasp", "plain tail")])
def test_what_ends_in_a_tail_is_never_closed(closures) -> None:
    assert chains_of(hand_plan(closures=closures)) == ()


@pytest.mark.parametrize(
    ("closure", "beside", "over"),
    [
        ("bead tip and clasp", "round", ["ring"]),
        ("French wire and clasp", "coil", ["ring"]),
        ("knotted to the clasp", "tube", ["ring"]),
        ("loop and button", "tube", ["loop", "round"]),
        ("sliding knot", "", ["coil"]),
        ("endless", "", []),
    ],
)
def test_what_closes_it(closure, beside, over) -> None:
    plan = hand_plan(closures=(closure, closure))
    closing_mm = 24.0 if beside else 0.0
    plan = replace(plan, strands=(replace(plan.strands[0], closure_length_mm=closing_mm, finding="brass button"),))
    (chain,) = chains_of(plan)
    each = (len(chain.links) - len(skerry_elements())) // 2
    start, end = chain.links[:each], chain.links[len(chain.links) - each :]
    assert start == tuple(reversed(end))
    own_mm = KNOT_MM if closure == "French wire and clasp" else 0.0  # one knot more among the beads, beside theirs
    assert sum(link.length_mm for link in start) == pytest.approx((closing_mm - own_mm) / 2)
    assert start[-1:] == () if not beside else start[-1].form == beside
    assert [link.form for link in chain.clasp] == over
    assert {link.colour for link in chain.clasp if link.kind == "finding"} <= {COLOUR_WORDS["brass"]}


def test_bare_cord_is_in_pieces_that_bend() -> None:
    (chain,) = chains_of(hand_plan((Space(61.0), *skerry_elements()), closures=("endless", "endless")))
    bare = [link for link in chain.links if link.kind == "bare"]
    assert sum(link.length_mm for link in bare) == pytest.approx(61.0)
    assert len(set(bare)) == 1
    assert bare[0].length_mm < 5


def test_nothing_has_no_chain() -> None:
    assert chains_of(hand_plan((), closures=("endless", "endless"))) == ()


def test_each_link_knows_how_many_beads_are_on_before_it(data_folder) -> None:
    """In the order of the work, strand by strand; of two sides the second one goes the other way."""
    (one,) = chains_of(hand_plan(closures=("bead tip and clasp", "bead tip and clasp")))
    beads = [order for link, order in zip(one.links, one.order, strict=True) if link.kind == "bead"]
    assert beads == list(range(23))
    (sides,) = chains_of(shipped(data_folder, "wolf-rock-necklace"))
    beads = [order for link, order in zip(sides.links, sides.order, strict=True) if link.kind == "bead"]
    assert beads == [*reversed(range(21, 41)), *range(21)]
    assert (sides.order[0], sides.order[-1]) == (41, 41)
    strands = chains_of(shipped(data_folder, "inner-farne-strands"))
    assert [(min(chain.order), max(chain.order)) for chain in strands] == [(0, 46), (46, 85), (85, 126)]
