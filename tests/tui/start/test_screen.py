"""Beginning a piece: by which card, with which cut, and on a disk that does not say whether it keeps it."""

from __future__ import annotations

from companion.core.cord.cards import CardTest
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.values.errors import NotConfirmed
from companion.tui.app import TallycordApp
from companion.tui.start.screen import StartScreen
from tests.tui.cards import SILK
from tests.tui.screens import golden, screen_text, until_seen


def cut_mm(screen: StartScreen) -> float:
    return screen.plan.cuts[0].cut_mm


async def test_a_card_chosen_at_start_makes_the_plan_and_the_piece_keeps_it(carded, skerry, size) -> None:
    name, dimensions = size
    app = TallycordApp(carded, design=skerry)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        designed = cut_mm(app.screen)
        await pilot.press("k")
        text = await until_seen(pilot, "as the design says")
        golden(f"cord-choice-{name}", text)
        assert text.index("skerry silk") < text.index("lizard linen")  # those that fit come first
        await pilot.press("down", "enter")
        await until_seen(pilot, "Planned by the card skerry silk.")
        assert cut_mm(app.screen) != designed
        assert app.screen.plan.cord.single.source == "card"
        chosen = cut_mm(app.screen)
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of")
        carded.add_tests(SILK, CardTest("single", Row(200.0, 190.0, 1), None, "200 mm; 190 mm"))
        kept = carded.open("skerry-bracelet").plan
        assert (kept.cord.card, kept.cuts[0].cut_mm) == ("skerry silk", chosen)


async def test_what_is_not_tested_is_said_at_start(carded, skerry) -> None:
    app = TallycordApp(carded, design=skerry)
    async with app.run_test(size=(80, 40)) as pilot:
        await until_seen(pilot, "Enter begin")
        designed = cut_mm(app.screen)
        await pilot.press("k")
        await until_seen(pilot, "as the design says")
        await pilot.press("down", "down", "down", "enter")
        await until_seen(pilot, "Take-up and length of the single knot are estimates")
        await until_seen(pilot, "Planned by an estimate.")
        assert cut_mm(app.screen) > designed
        await pilot.press("k", "up", "enter")
        await until_seen(
            pilot, "△ The cord card lizard linen was made with one cord through the beads, this design has 2."
        )
        assert app.screen.plan.cord.single.source == "design"  # of a kind the card does not know, the design's own
        await pilot.press("k", "up", "up", "enter")
        await until_seen(pilot, "Planned as the design says.")
        assert cut_mm(app.screen) == designed


async def test_a_cut_that_is_entered_stays_and_gets_its_new_risk(carded, skerry) -> None:
    app = TallycordApp(carded, design=skerry)
    async with app.run_test(size=(80, 40)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("c", *"47 in", "enter")
        await until_seen(pilot, "you cut 47 in")
        await until_seen(pilot, "As long as planned, or longer")
        await pilot.press("k", "down", "down", "down", "enter")
        await until_seen(pilot, "chance of running out before the end")
        assert "you cut 47 in" in screen_text(app)


async def test_a_piece_that_may_have_begun_is_looked_for_on_the_bench(workshop, skerry, monkeypatch) -> None:
    begin = workshop.start

    def doubtful(*given):
        begin(*given)
        raise NotConfirmed("The disk did not confirm the write: input/output error. It may be stored.")

    monkeypatch.setattr(workshop, "start", doubtful)
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "It may be stored")
        await until_seen(pilot, "0 of 33")
    assert len(workshop.pieces()) == 1
