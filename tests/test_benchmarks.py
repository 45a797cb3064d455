"""The benchmarks run on the product as it is; what they measure is read by people. Long runs: DEVELOPERS.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.workshop import open_at
from tests.benchmarks.many_pieces import filled
from tests.benchmarks.simulation import cord, length, remedies, score
from tests.benchmarks.simulation.pieces import OUTSIDE_THE_MODEL, SCENARIOS
from tests.examples import LONG


def some(*seeds: int) -> tuple[int, ...]:
    """The first of them; all in the long run."""
    return seeds if LONG else seeds[:1]


def test_the_forecast_is_scored_on_simulated_pieces(capsys: pytest.CaptureFixture[str]) -> None:
    scenarios = [*SCENARIOS, *OUTSIDE_THE_MODEL]
    score.table([score.play(seed, scenario) for seed in (1, 2) for scenario in scenarios], scenarios)
    told = capsys.readouterr().out
    for scenario in scenarios:
        assert told.count(f"  {scenario}") >= 4, told
    assert "nan" not in told


def test_remedies_are_scored_on_simulated_pieces(capsys: pytest.CaptureFixture[str]) -> None:
    results = [remedies.play(seed, scenario, 0.001) for seed in (3,) for scenario in SCENARIOS]
    assert any(result.listed for result in results)  # of pieces that are hardly ever inside such a tolerance
    remedies.table(results, SCENARIOS)
    told = capsys.readouterr().out
    assert "first remedies:" in told
    assert "nan" not in told


def test_a_home_of_many_pieces(tmp_path: Path) -> None:
    filled(tmp_path, pieces=3, events=120)
    workshop = open_at(tmp_path)
    assert len(workshop.pieces()) == 3
    assert sum(len(workshop.journal(workshop.open(row.name))) for row in workshop.pieces()) == 120
    workshop.close()


def test_a_cord_that_reaches_is_hardly_ever_said_to_run_out() -> None:
    """Of pieces with room to spare at the last knot; and every cord that really ends is warned of."""
    told = [cord.play(seed, scenario, cut) for seed in some(77, 78) for scenario in SCENARIOS for cut in cord.CUTS]
    spare = [one for one in told if one.came == "room to spare"]
    ended = [one for one in told if one.came == "ran out"]
    assert len(spare) >= 6 * len(some(77, 78))
    assert len(ended) >= 1
    assert not any(one.alarmed for one in spare)
    assert all(one.warned for one in ended)


def test_a_length_that_misses_is_warned_of_and_the_table_counts_every_piece() -> None:
    told = [length.play(seed, scenario) for seed in (79, 80) for scenario in SCENARIOS]
    outside = [one for one in told if not one.within]
    assert len(outside) >= 2
    assert sum("off" in one.verdicts or one.marked for one in outside) >= 0.75 * len(outside)
    assert any("off" in one.verdicts for one in outside)
    _, *lines = length.table(told)
    assert sum(int(line.split()[-8]) for line in lines if line.startswith("all ")) == len(told)
