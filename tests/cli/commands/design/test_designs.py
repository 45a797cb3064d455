"""plan, check and schema: the contract's keys and identities, on every shipped design; and that nothing is written."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

PATTERNS = sorted((Path(__file__).parents[4] / "patterns").glob("*.yaml"))


NEAR = 1e-6


STRAND_KEYS = {
    "name", "layers", "side", "strand_length_mm", "closure_length_mm", "take_up_mm", "start_tail_mm",
    "start_closure_cord_mm", "end_closure_cord_mm", "end_tail_mm", "working_allowance_mm", "margin_mm", "cut_mm",
    "run_out_risk", "beads", "knots", "steps",
}  # fmt: skip


STEP_KEYS = {"number", "kind", "text", "beads", "knot", "strand_mm", "cord_used_mm", "free_cord_mm"}


def one_kind(strand) -> bool:
    """Whether all its knots are alike, so that each swallows the same share of the whole take-up."""
    return sum(count > 0 for count in strand["knots"].values()) == 1


def test_some_strands_have_knots_of_one_kind(tallycord) -> None:
    """The step-by-step check of take-up below is worth nothing unless it applies to most designs."""
    strands = [s for path in PATTERNS for s in json.loads(tallycord("plan", path, "--json").out)["strands"]]
    assert sum(map(one_kind, strands)) > len(strands) / 2


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_the_identities_hold_in_what_is_printed(tallycord, path) -> None:
    ran = tallycord("plan", path, "--json")
    assert ran.code == 0
    plan = json.loads(ran.out)
    assert plan["format"] == 1
    whole = 0.0
    for strand in plan["strands"]:
        assert strand.keys() >= STRAND_KEYS
        parts = ("start_tail_mm", "start_closure_cord_mm", "strand_length_mm", "take_up_mm", "end_closure_cord_mm")
        parts += ("end_tail_mm", "working_allowance_mm", "margin_mm")
        assert strand["cut_mm"] == pytest.approx(strand["layers"] * sum(strand[part] for part in parts), abs=NEAR)
        before = strand["start_tail_mm"] + strand["start_closure_cord_mm"]
        beads, knots, last_string = {}, {"single": 0, "double": 0, "triple": 0}, None
        for number, step in enumerate(strand["steps"], start=1):
            assert step.keys() >= STEP_KEYS
            assert step["number"] == number
            assert step["text"].isprintable()
            free = strand["cut_mm"] / strand["layers"] - step["cord_used_mm"]
            assert step["free_cord_mm"] == pytest.approx(free, abs=NEAR)
            if step["kind"] == "string" and one_kind(strand):
                swallowed = (
                    strand["take_up_mm"] * (sum(knots.values()) + bool(step["knot"])) / sum(strand["knots"].values())
                )
                assert step["cord_used_mm"] == pytest.approx(before + step["strand_mm"] + swallowed, abs=NEAR)
            for key in step["beads"]:
                beads[key] = beads.get(key, 0) + 1
            if step["knot"]:
                knots[step["knot"]] += 1
            if step["kind"] == "string":
                last_string = step
            if step["kind"] == "start":
                assert step["strand_mm"] == 0
                assert step["cord_used_mm"] == pytest.approx(before, abs=NEAR)
        assert beads == strand["beads"]
        assert knots == strand["knots"]
        assert last_string["strand_mm"] == pytest.approx(strand["strand_length_mm"], abs=NEAR)
        made = before + strand["strand_length_mm"] + strand["take_up_mm"]
        assert last_string["cord_used_mm"] == pytest.approx(made, abs=NEAR)
        used = strand["steps"][-1]["cord_used_mm"]
        assert used == pytest.approx(made + strand["end_closure_cord_mm"], abs=NEAR)
        assert strand["run_out_risk"] == pytest.approx(0.01, abs=1e-9)
    sides = {}
    for strand in plan["strands"]:
        length = strand["strand_length_mm"] + strand["closure_length_mm"]
        sides[strand["name"]] = sides.get(strand["name"], 0.0) + length
    whole = max(sides.values())
    assert plan["finished_length_mm"] == pytest.approx(whole, abs=NEAR)
    assert plan["finished_low95_mm"] < plan["finished_length_mm"] < plan["finished_high95_mm"]


def test_shipped_designs_have_no_findings_and_cover_the_list(tallycord) -> None:
    ran = tallycord("check", *PATTERNS)
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert len(PATTERNS) >= 9
    text = {path.stem: path.read_text() for path in PATTERNS}
    assert sum("layers: 2" in t for t in text.values()) >= 2
    for word in ("leather", "double knot", "knot every: 4", "middle: [", "from the middle", "strands:", "sliding knot",
                 "endless", "space:", "triple knot", "wrist"):  # fmt: skip
        assert any(word in t for t in text.values()), word
    rope = json.loads(tallycord("plan", PATTERNS[0].with_name("bell-rock-rope.yaml"), "--json").out)
    assert sum(rope["strands"][0]["beads"].values()) >= 200


def test_a_plan_writes_nothing(tallycord, skerry, data_folder) -> None:
    tallycord("plan", skerry)
    tallycord("check", skerry)
    tallycord("schema")
    tallycord("pieces")
    tallycord("follow", skerry)
    assert not data_folder.exists()


def test_the_schema_is_json(tallycord) -> None:
    assert json.loads(tallycord("schema").out)["type"] == "object"


def test_a_plan_draws_its_picture(tallycord, skerry: Path, tmp_path: Path) -> None:
    place = tmp_path / "skerry.svg"
    assert tallycord("plan", skerry, "--picture", place).code == 0
    drawn = ElementTree.fromstring(place.read_text(encoding="utf-8"))
    assert drawn.find("{http://www.w3.org/2000/svg}title").text == "Skerry bracelet, 7 15/16 in (202 mm)"
    assert tallycord("plan", skerry, "--picture", "-").out == place.read_text(encoding="utf-8")
    ran = tallycord("plan", skerry, "--picture", place)
    assert (ran.code, ran.out) == (1, "")
    assert "is there already" in ran.err
    assert tallycord("plan", skerry, "--picture", place, "--force").code == 0


def test_check_hints_at_colours_and_shapes_that_nobody_knows_and_refuses_nothing(tallycord, skerry, tmp_path) -> None:
    text = skerry.read_text(encoding="utf-8").replace("colour: teal", "color: taeal").replace("daisy}", "dasiy}")
    design = tmp_path / "hints.yaml"
    design.write_text(text, encoding="utf-8")
    ran = tallycord("check", design)
    assert ran.code == 0
    assert '"taeal" is no colour known here' in ran.err
    assert "Did you mean teal? (bead glass)" in ran.err
    assert "Did you mean daisy? (bead silver)" in ran.err
    assert tallycord("check", skerry).err == ""
