"""Where knots go, how often the pattern comes, and the middle."""

from __future__ import annotations

import pytest

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.draft.layout import AS_TYPED, BOTH_SIDES, KNOT_RULES, layout_of
from companion.core.draft.pattern import Mirrored, PatternError, Repeated
from companion.core.values.design import Bead, Knot

P, S, KNOT = Bead("P"), Bead("S"), Knot("single")
BEADS = (BeadDraft("P"), BeadDraft("S"))


def layout(**fields: str):
    return layout_of(Draft(beads=BEADS, **fields))


@pytest.mark.parametrize(
    ("fields", "items"),
    [
        ({"pattern": "PS"}, (KNOT, Repeated(None, (P, KNOT, S, KNOT)))),
        ({"pattern": "PS", "knots": "after every bead"}, (Repeated(None, (P, KNOT, S, KNOT)),)),
        ({"pattern": "PPPPS", "knots": "after every 2nd"}, (Repeated(None, (P, P, KNOT, P, P, KNOT, S)),)),
        ({"pattern": "P S", "knots": AS_TYPED}, (Repeated(None, (P, KNOT, S)),)),
        ({"pattern": "PS", "knots": "after every bead", "times": "3"}, (Repeated(3, (P, KNOT, S, KNOT)),)),
        ({"pattern": "PS", "knots": AS_TYPED, "times": "1"}, (P, S)),
        (
            {"pattern": "P", "middle": "S"},
            (KNOT, Mirrored((Repeated(None, (P, KNOT)),), (S,)), KNOT),
        ),
        ({"pattern": "[P ]S", "knots": BOTH_SIDES, "times": "4"}, (Repeated(None, (P, KNOT)), S)),
    ],
)
def test_the_fields_of_a_pattern(fields: dict[str, str], items: tuple) -> None:
    assert layout(**fields) == items


@pytest.mark.parametrize("times", ["0", "x", "-1", "1.5", "1000000"])
def test_how_often_is_a_number(times: str) -> None:
    with pytest.raises(PatternError, match="whole number"):
        layout(pattern="P", times=times)


def test_the_rules_are_all_different() -> None:
    found = [layout(pattern="PPPPPPP", times="1", knots=rule) for rule in KNOT_RULES]
    assert len(set(found)) == len(found)
