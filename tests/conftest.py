"""The machine a test runs on stays out of it: home, folders, colours, language, zone."""

from __future__ import annotations

from pathlib import Path

import pytest

REPO = Path(__file__).parents[1]


@pytest.fixture(autouse=True)
def strange_machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A home that is empty and nobody's; nothing that the developer has set."""
    home = tmp_path / "home"
    for name in ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(home / name.lower()))
    for name in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "LINES", "COMPANION_COLOURS", "COMPANION_TRACEBACK", "TEXTUAL"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "companion-home"))
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setenv("LANG", "C.UTF-8")
    monkeypatch.setenv("TERM", "xterm-256color")
    return home


@pytest.fixture
def data_folder(tmp_path: Path) -> Path:
    """Where pieces are kept in this test; not there until something is written."""
    return tmp_path / "companion-home"


@pytest.fixture
def patterns() -> Path:
    """The shipped designs."""
    return REPO / "patterns"


@pytest.fixture
def skerry(patterns: Path) -> Path:
    """The bracelet of the README."""
    return patterns / "skerry-bracelet.yaml"
