"""The bench: what lies on it, and where it leads."""

from __future__ import annotations

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.tui.app import TallycordApp
from tests.tui.screens import screen_text, until, until_seen


async def test_a_design_with_faults_says_so_on_the_bench(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "broken.yaml").write_text("format: 1\nnmae: x\n")
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "broken")
        await pilot.press("enter")
        await until_seen(pilot, "unknown key")


async def test_find_narrows_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "skerry-bracelet")
        await pilot.press("slash", *"wolf")
        await until(pilot, lambda: "skerry-bracelet" not in screen_text(app))
        await pilot.press("enter")
        assert "wolf-rock-necklace" in await until_seen(pilot, "Enter go on")


async def test_cord_cards_stand_on_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    test = CardTest("single", KnotTest(300.0, 238.0, 10), None, "30 cm to 23.8 cm")
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl", ()), test)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "waxed linen 0.6: 6.2 ± ")
        place = next(n for n, row in enumerate(app.screen.query_one("Rows").rows) if "waxed" in row.text)
        await pilot.click("Rows", offset=(8, place))
        await until_seen(pilot, "Cord card · waxed linen")
