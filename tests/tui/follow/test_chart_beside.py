"""The readings' chart beside the steps on a large screen: there, right, and not worked out again for a step."""

from __future__ import annotations

import asyncio

from companion.tui.app import TallycordApp
from companion.tui.follow.body import StepsBody
from companion.tui.follow.chart_beside import ChartBeside
from companion.tui.widgets.chart import ChartView
from companion.workshop import forecasts
from tests.tui.screens import screen_text, until, until_seen

LARGE = (200, 60)


async def shown(pilot) -> ChartBeside:
    """The chart, once it is drawn for the piece as it stands."""
    body = pilot.app.screen.query_one(StepsBody)
    await until(pilot, lambda: bool(body.query(ChartView)) and body.chart.drift is not None)
    return body.chart


async def test_it_is_worked_out_for_a_reading_and_only_moved_by_a_step(app, workshop, monkeypatch) -> None:
    made: list[int] = []
    charted = forecasts.charted
    monkeypatch.setattr(forecasts, "charted", lambda opened: made.append(opened.revision) or charted(opened))
    async with app.run_test(size=LARGE) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 12)
        chart = await shown(pilot)
        await until(pilot, lambda: chart.query_one(ChartView).drift.now_mm == strand_mm(app, 12))
        before = len(made)
        await pilot.press(*["space"] * 3)
        await until(pilot, lambda: chart.query_one(ChartView).drift.now_mm == strand_mm(app, 15))
        assert len(made) == before == 1
        await pilot.press("m", *"82mm", "enter")
        await until(pilot, lambda: chart.drift is not None and len(chart.drift.readings) == 1)
        assert len(made) == 2
        assert "● measured" in await until_seen(pilot, "▲ here")
        await pilot.press("u")
        await until(pilot, lambda: chart.drift is not None and chart.drift.readings == ())


def strand_mm(app, step: int) -> float:
    return app.screen.opened.plan.strands[0].steps[step - 1].strand_mm


async def test_moved_it_is_what_it_would_be_worked_out_anew(workshop, skerry) -> None:
    """A step that is marked says nothing of the lengths to come."""
    opened = workshop.measure(workshop.jump(workshop.start(skerry), 12), "strand", 60.0, "60 mm")
    early = workshop.charted(opened).drifts[0]
    late = workshop.charted(workshop.jump(opened, 20)).drifts[0]
    place = late.coming[-1]
    assert early.coming[-1].planned_mm == place.planned_mm
    assert abs(early.coming[-1].off.mean_mm - place.off.mean_mm) < 0.2
    assert abs(early.coming[-1].off.half95_mm - place.off.half95_mm) < 0.2


async def test_where_there_is_no_room_nothing_is_loaded_or_worked_out(app, workshop, monkeypatch) -> None:
    monkeypatch.setattr(forecasts, "charted", lambda opened: 1 / 0)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "On length.")
        assert app.screen.query_one(StepsBody).chart is None


async def test_it_comes_and_goes_with_the_size(workshop, skerry) -> None:
    app = TallycordApp(workshop, piece=workshop.start(skerry).name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Space done")
        await pilot.resize_terminal(*LARGE)
        await shown(pilot)
        await until_seen(pilot, "▲ here")
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: app.size.width == 80)
        await asyncio.sleep(0)
        await until(pilot, lambda: "┻" not in screen_text(app))
