"""What is left of a sample whose window was killed goes with the next start, and nothing else does."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from companion.tui.app import TallycordApp
from companion.tui.trial.leftovers import PREFIX, clear_leftovers, sample_folder
from tests.tui.screens import until, until_seen


@pytest.fixture(autouse=True)
def elsewhere(monkeypatch, tmp_path) -> Path:
    place = tmp_path / "elsewhere"
    place.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(place))
    return place


@pytest.fixture
def gone() -> int:
    """The number of a process that has ended."""
    ended = subprocess.Popen([sys.executable, "-c", "pass"])
    ended.wait()
    return ended.pid


def left(elsewhere: Path, process: int, mode: int = 0o700) -> Path:
    place = elsewhere / f"{PREFIX}{process}-abc123"
    place.mkdir(mode=mode)
    place.chmod(mode)
    (place / "pieces.sqlite3").write_bytes(b"what was made in it")
    return place


def test_what_a_dead_process_has_left_is_cleared(elsewhere: Path, gone: int) -> None:
    place = left(elsewhere, gone)
    clear_leftovers()
    assert not place.exists()


def test_what_may_be_in_use_or_may_not_be_ours_stays(elsewhere: Path, gone: int, tmp_path: Path) -> None:
    in_use = left(elsewhere, os.getpid())
    open_to_all = left(elsewhere, gone, mode=0o755)
    other = elsewhere / f"{PREFIX}of-mine"
    other.mkdir()
    hers = tmp_path / "hers"
    hers.mkdir()
    link = elsewhere / f"{PREFIX}{gone}-link"
    link.symlink_to(hers)
    clear_leftovers()
    assert all(place.exists() for place in (in_use, open_to_all, other, hers, link))


def test_a_sample_has_its_process_in_its_name_and_goes_when_it_is_over(elsewhere: Path) -> None:
    folder = sample_folder()
    assert Path(folder.name).name.startswith(f"{PREFIX}{os.getpid()}-")
    clear_leftovers()
    assert Path(folder.name).is_dir()
    folder.cleanup()
    assert not list(elsewhere.iterdir())


async def test_the_next_start_of_the_app_clears_it(workshop, elsewhere: Path, gone: int, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    place = left(elsewhere, gone)
    async with TallycordApp(workshop).run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Bench")
        await until(pilot, lambda: not place.exists())
