"""forecast: readings of a design, without a piece."""

from __future__ import annotations

import json


def test_a_forecast_by_another_card(tallycord, skerry) -> None:
    rows = ("--before", "250 mm", "--after", "214 mm", "--row", "16 mm")
    tallycord("cord", "loose silk", "--knots", "4", *rows, "--diameter", "0.45 mm", "--layers", "2")
    reading = ("forecast", skerry, "--strand", "16=3 3/8 in", "--json")
    own, other = (json.loads(tallycord(*reading, *card).out) for card in ((), ("--card", "loose silk")))
    assert other["finished_mean_mm"] != own["finished_mean_mm"]
    assert tallycord(*reading, "--card", "none such").code == 1


def test_a_free_reading_that_says_there_is_next_to_none_is_not_answered_with_enough(tallycord, skerry) -> None:
    ran = tallycord("forecast", skerry, "--free", "13=1mm")
    assert "in too short" in ran.out
    assert "Enough cord" not in ran.out
    assert "Measure the leftover cord again: your reading after step 13 is well below" in ran.out
