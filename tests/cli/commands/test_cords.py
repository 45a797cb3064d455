"""Cord cards a line at a time, and in the plans that name them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from companion.workshop import open_at

KNOT = ("--knots", "10", "--before", "30 cm", "--after", "23.8 cm")


def test_a_new_card_needs_its_diameter(tallycord) -> None:
    ran = tallycord("cord", "linen", *KNOT)
    assert (ran.code, ran.out) == (2, "")
    assert "--diameter" in ran.err


def test_a_test_is_taken_and_told(tallycord) -> None:
    assert tallycord("cords").out.startswith("No cord cards yet")
    ran = tallycord("cord", "linen", *KNOT, "--diameter", "0.6 mm", "--material", "waxed linen")
    assert (ran.code, ran.err) == (0, "")
    assert "1 test on the card" in ran.out
    assert "take-up 6.20 ± " in ran.out
    assert "2 more test knots would narrow" in ran.out
    assert "length 1.74 ± " in ran.out
    assert "estimated from the diameter" in ran.out
    assert "2 tests on the card" in tallycord("cord", "Linen", "--knots", "5", "--row", "9 mm").out
    (card,) = json.loads(tallycord("cords", "--json").out)
    assert (card["name"], card["diameter_mm"], card["tests"]) == ("linen", 0.6, 2)
    assert card["knots"]["single"]["take_up_mm"] == pytest.approx(6.2, abs=0.15)
    assert tallycord("cords").out.startswith("linen: waxed linen, 0.6 mm, one cord, worked with an awl, 2 tests\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--knots", "1", "--before", "24 cm", "--after", "30 cm"), "longer after"),
        (("--knots", "0", "--before", "30 cm", "--after", "24 cm"), "0 knots"),
        (("--knots", "-3", "--row", "7 mm"), "-3 knots"),
        (("--knots", "1", "--before", "30 cm"), "expected both"),
        (("--knots", "1"), "no length"),
        (("--knots", "1", "--before", "30", "--after", "24 cm"), "30"),
        (("--knots", "1", "--row", "7 mm", "--layers", "9"), "9 cords side by side"),
    ],
)
def test_what_can_not_be_is_refused_and_nothing_stored(tallycord, words, said, data_folder: Path) -> None:
    ran = tallycord("cord", "linen", "--diameter", "0.6 mm", *words)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err
    assert open_at(data_folder).cards() == ()


def test_what_is_odd_is_questioned_and_taken(tallycord) -> None:
    ran = tallycord("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "30 cm", "--after", "27.4 cm")
    assert ran.code == 0
    assert "43 times" in ran.err
    assert "1 test on the card" in ran.out


def test_a_card_is_one_cord(tallycord) -> None:
    tallycord("cord", "linen", *KNOT, "--diameter", "0.6 mm")
    ran = tallycord("cord", "linen", *KNOT, "--diameter", "0.8 mm")
    assert ran.code == 2
    assert "another cord" in ran.err


def test_a_plan_uses_the_card_that_its_design_names(tallycord, carded: Path) -> None:
    before = json.loads(tallycord("plan", carded, "--json").out)
    assert "card not there" in [warning["code"] for warning in before["warnings"]]
    for after in ("194 mm", "193 mm", "194 mm"):
        words = ("--knots", "1", "--before", "200 mm", "--after", after, "--diameter", "0.45 mm", "--layers", "2")
        assert tallycord("cord", "skerry silk", *words, "--material", "silk").code == 0
    after = json.loads(tallycord("plan", carded, "--json").out)
    assert "card not there" not in [warning["code"] for warning in after["warnings"]]
    assert after["cuts"] != before["cuts"]


def test_a_piece_keeps_its_copy_of_the_card(tallycord, carded: Path, data_folder: Path) -> None:
    words = ("cord", "skerry silk", "--knots", "1", "--before", "200 mm", "--after")
    tallycord(*words, "194 mm", "--diameter", "0.45 mm", "--layers", "2")
    name = tallycord("start", carded).out.strip()
    cord = open_at(data_folder).open(name).plan.cord
    assert cord.card == "skerry silk"
    tallycord(*words, "190 mm")
    assert open_at(data_folder).open(name).plan.cord == cord
    assert open_at(data_folder).plan(carded).plan.cord != cord


def test_the_latest_test_is_taken_back(tallycord, data_folder: Path) -> None:
    assert tallycord("cord", "linen", "--withdraw").code == 2
    tallycord("cord", "linen", *KNOT, "--diameter", "0.6 mm")
    tallycord("cord", "linen", "--knots", "5", "--row", "9 mm")
    assert tallycord("cord", "linen", "--withdraw", "--knots", "5").code == 2
    assert tallycord("cord", "linen").code == 2
    ran = tallycord("cord", "Linen", "--withdraw")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Taken out: single, 5 knots: touching row 9 mm, length 1.80 mm each.\n")
    assert "double and triple: not tested, estimated from the diameter" in ran.out
    assert tallycord("cord", "linen", "--withdraw").code == 0
    ran = tallycord("cord", "linen", "--withdraw")
    assert (ran.code, ran.out) == (1, "")
    assert open_at(data_folder).card("linen").tests == ()


def test_a_card_can_be_chosen_for_a_plan_and_a_piece(tallycord, skerry: Path, data_folder: Path) -> None:
    designed = json.loads(tallycord("plan", skerry, "--json").out)
    ran = tallycord("plan", skerry, "--card", "linen")
    assert (ran.code, ran.out) == (1, "")
    assert "There is no cord card named linen." in ran.err
    words = ("--before", "200 mm", "--after", "193 mm", "--row", "2.2 mm", "--diameter", "0.45 mm", "--layers", "2")
    tallycord("cord", "skerry silk", "--knots", "1", *words)
    plan = json.loads(tallycord("plan", skerry, "--card", "Skerry Silk", "--json").out)
    assert plan["knots_from"]["single"] == "card"
    assert plan["strands"][0]["cut_mm"] != designed["strands"][0]["cut_mm"]
    assert "There is skerry silk." in tallycord("start", skerry, "--card", "linen").err
    assert open_at(data_folder).pieces() == ()
    name = tallycord("start", skerry, "--card", "skerry silk").out.strip()
    kept = open_at(data_folder).open(name).plan
    assert (kept.cord.card, kept.strands[0].cut_mm) == ("skerry silk", plan["strands"][0]["cut_mm"])
