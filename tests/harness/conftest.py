"""Apps that the harness runs in this process begin faster; every frame of theirs is painted."""

from __future__ import annotations

import pytest

from tests.tui.toolkit import save_time


@pytest.fixture(autouse=True)
def nothing_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    save_time(monkeypatch, every_frame=True)
