"""The maker's own risk: said, set, and what plans are cut for from then on."""

from __future__ import annotations

import json

import pytest

from companion.workshop import open_at


def test_the_risk_is_said_and_set_and_plans_follow(tallycord, skerry) -> None:
    assert "1 % of pieces run out: one in 100." in tallycord("risk").out
    before = json.loads(tallycord("plan", skerry, "--json").out)["strands"][0]
    assert before["run_out_risk"] == pytest.approx(0.01)
    name = tallycord("start", skerry).out.split()[0]
    assert "0.2 % of pieces run out: one in 500." in tallycord("risk", "0.2 %").out
    after = json.loads(tallycord("plan", skerry, "--json").out)["strands"][0]
    assert after["run_out_risk"] == pytest.approx(0.002)
    assert after["cut_mm"] > before["cut_mm"]
    assert open_at().open(name).plan.risk == pytest.approx(0.01)  # what is begun keeps its own
    assert tallycord("risk", "20%").code == 0
    assert json.loads(tallycord("plan", skerry, "--json").out)["strands"][0]["cut_mm"] < before["cut_mm"]


@pytest.mark.parametrize("text", ["", "{}", "[]", '{"run_out_risk": true}', '{"run_out_risk": 7}', "[" * 9000, "\x00"])
def test_settings_that_cannot_be_read_are_said(tallycord, skerry, data_folder, text) -> None:
    data_folder.mkdir(exist_ok=True)
    (data_folder / "settings.json").write_text(text, encoding="utf-8")
    ran = tallycord("plan", skerry)
    assert (ran.code, ran.out) == (1, "")
    assert "can't be understood" in ran.err
    assert tallycord("risk", "1%").code == 0
    assert tallycord("plan", skerry).code == 0
