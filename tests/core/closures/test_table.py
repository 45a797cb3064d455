"""Every closure, as hands would make it: what is asked for was laid ready, and comes in the right order."""

from __future__ import annotations

from math import pi

import pytest

from companion.core.closures.joint import Joint
from companion.core.closures.loops import loop_round_mm
from companion.core.closures.preparing import cut_words, stiffener, thread_words
from companion.core.closures.table import CLOSURES
from companion.core.closures.tied import MELTING, opens_mm, raw_end, separate_cord_mm
from companion.core.cord.cord import Cord, cord_of
from companion.core.values.design import CordDesign, Material
from tests.core.outside.cords import SLIDING_CORD
from tests.core.outside.outside import rows

MATERIALS: tuple[Material, ...] = Material.__args__  # type: ignore[attr-defined]


def cord(material: Material = "silk", diameter_mm: float = 0.45, layers: int = 1, tool="awl") -> Cord:
    return cord_of(CordDesign("Dun cord", diameter_mm, layers, material, tool))


def joint(closure: str = "", end: bool = True, **others) -> Joint:
    own = {"cord": cord(), "unit": "in", "tail_mm": 100.0, "beads": ("Grey pearl",) * 3, **others}
    return Joint(**own)


def words(steps) -> str:
    return " ".join(step.text for step in steps)


@pytest.mark.parametrize("name", CLOSURES)
@pytest.mark.parametrize("layers", [1, 2, 3])
@pytest.mark.parametrize("material", MATERIALS)
def test_every_end_has_steps_that_read_as_sentences(name, layers, material) -> None:
    closure = CLOSURES[name]
    at = joint(cord=cord(material, layers=layers))
    for steps in (closure.start.steps(at), closure.end.steps(at)):
        assert steps
        assert all(step.text[0].isupper() and step.text[-1] == "." and "  " not in step.text for step in steps)
        assert not any("{" in step.text or "None" in step.text for step in steps)


@pytest.mark.parametrize("name", CLOSURES)
def test_tails_are_trimmed_once_and_at_the_end_alone(name) -> None:
    closure, at = CLOSURES[name], joint()
    assert not any(step.trims for step in closure.start.steps(at))
    assert [step.trims for step in closure.end.steps(at)].count(True) == 1


@pytest.mark.parametrize("name", CLOSURES)
def test_what_the_steps_name_is_laid_ready(name) -> None:
    """Glue, pliers, a clip, a needle: what a step asks for is among the tools."""
    closure, at = CLOSURES[name], joint()
    text = words((*closure.start.steps(at), *closure.end.steps(at))).lower()
    tools = " ".join((*closure.tools, stiffener(at.cord.material)))
    for word in ("pliers", "clip", "straw", "glue"):
        assert (word in text) <= (word in tools), word
    assert ("glue" in closure.cautions) <= ("glue" in text)
    assert "trim" not in text or "snips" in tools


@pytest.mark.parametrize("name", CLOSURES)
def test_findings_are_what_the_steps_thread_on(name) -> None:
    """A bead tip, a coil, a crimp, a button: each that is threaded on is on the list, and nothing else is."""
    closure, at = CLOSURES[name], joint(finding="")
    text = words((*closure.start.steps(at), *closure.end.steps(at))).lower()
    for finding in closure.findings(at):
        head = finding.name.split(",")[0].removesuffix(" with a shank").removesuffix(" of French wire").lower()
        assert head in text, finding


def test_french_wire_in_the_order_of_its_sources() -> None:
    """Stuller bench article, "Use of French Wire When Stringing on Silk"; S. Lupo, "Adding French Wire and Clasp to
    Silk Thread": three beads, coil, clasp; back through the bead beside the coil; at the end back through the last
    bead and a knot beside each of three, glue on these knots only, trimmed flush when dry."""
    closure, at = CLOSURES["French wire and clasp"], joint(tail_mm=152.4)
    start, end = words(closure.start.steps(at)), words(closure.end.steps(at))
    assert start.index("three Grey pearls") < start.index("coil") < start.index("clasp") < start.index("back through")
    assert "6 in of tail" in start
    order = [
        "second coil",
        "other part",
        "back through the last bead",
        "single knot",
        "next bead",
        "third",
        "glue",
        "trim both",
    ]
    places = [end.index(word) for word in order]
    assert places == sorted(places)
    assert closure.end.own_knots == closure.start.own_knots == 3


