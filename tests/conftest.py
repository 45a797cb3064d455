"""The machine a test runs on stays out of it: home, folders, colours, language, zone."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# No test is timed: beside a busy neighbour a single example may take a second. The long run: DEVELOPERS.md.
for _name, _examples in (("suite", 30), ("long", 1000)):
    settings.register_profile(
        _name, deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=_examples
    )
settings.load_profile("suite")

REPO = Path(__file__).parents[1]
SETTINGS = {
    "NO_COLOR", "FORCE_COLOR", "CLICOLOR", "COLORTERM", "COLUMNS", "LINES", "LANGUAGE", "XDG_DATA_DIRS",
    "PYTHONIOENCODING", "PYTHONUTF8", "PYTHONWARNINGS", "PYTHONSTARTUP", "PYTHONTRACEMALLOC", "PYTHONDEVMODE",
}  # fmt: skip


FEW_FILES = 3


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """None for a few files named on the command line: a worker takes longer to start than most of them to run."""
    files = [argument for argument in config.args if argument.split("::")[0].endswith(".py")]
    return 0 if len(config.args) == len(files) <= FEW_FILES else None


def pytest_collection_finish() -> None:
    """Seven thousand tests and all modules stay to the end: nobody need look through them for garbage again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 10, 10)


@pytest.fixture(scope="session")
def nowhere(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Folders that are not there yet: most tests write nothing, and to make and remove one takes longer than they."""
    base = tmp_path_factory.mktemp("nowhere")
    return (base / str(number) for number in count())


@pytest.fixture(autouse=True)
def strange_machine(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch, nowhere: Iterator[Path]) -> Path:
    """A home that is empty and nobody's; nothing that the developer has set."""
    has_folder = "tmp_path" in request.fixturenames
    folder: Path = request.getfixturevalue("tmp_path") if has_folder else next(nowhere)
    home = folder / "home"
    for name in list(os.environ):
        if name in SETTINGS or name.startswith(("LC_", "TALLYCORD_", "TEXTUAL")):
            monkeypatch.delenv(name)
    for name in ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(home / name.lower()))
    monkeypatch.setenv("TALLYCORD_HOME", str(folder / "tallycord-home"))
    monkeypatch.setenv("TALLYCORD_KEY_BOUNCE", "0")  # a test types faster than a hand
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setenv("LANG", "C.UTF-8")
    monkeypatch.setenv("TERM", "xterm-256color")
    return home


@pytest.fixture
def data_folder(tmp_path: Path) -> Path:
    """Where pieces are kept in this test; not there until something is written."""
    return tmp_path / "tallycord-home"


@pytest.fixture
def patterns() -> Path:
    """The shipped designs."""
    return REPO / "patterns"


@pytest.fixture
def skerry(patterns: Path) -> Path:
    """The bracelet of the README."""
    return patterns / "skerry-bracelet.yaml"
