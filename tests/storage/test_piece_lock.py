"""A piece in hand: by one window at a time, for as long as its process lives, and taken over from any."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from companion.storage import piece_lock
from companion.storage.piece_lock import PieceLock

REPO = Path(__file__).parents[2]


@pytest.fixture
def one(tmp_path: Path) -> PieceLock:
    return PieceLock(tmp_path, 7)


@pytest.fixture
def other(tmp_path: Path) -> PieceLock:
    return PieceLock(tmp_path, 7)


def test_the_first_has_it_until_it_lets_go(one: PieceLock, other: PieceLock, tmp_path: Path) -> None:
    assert one.take() == "here"
    assert other.take() == "elsewhere"
    assert one.take() == "here"
    assert PieceLock(tmp_path, 8).take() == "here"  # another piece is another matter
    other.let_go()  # what it never had
    assert other.take() == "elsewhere"
    one.let_go()
    assert other.take() == "here"
    assert one.take() == "elsewhere"
    other.let_go()
    assert not one.path.exists()  # nothing is left lying about


def test_taken_over_and_back(one: PieceLock, other: PieceLock) -> None:
    one.take()
    assert other.take_over() == "here"
    assert one.take() == "elsewhere"
    assert one.take() == "elsewhere"
    assert other.take() == "here"
    assert other.take_over() == "here"
    one.let_go()  # nothing of the other's
    assert other.take() == "here"
    assert one.take_over() == "here"
    assert other.take() == "elsewhere"


def test_a_lock_that_was_lost_is_told_once_even_when_nobody_has_it_any_more(one: PieceLock, other: PieceLock) -> None:
    one.take()
    other.take_over()
    other.let_go()
    assert one.take() == "elsewhere"
    assert one.take() == "here"


def test_it_ends_with_its_process_however_that_ends(one: PieceLock) -> None:
    code = (
        "import sys, time; from pathlib import Path; from companion.storage.piece_lock import PieceLock\n"
        "lock = PieceLock(Path(sys.argv[1]), 7); print(lock.take(), flush=True); time.sleep(600)\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(one.path.parent)], cwd=REPO, stdout=subprocess.PIPE, text=True
    ) as run:
        assert run.stdout is not None
        assert run.stdout.readline() == "here\n"
        assert one.take() == "elsewhere"
        run.send_signal(signal.SIGKILL)
    assert one.take() == "here"


def test_a_folder_that_goes_and_comes_back(one: PieceLock, other: PieceLock, tmp_path: Path) -> None:
    one.path = tmp_path / "pieces" / "piece-7.in-hand"
    one.path.parent.mkdir()
    one.take()
    one.path.parent.rename(tmp_path / "away")
    assert one.take() == "nowhere"
    assert other.take() == "here"
    (tmp_path / "away").rename(one.path.parent)
    assert one.take() == "here"


@pytest.mark.parametrize("lost", ["no folder", "a folder in its place", "a link in its place"])
def test_where_no_file_can_be_made_nobody_has_it(one: PieceLock, tmp_path: Path, lost: str) -> None:
    match lost:
        case "no folder":
            one.path = tmp_path / "nowhere" / "piece-7.in-hand"
        case "a folder in its place":
            one.path.mkdir()
        case "a link in its place":
            (tmp_path / "precious").write_text("kept")
            one.path.symlink_to(tmp_path / "precious")
    assert one.take() == "nowhere"
    assert not (tmp_path / "precious").exists() or (tmp_path / "precious").read_text() == "kept"
    assert one.take() == "nowhere"


def test_a_system_without_such_locks(one: PieceLock, other: PieceLock, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "fcntl", None)
    assert (one.take(), other.take(), one.take_over()) == ("nowhere",) * 3
    one.let_go()


def test_no_file_stays_open(one: PieceLock, other: PieceLock) -> None:
    folder = Path("/proc/self/fd")
    if not folder.is_dir():
        pytest.skip("this system does not list a process's open files")
    before = len(os.listdir(folder))
    for _ in range(20):
        one.take()
        other.take()
        other.take_over()
        one.take()
        other.let_go()
        one.let_go()
    assert len(os.listdir(folder)) == before


CROWD = """
import os, sys
from pathlib import Path
from companion.storage.piece_lock import PieceLock
folder, turns = Path(sys.argv[1]), 0
while turns < 60:
    lock = PieceLock(folder, 7)
    if lock.take() == "here":
        os.close(os.open(folder / "mine", os.O_CREAT | os.O_EXCL))  # fails where two have it
        os.unlink(folder / "mine")
        turns += 1
    lock.let_go()
"""


def test_in_a_crowd_it_is_one_at_a_time(tmp_path: Path) -> None:
    runs = [
        subprocess.Popen([sys.executable, "-c", CROWD, str(tmp_path)], cwd=REPO, stderr=subprocess.PIPE, text=True)
        for _ in range(3)
    ]
    for run in runs:
        _, complaint = run.communicate(timeout=60)
        assert run.returncode == 0, complaint


def test_the_file_taken_away_between_opening_and_locking(
    one: PieceLock, other: PieceLock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A lock on a file that is no longer there holds nothing: the next one is taken."""
    lock, once = piece_lock._lock, [True]

    def slow(file: int) -> str:
        if once and once.pop():
            one.path.unlink()
        return lock(file)

    monkeypatch.setattr(piece_lock, "_lock", slow)
    assert one.take() == "here"
    assert other.take() == "elsewhere"
