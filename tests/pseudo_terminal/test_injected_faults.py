"""The disk fails under the open app: the step is not shown as made, the maker is told, and the same key works after."""

from __future__ import annotations

import errno
import os
import resource
from collections.abc import Callable
from pathlib import Path

import pytest

from companion.workshop import open_at
from tests.harness import shim
from tests.pseudo_terminal.terminal import Terminal

needs_compiler = pytest.mark.skipif(shim.compiler() is None, reason="no C compiler, or no Linux: no faults to inject")


@pytest.fixture
def at_step_two(follow: Callable[..., Terminal]) -> Callable[[dict[str, str]], Terminal]:
    """Begin a piece under these variables, one step made."""

    def begin(variables: dict[str, str]) -> Terminal:
        run = follow(environment=variables)
        run.press(" ")
        run.until("step 2 of 33")
        return run

    return begin


def makes_a_step(run: Terminal) -> None:
    run.press(" ")
    run.until("step 3 of 33")
    run.until_gone("Undone: step")  # said of the step before, and gone a frame later


def takes_it_back(run: Terminal) -> None:
    run.press("u")
    run.until("step 2 of 33")
    run.until("Undone: step")


def stored(home: Path) -> int:
    workshop = open_at(home)
    done = workshop.open("skerry-bracelet").piece.done
    workshop.close()
    return done


@needs_compiler
@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EIO], ids=errno.errorcode.get)
def test_a_disk_that_is_full_or_broken(tmp_path: Path, data_folder: Path, at_step_two, error: int) -> None:
    control = shim.Control(tmp_path / "control")
    run = at_step_two(shim.environment(shim.build(tmp_path), control, data_folder))
    for write in (1, 5, 11):  # making the journal, filling it, and after it
        control.inject(shim.FAIL, write, error, sticky=True)
        run.press(" ")
        run.until("nothing was saved")
        assert control["hits"] > 0
        assert "step 2 of 33" in run.screen.text
        control.clear()
        assert stored(data_folder) == 1
        run.press("c")  # the sentence goes when something else is asked
        run.until("leftover cord should measure")
        run.leave("Esc cancel")
        makes_a_step(run)
        assert stored(data_folder) == 2
        takes_it_back(run)
    makes_a_step(run)
    takes_it_back(run)


@needs_compiler
def test_a_step_that_the_disk_does_not_confirm_is_never_counted_twice(
    tmp_path: Path, data_folder: Path, at_step_two
) -> None:
    control = shim.Control(tmp_path / "control")
    run = at_step_two(shim.environment(shim.build(tmp_path), control, data_folder))
    # SQLite forces the folder to disk twice: once the journal is there, and once it is gone, which is the commit
    control.inject(shim.FAIL, 2, errno.EIO, sticky=True, folder_only=True)
    run.press(" ")
    run.until("did not confirm the write")
    control.clear()
    assert stored(data_folder) == 2
    run.press(" ")  # meant for the same step: it only answers
    run.until("The saved piece has 2 of 33 steps done.")
    run.wait_for("step 3 of 33")
    assert stored(data_folder) == 2
    takes_it_back(run)


@pytest.mark.skipif(not hasattr(resource, "prlimit"), reason="no limit can be set on another process here")
def test_a_file_that_may_grow_no_further(data_folder: Path, at_step_two) -> None:
    run = at_step_two({})
    limit, hard = resource.prlimit(run.process.pid, resource.RLIMIT_FSIZE)
    for size in (0, 512, 4096):
        resource.prlimit(run.process.pid, resource.RLIMIT_FSIZE, (size, hard))
        run.press(" ")
        run.until("nothing was saved")
        assert "step 2 of 33" in run.screen.text
        assert stored(data_folder) == 1
        resource.prlimit(run.process.pid, resource.RLIMIT_FSIZE, (limit, hard))
        makes_a_step(run)
        takes_it_back(run)
    assert os.path.getsize(data_folder / "pieces.sqlite3") > 4096
    makes_a_step(run)
    takes_it_back(run)
