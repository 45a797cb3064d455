"""The app in a real browser, by fingers: opened, five steps, a reading, loaded again, still there.

Needs a browser and what drives it, which are no part of the tests' installation: skipped without them."""

from __future__ import annotations

from pathlib import Path
from shutil import which
from time import monotonic, sleep

import pytest

from companion.workshop import Workshop, open_at
from tests.cli.serving.served import served

playwright = pytest.importorskip("playwright.sync_api", reason="no playwright")
BROWSER = which("chromium")
FINGER = 44  # CSS pixels, either way. Source: WCAG 2.2, success criterion 2.5.5 "Target Size (Enhanced)"
SECONDS = 60


@pytest.mark.skipif(BROWSER is None, reason="no browser")
def test_five_steps_and_a_reading_by_fingers(tmp_path: Path) -> None:
    workshop = open_at(tmp_path)
    opened = workshop.start(Path(__file__).parents[3] / "patterns" / "skerry-bracelet.yaml")
    workshop.jump(opened, 10)
    with served(tmp_path) as server, playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_context(viewport={"width": 1024, "height": 700}, has_touch=True).new_page()
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.goto(server.address)
        assert "word" not in page.url
        page.wait_for_selector("body.-first-byte", timeout=1000 * SECONDS)
        tap(page, "Enter")
        for button in page.locator("button:visible").all():
            box = button.bounding_box()
            assert min(box["width"], box["height"]) >= FINGER, button.inner_text()
        for done in range(11, 16):
            while made(workshop) < done:  # the first taps may find the bench still there
                tap(page, "Done")
                sleep(0.5)  # sooner it would count as the same press
        tap(page, "123")
        tap(page, "Measure")
        for digit in ("3", "space", "1", "/", "4"):  # as planned: ten beads and eleven knots
            tap(page, digit)
        sleep(1)  # nothing outside the picture tells that the question has all of it
        tap(page, "Enter", lambda: len(workshop.open("skerry-bracelet").piece.readings) == 1)
        page.reload()
        page.wait_for_selector("body.-first-byte", timeout=1000 * SECONDS)
        assert (made(workshop), len(workshop.open("skerry-bracelet").piece.readings)) == (15, 1)
        assert {url.split("/")[2] for url in asked if "//" in url} == {f"127.0.0.1:{server.port}"}
        browser.close()


def made(workshop: Workshop) -> int:
    return workshop.open("skerry-bracelet").piece.done


def tap(page, name: str, until=lambda: True) -> None:
    page.get_by_role("button", name=name, exact=True).tap()
    end = monotonic() + SECONDS
    while not until():
        assert monotonic() < end, name
        sleep(0.05)
