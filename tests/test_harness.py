"""Short runs of the harness, and that it sees what it looks for. The long runs: DEVELOPERS.md."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest

from companion.core.journal.events import Confirmed
from companion.storage.design.files import read_design_text
from companion.workshop import open_at
from tests.harness import faults, kill, powercut, shim
from tests.harness.__main__ import FUZZES
from tests.harness.accounts import Key, accounts, is_within
from tests.harness.designs import right_design

SPACE = Key(" ")
needs_compiler = pytest.mark.skipif(shim.compiler() is None, reason="no C compiler, or no Linux: no layer of faults")


@pytest.mark.parametrize("with_shim", [False, pytest.param(True, marks=needs_compiler)])
def test_killed_at_a_random_moment(tmp_path: Path, with_shim: bool) -> None:
    kill.prepare(tmp_path, with_shim)
    rounds = [kill.play(tmp_path, number, 7, with_shim) for number in range(4)]
    assert [one.wrong for one in rounds] == [[]] * 4
    assert sum(one.sent for one in rounds) > 0


@needs_compiler
def test_every_write_of_a_deed_can_fail(tmp_path: Path) -> None:
    tally = faults.sweep(tmp_path, deeds=2, every=9)
    assert tally.wrong == []
    assert tally.refused > 0
    assert tally.died > 0
    assert any("does not confirm what was written" in sentence for sentence in tally.sentences)
    (tmp_path / "other").mkdir()
    assert (tally.full > 0) == faults.can_make_a_disk(tmp_path / "other")


@needs_compiler
@pytest.mark.parametrize("home", ["empty", "old"])
def test_the_current_fails_after_any_write(tmp_path: Path, home: str) -> None:
    told = powercut.cuts(tmp_path, deeds=4, each=1, home=home)
    assert told.wrong == []
    assert 0 < told.rolled_back < told.disks


def test_what_is_not_synced_may_be_lost_and_what_is_synced_stays(tmp_path: Path) -> None:
    disk = powercut.Disk(tmp_path)
    file = str(tmp_path / "a")

    def may_be_found() -> set[bytes | None]:
        return {disk.found(random.Random(seed)).get("a") for seed in range(60)}

    disk.take(powercut.Record(powercut.CREATE, file, 0, b""))
    disk.take(powercut.Record(powercut.WRITE, file, 0, b"x" * 512))
    assert may_be_found() >= {None, b"", b"x" * 512}
    disk.take(powercut.Record(powercut.SYNC, file, 0, b""))
    assert may_be_found() == {None, b"x" * 512}  # its name is in the folder, which is not synced
    disk.take(powercut.Record(powercut.SYNC, str(tmp_path), 0, b""))
    assert may_be_found() == {b"x" * 512}
    disk.take(powercut.Record(powercut.WRITE, file, 0, b"y" * 1024))
    assert b"x" * 512 + b"y" * 512 in may_be_found()  # torn at a sector
    disk.take(powercut.Record(powercut.UNLINK, file, 0, b""))
    assert None in may_be_found()
    assert may_be_found() != {None}


@pytest.mark.parametrize("what", FUZZES)
def test_rubbish_is_told_in_words(tmp_path: Path, what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("COMPANION_HOME", "COMPANION_TRACEBACK"):  # set on the way, and put back
        monkeypatch.setenv(name, "")
    rounds = {"designs": 120, "app": 3, "commands": 5, "terminals": 1}[what]
    went = [FUZZES[what](tmp_path, 5000 + number) for number in range(rounds)]
    # Time and memory are judged in the long runs, which have a process of their own.
    own = [one.wrong for one in went if not one.wrong.startswith("the process holds") and "took" not in one.wrong]
    assert [wrong for wrong in own if wrong] == []
    assert all(one.outcome not in ("traceback", "hang") for one in went)


def test_right_designs_are_read() -> None:
    problems = [read_design_text(right_design(number), "right.yaml").problems for number in range(40)]
    assert [found for found in problems if any(one.code != "fit adds nothing" for one in found)] == []


def test_the_accounts_see_what_is_not_stored_and_what_is_stored_twice(tmp_path: Path) -> None:
    design = tmp_path / "long.yaml"
    design.write_text(kill.DESIGN)
    home = tmp_path / "home"
    workshop = open_at(home)
    opened = workshop.start(design)
    for _ in range(3):
        opened = workshop.confirm(opened)
    workshop.close()

    def wrong(keys: int, shown: list[int]) -> str:
        told = accounts(home, 0, [SPACE] * keys, shown, set(), strict=True)
        db = sqlite3.connect(home / "pieces.sqlite3", isolation_level=None)
        db.execute("DROP TRIGGER event_never_deleted")
        db.execute("DELETE FROM event WHERE seq > 4")  # the step that the accounts themselves make at last
        db.execute("UPDATE piece SET steps_done = 3")
        db.execute(
            "CREATE TRIGGER event_never_deleted BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'only added to'); END"
        )
        db.close()
        return " ".join(told.wrong)

    assert wrong(3, [0, 2, 3]) == ""
    assert "shown [0, 4], stored [0, 1, 2, 3]" in wrong(3, [0, 4])
    assert "no key that was typed is left" in wrong(2, [0])
    assert str(Confirmed(3)) in wrong(2, [])


def test_states_shown_have_to_come_in_their_order() -> None:
    assert is_within([1, 3], [0, 1, 2, 3])
    assert is_within([], [0])
    assert not is_within([3, 1], [0, 1, 2, 3])
    assert not is_within([2, 2], [1, 2, 3])