def test_knots_of_french_wire_are_counted_where_the_layout_has_none() -> None:
    at_every_bead, at_none = joint(knots_there=3), joint(knots_there=0)
    end = CLOSURES["French wire and clasp"].end
    more = end.figures(at_none), end.figures(at_every_bead)
    single = cord().single
    assert more[0].length_mm - more[1].length_mm == pytest.approx(3 * single.length_mm)
    assert more[0].cord_mm - more[1].cord_mm == pytest.approx(3 * (single.length_mm + single.take_up_mm))


@pytest.mark.parametrize(("diameter_mm", "published_mm"), rows(SLIDING_CORD))
def test_the_cord_of_a_sliding_knot_is_about_what_others_cut(diameter_mm, published_mm) -> None:
    at = joint(cord=cord("waxed cotton", diameter_mm))
    assert separate_cord_mm(at) == pytest.approx(published_mm, rel=0.1)


def test_a_bead_tip_is_threaded_before_its_knot_at_the_end() -> None:
    text = words(CLOSURES["bead tip and clasp"].end.steps(joint()))
    assert text.index("Thread on a bead tip") < text.index("double knot") < text.index("into the cup")
    assert text.index("glue") < text.index("Trim") < text.index("close both cups") < text.index("Hang the clasp")


def test_several_strands_share_one_clasp_and_one_drying() -> None:
    closure = CLOSURES["bead tip and clasp"]
    first, last = (words(closure.end.steps(joint(strand=number, strands=3))) for number in (1, 3))
    assert "glue" not in first
    assert "Hang" not in first
    assert "all six cups" in last
    assert "its own ring" in last
    found = closure.findings(joint(strands=3))
    assert [(one.name, one.count) for one in found] == [
        ("bead tip", 6),
        ("seed bead", 6),  # thin cord: its knots would pull through the cups
        ("clasp with three rings each side", 1),
    ]
    thick = closure.findings(joint(strands=3, cord=cord(diameter_mm=0.6)))
    assert "seed bead" not in [one.name for one in thick]


def test_a_doubled_cords_loop_is_its_fold() -> None:
    closure = CLOSURES["loop and button"]
    folded, single = joint(cord=cord("leather", 1.0, 2)), joint(cord=cord("leather", 1.0, 1))
    assert closure.start.figures(folded).tail_mm == 0
    assert "below the fold, so that the loop is" in words(closure.start.steps(folded))
    assert "fold is the start: it will be the loop" in thread_words(folded, closure.threading)
    assert closure.start.figures(single).tail_mm > 0
    assert "tail" not in words(closure.start.steps(folded))


@pytest.mark.parametrize("size_mm", [8.0, 15.0, 22.0])
def test_a_loop_lets_its_button_or_bead_pass_and_grows_with_it(size_mm) -> None:
    """A button passes edge on: twice its width and thickness round; a bead as it is: pi times its width (geometry)."""
    at = joint(size_mm=size_mm)
    assert loop_round_mm("button", at) > 2 * size_mm
    assert loop_round_mm("bead", at) > pi * size_mm
    assert loop_round_mm("bead", at) < 1.3 * pi * size_mm


def test_the_cord_of_a_sliding_knot_goes_by_the_cords_size() -> None:
    """About 10 in serve a 1 to 2 mm cord; wraps x pi x (two tails and itself) and both ends: common practice."""
    thin, thick = (separate_cord_mm(joint(cord=cord("cotton", mm))) for mm in (1.0, 2.0))
    assert thin == pytest.approx(5 * pi * 3 + 200)
    assert 9 * 25.4 < thin < thick < 12 * 25.4


def test_a_sliding_knot_is_tried_before_the_tails_are_knotted() -> None:
    text = words(CLOSURES["sliding knot"].end.steps(joint(tail_mm=120, closed_mm=150)))
    assert text.index("try it on") < text.index("single knot in each tail") < text.index("outside")
    assert opens_mm(joint(tail_mm=120)) == 190
    assert "13 3/8 in" in text  # 150 + 190 mm
    assert "each tail, 3 3/4 in from the wrap" in text  # 95 mm of each


