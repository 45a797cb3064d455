"""compare and reach: what they print, for people, for the ear and for programs; exit codes; nothing is written."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta

import pytest

from companion.workshop import open_at


def test_compare_prints_the_tables(tallycord, skerry, data_folder) -> None:
    ran = tallycord("compare", skerry)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Skerry bracelet · wrist 6 1/2 in, made in other ways\n")
    for words in ("Knots  ", "Cord  ", "Closure  ", "* after every bead", "  single", "  loop and button"):
        assert words in ran.out, words
    assert not data_folder.exists()


def test_each_variant_for_programs_has_the_figures_of_a_plan(tallycord, skerry, data_folder) -> None:
    told = json.loads(tallycord("compare", skerry, "--json").out)
    plan = json.loads(tallycord("plan", skerry, "--json").out)
    assert (told["format"], told["design"], told["target_mm"]) == (1, plan["design"], plan["target_mm"])
    designed = [one for one in told["variants"] if one["as_designed"]]
    assert [one["what"] for one in designed] == ["knots", "cord", "closure"]
    for one in designed:
        assert one["finished_length_mm"] == plan["finished_length_mm"]
        assert one["cut_mm"] == plan["strands"][0]["cut_mm"]
        assert one["cord_used_mm"] == 2 * plan["strands"][0]["steps"][-1]["cord_used_mm"]
        assert one["beads"] == plan["strands"][0]["beads"]
        assert one["fit"] == plan["fit"]
        assert one["new_warnings"] == []
    assert {one["name"] for one in told["variants"]} >= {"single", "doubled", "after every 3rd bead", "endless"}
    assert not data_folder.exists()


def test_a_variant_written_as_a_file_has_the_same_plan(tallycord, skerry, tmp_path) -> None:
    """A second way: the maker's own hand in the file."""
    text = skerry.read_text("utf-8")
    wanted = "closure: bead tip and clasp, length: 12 mm"
    assert text.count(wanted) == 2
    other = tmp_path / "other.yaml"
    other.write_text(text.replace(wanted, "closure: cord end and clasp"), "utf-8")
    plan = json.loads(tallycord("plan", other, "--json").out)
    told = json.loads(tallycord("compare", skerry, "--json").out)["variants"]
    (one,) = [one for one in told if one["name"] == "cord end and clasp"]
    assert one["cut_mm"] == plan["strands"][0]["cut_mm"]
    assert one["finished_length_mm"] == plan["finished_length_mm"]
    assert [found["name"] for found in one["findings"]] == [found["name"] for found in plan["findings"]]


def test_her_own_pace_is_known_from_her_pieces(tallycord, skerry, data_folder) -> None:
    usual = json.loads(tallycord("compare", skerry, "--json").out)
    workshop = open_at(data_folder)
    now = datetime(2026, 11, 1, 18, 0, tzinfo=UTC)
    workshop._now = lambda: now
    opened = workshop.start(skerry)
    for _ in range(25):
        now += timedelta(seconds=170)
        opened = workshop.confirm(opened)
    workshop.close()
    told = json.loads(tallycord("compare", skerry, "--json").out)
    assert not usual["own_pace"]
    assert told["own_pace"]
    pairs = [(one["hours"], before["hours"]) for one, before in zip(told["variants"], usual["variants"], strict=True)]
    assert all(own / before == pytest.approx(2.0, abs=0.1) for own, before in pairs)
    assert "Time at your own pace." in tallycord("compare", skerry).out


def test_reach_says_what_the_cord_makes(tallycord, skerry, data_folder) -> None:
    ran = tallycord("reach", skerry, "--cord", "40 in")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[:2] == [
        "Skerry bracelet · wrist 6 1/2 in, from 40 in of cord",
        "The longest it is enough for: 7 repeats, 6 1/16 in (154 mm) long.",
    ]
    assert not data_folder.exists()


