"""Fault injection: each write of each scenario fails, is cut off half-way, or is the last thing the program did.

After each trial the disk is whole again, and the same act must succeed; what is stored then is what a run without any
fault stores. Runs under the shim (see `sweep`): each trial is a fork of a process in which everything is loaded.
"""

from __future__ import annotations

import errno
import json
import os
import resource
import shutil
import signal
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path

from companion.core.values.errors import Stale, WorkshopError
from companion.workshop import open_at
from tests.harness import shim
from tests.harness.scenarios import MADE, SCENARIOS, UNDER_WAY, Scenario, first_piece, prepare, snapshot

REPO = Path(__file__).parents[2]
SMALL_DISK = (
    "unshare", "--user", "--map-root-user", "--mount",
    "sh", "-c", 'mount -t tmpfs -o size=4m tmpfs "$0" && exec "$@"',
)  # fmt: skip
PAGE = 4096
STORED_ALREADY = "stored already"
TOLD_APART = ("card", "start", "first start")  # done once more, these would store a second one


@dataclass(frozen=True)
class InjectedFault:
    """What happens at a write. `sticky`: and at each later one."""

    mode: int
    error: int = 0
    sticky: bool = False

    @property
    def words(self) -> str:
        """For a report."""
        name = errno.errorcode.get(self.error, "")
        return f"{shim.MODES[self.mode]} {name}{' from there on' if self.sticky else ''}".strip()


FAULTS = (
    InjectedFault(shim.FAIL, errno.ENOSPC),
    InjectedFault(shim.FAIL, errno.EIO),
    InjectedFault(shim.FAIL, errno.ENOSPC, sticky=True),
    InjectedFault(shim.FAIL, errno.EIO, sticky=True),
    InjectedFault(shim.FAIL, errno.EROFS, sticky=True),
    InjectedFault(shim.HALF_THEN_FAIL, errno.ENOSPC),
    InjectedFault(shim.KILL_BEFORE),
    InjectedFault(shim.KILL_HALF),
    InjectedFault(shim.KILL_AFTER),
)


@dataclass
class Sweep:
    """What came of all trials. `full`: those on a disk that really had no room, 0 where none can be made.

    `writes`: of each scenario, how many there are; `sentences`: how often a maker would have read each; `wrong`: a
    sentence for each fault found.
    """

    trials: int = 0
    done: int = 0
    refused: int = 0
    died: int = 0
    full: int = 0
    stored_though_refused: int = 0
    writes: dict[str, int] = field(default_factory=dict)
    sentences: dict[str, int] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)


def sweep(folder: Path, *, scenarios: int = len(SCENARIOS), every: int = 1) -> Sweep:
    """All faults at every `every`-th write of the first so many scenarios, below that folder. Needs a C compiler."""
    folder.mkdir(parents=True, exist_ok=True)
    control = shim.Control(folder / "control")
    disk = folder / "disk"
    disk.mkdir()
    layer = shim.environment(shim.build(folder), control, disk / "home")
    own_disk = [*SMALL_DISK, str(disk)] if can_make_a_disk(disk) else []
    command = [sys.executable, "-m", "tests.harness.fault_injection", str(folder), str(scenarios), str(every)]
    run = subprocess.run(
        [*own_disk, *command], cwd=REPO, env=os.environ | layer, capture_output=True, text=True, check=False
    )
    if run.returncode:
        return Sweep(wrong=[f"the trials themselves ended with {run.returncode}: {run.stderr[-2000:]}"])
    return Sweep(**json.loads(run.stdout))


def can_make_a_disk(place: Path) -> bool:
    """Whether this machine lets its users mount a small disk of their own."""
    try:
        return subprocess.run([*SMALL_DISK, str(place), "true"], capture_output=True, check=False).returncode == 0
    except OSError:
        return False


@dataclass(frozen=True)
class Injection:
    """A fault, by its words in a report, how it is switched on and how it is switched off."""

    words: str
    on: Callable[[], None]
    off: Callable[[], None]


