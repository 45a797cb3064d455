"""Pieces that are under way, and forecasts that take long."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest

from companion.workshop import OpenPiece, Workshop, forecasts

GIVE_UP_SECONDS = 60


@pytest.fixture
def begun(workshop: Workshop, skerry) -> OpenPiece:
    """A piece with fifteen steps done."""
    return workshop.jump(workshop.start(skerry), 15)


@pytest.fixture
def long_forecasts(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """A single reading takes too long for a key to wait for, and none is worked out before the gate is opened."""
    gate, work_it_out = threading.Event(), forecasts.work_out

    def held(opened: OpenPiece) -> forecasts.WorkedOut:
        assert gate.wait(GIVE_UP_SECONDS)
        return work_it_out(opened)

    monkeypatch.setattr(forecasts, "work_out", held)
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 0)
    yield gate
    gate.set()


@pytest.fixture
def read(workshop: Workshop, begun: OpenPiece) -> OpenPiece:
    """The same piece with a reading, opened anew: nothing of it is worked out yet."""
    opened = workshop.measure(begun, "strand", 82.0, "82 mm")
    workshop.forecasts = forecasts.Forecasts()
    return opened
