"""An app on a folder of its own, with a clock that stands still."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime, timedelta

import pytest

from companion.tui.app import TallycordApp
from companion.workshop import Workshop, open_at
from tests.tui.cards import LINEN, LINEN_TEST, SILK, SILK_TESTS
from tests.tui.toolkit import save_time

PAUSE_SECONDS = 0.004
SIZES = {"60x18": (60, 18), "80x24": (80, 24), "120x40": (120, 40)}


@pytest.fixture(autouse=True)
def usual_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Millions of colours, whatever terminal the tests are run in."""
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.delenv("NO_COLOR", raising=False)


class Clock:
    """Ten seconds a look."""

    def __init__(self) -> None:
        self.at = datetime(2026, 12, 1, 18, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(seconds=10)
        return self.at


@pytest.fixture(autouse=True)
def short_pauses(monkeypatch: pytest.MonkeyPatch) -> None:
    """After each key Textual's pilot waits until the processor has been idle for a while: long on a quiet machine, and
    no proof of anything on a busy one. The tests here wait for what the key brings to the screen."""

    async def pause(_min_sleep: float = 0.0, _max_sleep: float = 1.0) -> None:
        await asyncio.sleep(PAUSE_SECONDS)

    monkeypatch.setattr("textual.pilot.wait_for_idle", pause)
    monkeypatch.setattr("textual.app.wait_for_idle", pause)


@pytest.fixture(autouse=True)
def nothing_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the toolkit does again and again for the same result, it does once."""
    save_time(monkeypatch)


@pytest.fixture
def workshop(data_folder) -> Workshop:
    workshop = open_at(data_folder)
    workshop._now = Clock()
    return workshop


@pytest.fixture
def other_window(data_folder) -> Workshop:
    """The same pieces, from another process as it were."""
    return open_at(data_folder)


@pytest.fixture
def carded(workshop, tmp_path, monkeypatch) -> Workshop:
    """A workshop with two cards; the bench shows no designs but the shipped ones."""
    monkeypatch.chdir(tmp_path)
    workshop.add_tests(SILK, *SILK_TESTS)
    workshop.add_tests(LINEN, LINEN_TEST)
    return workshop


@pytest.fixture
def app(workshop, skerry) -> TallycordApp:
    """The app as `tallycord follow skerry-bracelet.yaml` opens it."""
    return TallycordApp(workshop, design=skerry)


@pytest.fixture(params=SIZES)
def size(request) -> tuple[str, tuple[int, int]]:
    return request.param, SIZES[request.param]