def test_reach_for_programs(tallycord, skerry) -> None:
    told = json.loads(tallycord("reach", skerry, "--cord", "1 m", "--json").out)
    assert (told["format"], told["cord_mm"], told["run_out_risk"]) == (1, 1000.0, 0.01)
    assert told["made"]["left_mm"] == 1000.0 - told["made"]["cut_mm"] >= 0
    assert told["next"]["left_mm"] == 1000.0 - told["next"]["cut_mm"] < 0
    assert told["next"]["fit"] == told["made"]["fit"] + 1
    assert told["as_designed"]["fit"] == 10


def test_reach_goes_by_her_own_risk(tallycord, skerry) -> None:
    careful = json.loads(tallycord("reach", skerry, "--cord", "2 m", "--json").out)
    tallycord("risk", "20%")
    bold = json.loads(tallycord("reach", skerry, "--cord", "2 m", "--json").out)
    assert bold["made"]["fit"] > careful["made"]["fit"]
    assert "Cut like that, 1 in 5 would run out." in tallycord("reach", skerry, "--cord", "2 m").out


def test_a_cord_that_makes_nothing_has_exit_code_1(tallycord, skerry) -> None:
    ran = tallycord("reach", skerry, "--cord", "10 in")
    assert ran.code == 1
    assert ran.out.splitlines()[1].startswith("This cord is too short for any of it")
    told = tallycord("reach", skerry, "--cord", "10 in", "--json")
    assert (told.code, json.loads(told.out)["made"]) == (1, None)


@pytest.mark.parametrize(
    ("length", "words"),
    [("40", "write 40 mm or 40 in"), ("0 mm", "expected a length above 0"), ("-3 in", "Found ‘-3 in’"),
     ("long", "Found ‘long’"), ("\x1b[31m40 in", "Found")],
)  # fmt: skip
def test_a_length_that_is_none_is_refused(tallycord, skerry, length, words) -> None:
    ran = tallycord("reach", skerry, f"--cord={length}")
    assert (ran.code, ran.out) == (2, "")
    assert words in ran.err
    assert "\x1b" not in ran.err


def test_without_a_cord_it_is_wrong_usage(tallycord, skerry) -> None:
    assert tallycord("reach", skerry).code == 2


@pytest.mark.parametrize("command", [("compare",), ("reach", "--cord", "1 m")])
def test_a_design_with_errors_or_none_at_all(tallycord, skerry, tmp_path, command) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text(skerry.read_text("utf-8").replace("- silver", "- sliver"), "utf-8")
    ran = tallycord(command[0], bad, *command[1:])
    assert (ran.code, ran.out) == (1, "")
    assert "sliver" in ran.err
    assert tallycord(command[0], tmp_path / "nowhere.yaml", *command[1:]).code == 1


@pytest.mark.parametrize("command", [("compare",), ("reach", "--cord", "1 m")])
def test_by_another_card(tallycord, carded, command) -> None:
    missing = tallycord(command[0], carded, *command[1:], "--card", "nobody's")
    assert missing.code == 1
    assert "There is no cord card named nobody's." in missing.err
    tallycord("cord", "thick", "--knots", "2", "--before", "250 mm", "--after", "220 mm", "--diameter", "0.45 mm",
              "--layers", "2")  # fmt: skip
    as_it_is = json.loads(tallycord(command[0], carded, *command[1:], "--json").out)
    thick = json.loads(tallycord(command[0], carded, *command[1:], "--json", "--card", "thick").out)
    key = "variants" if command[0] == "compare" else "as_designed"
    assert thick[key] != as_it_is[key]


def test_a_hostile_name_is_text(tallycord, skerry, tmp_path) -> None:
    place = tmp_path / "mine.yaml"
    text = skerry.read_text("utf-8").replace("Silver daisy", '"\\e[31mdaisy\\u202e {x} [b]"')
    place.write_text(text, "utf-8")
    for command in (("compare", place), ("reach", place, "--cord", "1 m")):
        ran = tallycord(*command)
        assert not set(ran.out + ran.err) & {"\x1b", "\u202e"}
