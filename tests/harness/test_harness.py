"""Short runs of the harness, and that it sees what it looks for. The long runs: DEVELOPERS.md."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest

from companion.core.journal.events import Confirmed
from companion.storage.design.files import read_design_text
from companion.workshop import open_at
from tests.examples import LONG
from tests.harness import fault_injection, kill, power_cut, shim
from tests.harness.__main__ import FUZZES
from tests.harness.design_files import valid_design
from tests.harness.import_fuzz import taken_or_refused, valid_export
from tests.harness.oracle import Key, Observed, is_subsequence, judge

SPACE = Key(" ")
in_terminal = pytest.mark.xdist_group("terminal")
needs_compiler = pytest.mark.skipif(shim.compiler() is None, reason="no C compiler, or no Linux: no faults to inject")


@in_terminal
@pytest.mark.parametrize("with_shim", [False, pytest.param(True, marks=needs_compiler)])
def test_killed_at_a_random_moment(tmp_path: Path, with_shim: bool) -> None:
    kill.prepare(tmp_path, with_shim)
    trials = [kill.run_trial(tmp_path, number, 7, with_shim) for number in range(4)]
    assert [one.wrong for one in trials] == [[]] * 4
    assert sum(one.sent for one in trials) > 0


@needs_compiler
def test_every_write_of_a_scenario_can_fail(tmp_path: Path) -> None:
    sweep = fault_injection.sweep(tmp_path, scenarios=2, every=9)
    assert sweep.wrong == []
    assert sweep.refused > 0
    assert sweep.died > 0
    assert any("did not confirm the write" in sentence for sentence in sweep.sentences)
    (tmp_path / "other").mkdir()
    assert (sweep.full > 0) == fault_injection.can_make_a_disk(tmp_path / "other")


@needs_compiler
@pytest.mark.parametrize("home", ["empty", "old"])
def test_the_power_is_cut_after_any_write(tmp_path: Path, home: str) -> None:
    cuts = power_cut.run_trials(tmp_path, acts=4, each=1, home=home)
    assert cuts.wrong == []
    assert 0 < cuts.rolled_back < cuts.disks


def test_what_is_not_synced_may_be_lost_and_what_is_synced_stays(tmp_path: Path) -> None:
    disk = power_cut.Disk(tmp_path)
    file = str(tmp_path / "a")

    def may_be_found() -> set[bytes | None]:
        return {disk.after_cut(random.Random(seed)).get("a") for seed in range(60)}

    disk.apply(power_cut.Record(power_cut.CREATE, file, 0, b""))
    disk.apply(power_cut.Record(power_cut.WRITE, file, 0, b"x" * 512))
    assert may_be_found() >= {None, b"", b"x" * 512}
    disk.apply(power_cut.Record(power_cut.SYNC, file, 0, b""))
    assert may_be_found() == {None, b"x" * 512}  # its name is in the folder, which is not synced
    disk.apply(power_cut.Record(power_cut.SYNC, str(tmp_path), 0, b""))
    assert may_be_found() == {b"x" * 512}
    disk.apply(power_cut.Record(power_cut.WRITE, file, 0, b"y" * 1024))
    assert b"x" * 512 + b"y" * 512 in may_be_found()  # torn at a sector
    disk.apply(power_cut.Record(power_cut.UNLINK, file, 0, b""))
    assert None in may_be_found()
    assert may_be_found() != {None}


@pytest.mark.parametrize("what", ["designs", "app", "commands", pytest.param("terminals", marks=in_terminal)])
def test_rubbish_is_answered_in_words(tmp_path: Path, what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("TALLYCORD_HOME", "TALLYCORD_TRACEBACK"):  # set on the way, and put back
        monkeypatch.setenv(name, "")
    count = {"designs": 120, "app": 2, "commands": 5, "terminals": 1}[what]
    trials = [FUZZES[what](tmp_path, 5000 + number) for number in range(count)]
    # Time and memory are judged in the long runs, which have a process of their own.
    own = [one.wrong for one in trials if not one.wrong.startswith("the process holds") and "took" not in one.wrong]
    assert [wrong for wrong in own if wrong] == []
    assert all(one.outcome not in ("traceback", "hang") for one in trials)


def test_valid_designs_are_read() -> None:
    problems = [read_design_text(valid_design(number), "valid.yaml").problems for number in range(40)]
    assert [found for found in problems if any(one.code != "fit adds nothing" for one in found)] == []


def test_a_valid_export_is_taken(tmp_path: Path) -> None:
    assert taken_or_refused(valid_export().encode(), tmp_path)


def test_mutated_exports_are_refused_in_words_or_can_be_gone_on_with(tmp_path: Path) -> None:
    numbers = range(30 if LONG else 33, 42)
    outcomes = [FUZZES["imports"](tmp_path, 5000 + number) for number in numbers]
    assert [one.wrong for one in outcomes if one.wrong] == []
    taken = sum(one.outcome == "taken" for one in outcomes)
    assert 0 < taken < 7  # some of what is done to one does no harm, most does


def test_the_oracle_sees_what_is_not_stored_and_what_is_stored_twice(tmp_path: Path) -> None:
    design = tmp_path / "long.yaml"
    design.write_text(kill.DESIGN)
    home = tmp_path / "home"
    workshop = open_at(home)
    opened = workshop.start(design)
    for _ in range(3):
        opened = workshop.confirm(opened)
    workshop.close()

    def wrong(keys: int, shown: list[int]) -> str:
        judgement = judge(home, Observed(0, [SPACE] * keys, shown))
        db = sqlite3.connect(home / "pieces.sqlite3", isolation_level=None)
        db.execute("DROP TRIGGER event_never_deleted")
        db.execute("DELETE FROM event WHERE seq > 4")  # the step that the oracle itself makes at last
        db.execute("UPDATE piece SET steps_done = 3")
        db.execute(
            "CREATE TRIGGER event_never_deleted BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'only added to'); END"
        )
        db.close()
        return " ".join(judgement.wrong)

    assert wrong(3, [0, 2, 3]) == ""
    assert "shown [0, 4], stored [0, 1, 2, 3]" in wrong(3, [0, 4])
    assert "no key that was typed is left" in wrong(2, [0])
    assert str(Confirmed(3)) in wrong(2, [])


def test_states_shown_have_to_come_in_their_order() -> None:
    assert is_subsequence([1, 3], [0, 1, 2, 3])
    assert is_subsequence([], [0])
    assert not is_subsequence([3, 1], [0, 1, 2, 3])
    assert not is_subsequence([2, 2], [1, 2, 3])