def test_endless_of_slippery_cord_is_no_reef_knot() -> None:
    """Dava Bead, "Endless Strand" tip: ends run back through beads with a knot and glue between, dried overnight."""
    silk, linen = (words(CLOSURES["endless"].end.steps(joint(cord=cord(m)))) for m in ("silk", "linen"))
    assert "surgeon's knot" in silk
    assert "overnight" in silk
    assert "surgeon" not in linen


@pytest.mark.parametrize("material", MATERIALS)
def test_a_flame_only_where_the_fibre_melts(material) -> None:
    assert ("flame" in raw_end(material)) == (material in MELTING)
    assert {"nylon", "polyester"} == MELTING


def test_the_cord_is_prepared_before_it_is_cut() -> None:
    text = cut_words(joint().cord.material, "46 in", "", "")
    assert text.index("Stretch the silk") < text.index("Cut 46 in")
    assert cut_words(joint().cord.material, "46 in", "upper", "10 in").endswith(
        "Cut 46 in for the upper strand, if it is not cut yet. Cut 10 in more, for the sliding knot."
    )
    assert "needle on the fold" in thread_words(joint(cord=cord(layers=2)), "start to end")
    assert "three equal lengths" in thread_words(joint(cord=cord(layers=3)), "start to end")


# -- the length can still be changed ----------------------------------------------------------------------------------

FAST = {  # the words after which the length stays as it is
    "bead tip and clasp": "Tie a double knot",
    "French wire and clasp": "Tie a single knot",
    "knotted to the clasp": "glue",
    "cord end and clasp": "square",
    "crimp and clasp": "Squeeze",
    "loop and button": "double knot",
    "loop and bead": "double knot",
    "sliding knot": "Tie a single knot in each tail",
    "endless": "Tie them together",
}


@pytest.mark.parametrize("name", FAST)
@pytest.mark.parametrize("finding", ["", "toggle clasp"])
@pytest.mark.parametrize("material", ["silk", "linen", "leather"])
def test_it_is_tried_on_before_the_end_is_made_fast(name, finding, material) -> None:
    """Common practice, no source: a piece that is closed is tried on too late."""
    text = words(CLOSURES[name].end.steps(joint(cord=cord(material), finding=finding)))
    assert text.lower().count("try it on") + text.count("try the piece on") == 1
    assert max(text.find("ry it on"), text.find("try the piece on")) < text.index(FAST[name])


def test_every_closure_that_ends_a_piece_has_its_last_moment() -> None:
    assert set(CLOSURES) == {*FAST, "plain tail"}  # plain tails are tied on, and can be untied


@pytest.mark.parametrize("name", [name for name in CLOSURES if CLOSURES[name].first_side])
def test_the_first_side_is_not_tried_on(name) -> None:
    """Its other end has not been begun; the clasp's other part, the glue and the trimming are for then."""
    closure = CLOSURES[name]
    first = words(closure.first_side(joint(first_side=True, from_middle=True)))
    assert "ry it on" not in first
    assert not any(step.trims for step in closure.first_side(joint(first_side=True, from_middle=True)))
    last = (closure.second_side or closure.end.steps)(joint(from_middle=True))
    assert [step.trims for step in last].count(True) == 1


@pytest.mark.parametrize("name", ["French wire and clasp", "knotted to the clasp", "crimp and clasp"])
def test_each_side_has_its_own_part_of_the_clasp(name) -> None:
    closure = CLOSURES[name]
    for finding, one, other in (("", "one part of the clasp", "the other part"), ("toggle", "toggle's ring", "'s bar")):
        first = words(closure.first_side(joint(first_side=True, finding=finding)))
        last = words(closure.end.steps(joint(finding=finding)))
        assert one in first
        assert other not in first
        assert other in last


def test_a_loop_that_is_made_last_folds_the_ends_back() -> None:
    """Worked from the middle, a doubled cord is cut in two: no fold is left to be the loop."""
    closure, at = CLOSURES["loop and button"], joint(cord=cord("linen", 0.9, 2), from_middle=True, tail_mm=60)
    text = words(closure.second_side(at))
    assert text.startswith("Fold both cords back")
    assert "below the fold" not in text
    assert text.index("Try it on") < text.index("tighten the knot") < text.index("tug") < text.index("trim")
    assert closure.start.figures(at).tail_mm == 60