class Trials:
    """All trials, in one process under the shim."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.disk, self.home = folder, folder / "disk", folder / "disk" / "home"
        self.design = prepare(folder)
        self.control = shim.Control(folder / "control")
        self.sweep = Sweep()
        self.sentences: Counter[str] = Counter()

    def run(self, scenarios: int, every: int) -> Sweep:
        """The whole sweep."""
        for scenario in SCENARIOS[:scenarios]:
            before, after, writes = self._without_fault(scenario)
            self.sweep.writes[scenario.name] = writes
            for injection in self._injections(writes, every):
                self._trial(scenario, injection, before, after)
        self.sweep.sentences = dict(self.sentences.most_common())
        return self.sweep

    def _without_fault(self, scenario: Scenario) -> tuple[object, object, int]:
        """What is stored before and after, and how many writes there are."""
        self._prepare_home(scenario)
        before = snapshot(self.home)
        outcome, _ = self._in_child(scenario, Injection("no fault", self.control.clear, _nothing))
        if outcome != "done":
            self.sweep.wrong.append(f"{scenario.name}: without any fault: {outcome}")
        return before, snapshot(self.home), self.control["count"]

    def _prepare_home(self, scenario: Scenario) -> None:
        shutil.rmtree(self.home, ignore_errors=True)
        shutil.copytree(self.folder / scenario.home, self.home)

    # -- the faults ---------------------------------------------------------------------------------------------------

    def _injections(self, writes: int, every: int) -> Iterator[Injection]:
        for number, fault in enumerate(FAULTS):
            for at in sorted({*range(1 + number % every, writes + 1, every), writes} - {0}):
                yield self._at_write(fault, at)
        for size in self._file_sizes(every):
            words = f"the file may grow no further than {size} bytes"
            yield Injection(words, _limit_files(size), _limit_files(resource.RLIM_INFINITY))
        for pages in range(0, 64, every) if self.disk.is_mount() else ():
            self.sweep.full += 1
            yield Injection(f"a disk with {pages} pages left", self._fill(pages), self._make_room)

    def _at_write(self, fault: InjectedFault, at: int) -> Injection:
        def on() -> None:
            self.control.inject(fault.mode, at, fault.error, sticky=fault.sticky)

        return Injection(f"{fault.words} at write {at}", on, self.control.clear)

    def _file_sizes(self, every: int) -> Iterator[int]:
        size = sum(path.stat().st_size for path in self.home.glob("*.sqlite3"))
        yield from range(0, 24 * 1024, 512 * every)
        yield from range(max(0, size - 16 * 1024) // 512 * 512, size + 1024, 512 * every)

    def _fill(self, pages: int) -> Callable[[], None]:
        def fill() -> None:
            left = os.statvfs(self.disk).f_bavail * os.statvfs(self.disk).f_frsize
            with (self.disk / "ballast").open("wb") as file:
                os.posix_fallocate(file.fileno(), 0, max(1, left - pages * PAGE))

        return fill

    def _make_room(self) -> None:
        (self.disk / "ballast").unlink()

    # -- one trial ----------------------------------------------------------------------------------------------------

    def _trial(self, scenario: Scenario, injection: Injection, before: object, after: object) -> None:
        self._prepare_home(scenario)
        outcome, again = self._in_child(scenario, injection)
        self.control.clear()
        name = f"{scenario.name}, {injection.words}"
        self.sweep.trials += 1
        stored = self._stored(name)
        if outcome == "died":
            self.sweep.died += 1
            whole = [
                _without_copies(one) for one in (before, after)
            ]  # the day's copy may be kept before the act itself
            if _without_copies(stored) not in whole and not _is_empty_file(stored, after):
                self._wrong(f"{name}: half of it is stored")
            return
        self._judge_outcome(scenario, name, outcome, again)
        if stored != after:
            self._wrong(f"{name}: {outcome}, then {again or 'nothing'}; what is stored is something else")

    def _judge_outcome(self, scenario: Scenario, name: str, outcome: str, again: str) -> None:
        if outcome == "done":
            self.sweep.done += 1
        elif outcome.startswith("refused: "):
            self.sweep.refused += 1
            self.sweep.stored_though_refused += again == STORED_ALREADY
            if again == STORED_ALREADY and "nothing was saved" in outcome.lower() and scenario.name != "migration":
                self._wrong(f"{name}: {outcome}, but it is stored")
            self.sentences[outcome.removeprefix("refused: ").replace(str(self.folder), "…")] += 1
            if again not in ("done", STORED_ALREADY):
                self._wrong(f"{name}: after the fault it is still {again}")
        else:
            self._wrong(f"{name}: {outcome}")

    def _wrong(self, sentence: str) -> None:
        self.sweep.wrong.append(sentence)

    def _stored(self, name: str) -> object:
        try:
            return snapshot(self.home)
        except Exception as error:
            self._wrong(f"{name}: what is left can't be read: {error}")
            return None

    def _in_child(self, scenario: Scenario, injection: Injection) -> tuple[str, str]:
        """The act in a process of its own: its outcome, and the outcome of the same act once the fault is over."""
        reading, writing = os.pipe()
        child = os.fork()
        if not child:
            os.close(reading)
            said = ("traceback", "")
            try:
                said = self._act_twice(scenario, injection)
            except BaseException as error:
                said = (f"traceback {type(error).__name__}: {error}", "")
            finally:
                os.write(writing, json.dumps(said).encode())
                os._exit(0)
        os.close(writing)
        with os.fdopen(reading, "rb") as pipe:
            text = pipe.read()
        _, status = os.waitpid(child, 0)
        if os.WIFSIGNALED(status):
            return ("died", "") if os.WTERMSIG(status) == signal.SIGKILL else (f"signal {os.WTERMSIG(status)}", "")
        outcome, again = json.loads(text)
        return outcome, again

    def _act_twice(self, scenario: Scenario, injection: Injection) -> tuple[str, str]:
        workshop = open_at(self.home)
        opened = first_piece(workshop) if scenario.home in (UNDER_WAY, MADE) else None
        there = _pieces_and_tests(self.home)
        injection.on()
        try:
            scenario.act(workshop, opened, self.design)
            outcome = "done"
        except WorkshopError as error:
            outcome = f"refused: {error}"
        injection.off()
        if outcome == "done":
            return outcome, ""
        if scenario.name in TOLD_APART and _pieces_and_tests(self.home) != there:
            return outcome, STORED_ALREADY
        try:
            scenario.act(workshop, opened, self.design)
        except Stale:
            return outcome, STORED_ALREADY
        except WorkshopError as error:
            return outcome, f"refused: {error}"
        return outcome, "done"


def _without_copies(found: object) -> object:
    return {key: value for key, value in found.items() if key != "copies"} if isinstance(found, dict) else found


def _is_empty_file(stored: object, after: object) -> bool:
    """A first start is two writes: the file with its tables, then the piece. Between them nothing is half stored."""
    return isinstance(stored, dict) and isinstance(after, dict) and not stored.get("pieces") and (
        not stored.get("events") and stored.get("version") in ((0,), after["version"])
    )  # fmt: skip


def _pieces_and_tests(home: Path) -> tuple[object, object]:
    found = snapshot(home)
    return found.get("pieces") or None, found.get("tests") or None


def _nothing() -> None:
    return


def _limit_files(size: int) -> Callable[[], None]:
    """No file may be written beyond that many bytes: a real refusal by the system, as of a quota."""
    hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (min(size, hard) if hard != -1 else size, hard))


if __name__ == "__main__":
    print(json.dumps(asdict(Trials(Path(sys.argv[1])).run(int(sys.argv[2]), int(sys.argv[3])))))
