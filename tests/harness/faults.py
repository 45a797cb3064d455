"""Every write of every deed fails, is cut off half-way, or is the last thing the companion did; then accounts.

Runs under the shim (see `sweep`): each trial is a fork of a process in which everything is loaded.
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
from tests.harness.deeds import DEEDS, Deed, marks, prepare, work_in

REPO = Path(__file__).parents[2]
FILE_SIZE = "the file may grow no further"
SMALL_DISK = (
    "unshare", "--user", "--map-root-user", "--mount",
    "sh", "-c", 'mount -t tmpfs -o size=4m tmpfs "$0" && exec "$@"',
)  # fmt: skip
PAGE = 4096


@dataclass(frozen=True)
class Fault:
    """What happens at a write. `sticky`: and at every later one."""

    mode: int
    error: int = 0
    sticky: bool = False

    @property
    def words(self) -> str:
        """For a report."""
        name = errno.errorcode.get(self.error, "")
        return f"{shim.MODES[self.mode]} {name}{' from there on' if self.sticky else ''}".strip()


FAULTS = (
    Fault(shim.FAIL, errno.ENOSPC),
    Fault(shim.FAIL, errno.EIO),
    Fault(shim.FAIL, errno.ENOSPC, sticky=True),
    Fault(shim.FAIL, errno.EIO, sticky=True),
    Fault(shim.FAIL, errno.EROFS, sticky=True),
    Fault(shim.HALF_THEN_FAIL, errno.ENOSPC),
    Fault(shim.KILL_BEFORE),
    Fault(shim.KILL_HALF),
    Fault(shim.KILL_AFTER),
)


@dataclass
class Tally:
    """What came of it all. `full`: trials on a disk that really had no room; 0 where none can be made."""

    trials: int = 0
    done: int = 0
    refused: int = 0
    died: int = 0
    full: int = 0
    stored_though_refused: int = 0
    positions: dict[str, int] = field(default_factory=dict)
    sentences: dict[str, int] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)


def sweep(folder: Path, *, deeds: int = len(DEEDS), every: int = 1) -> Tally:
    """All faults at every `every`-th write of the first `deeds` deeds, below that folder. Needs a C compiler."""
    folder.mkdir(parents=True, exist_ok=True)
    control = shim.Control(folder / "control")
    disk = folder / "disk"
    disk.mkdir()
    layer = shim.environment(shim.build(folder), control, disk / "home")
    own_disk = [*SMALL_DISK, str(disk)] if can_make_a_disk(disk) else []
    command = [sys.executable, "-m", "tests.harness.faults", str(folder), str(deeds), str(every)]
    run = subprocess.run(
        [*own_disk, *command], cwd=REPO, env=os.environ | layer, capture_output=True, text=True, check=False
    )
    if run.returncode:
        return Tally(wrong=[f"the trials themselves ended with {run.returncode}: {run.stderr[-2000:]}"])
    return Tally(**json.loads(run.stdout))


def can_make_a_disk(place: Path) -> bool:
    """Whether this machine lets its users mount a small disk of their own."""
    try:
        return subprocess.run([*SMALL_DISK, str(place), "true"], capture_output=True, check=False).returncode == 0
    except OSError:
        return False


class Trials:
    """One process under the shim, all deeds and faults."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.disk, self.home = folder, folder / "disk", folder / "disk" / "home"
        self.design = prepare(folder)
        self.control = shim.Control(folder / "control")
        self.tally = Tally()
        self.sentences: Counter[str] = Counter()

    def run(self, deeds: int, every: int) -> Tally:
        """The whole sweep."""
        for deed in DEEDS[:deeds]:
            before, after, positions = self._faultless(deed)
            self.tally.positions[deed.name] = positions
            for fault in FAULTS:
                first = 1 + FAULTS.index(fault) % every
                for at in sorted({*range(first, positions + 1, every), positions} - {0}):
                    turn_on = self._telling(fault, at)
                    self._trial(deed, f"{fault.words} at write {at}", before, after, turn_on, self.control.tell)
            for limit in self._limits(every):
                lift = _limiting(resource.RLIM_INFINITY)
                self._trial(deed, f"{FILE_SIZE} than {limit} bytes", before, after, _limiting(limit), lift)
            for pages in range(0, 64, every) if self.disk.is_mount() else ():
                self.tally.full += 1
                self._trial(
                    deed, f"a disk with {pages} pages left", before, after, self._filling(pages), self._make_room
                )
        self.tally.sentences = dict(self.sentences.most_common())
        return self.tally

    def _fresh(self, deed: Deed) -> None:
        shutil.rmtree(self.home, ignore_errors=True)
        shutil.copytree(self.folder / deed.home, self.home)

    def _faultless(self, deed: Deed) -> tuple[object, object, int]:
        self._fresh(deed)
        before = marks(self.home)
        outcome, _ = self._apart(deed, self.control.tell, _nothing)
        if outcome != "done":
            self.tally.wrong.append(f"{deed.name}: without any fault: {outcome}")
        return before, marks(self.home), self.control["count"]

    def _telling(self, fault: Fault, at: int) -> Callable[[], None]:
        return lambda: self.control.tell(fault.mode, at, fault.error, fault.sticky)

    def _filling(self, pages: int) -> Callable[[], None]:
        def fill() -> None:
            left = os.statvfs(self.disk).f_bavail * os.statvfs(self.disk).f_frsize
            with (self.disk / "ballast").open("wb") as file:
                os.posix_fallocate(file.fileno(), 0, max(1, left - pages * PAGE))

        return fill

    def _make_room(self) -> None:
        (self.disk / "ballast").unlink()

    def _limits(self, every: int) -> Iterator[int]:
        size = sum(path.stat().st_size for path in self.home.glob("*.sqlite3"))
        yield from range(0, 24 * 1024, 512 * every)
        yield from range(max(0, size - 16 * 1024) // 512 * 512, size + 1024, 512 * every)

    def _trial(
        self,
        deed: Deed,
        words: str,
        before: object,
        after: object,
        turn_on: Callable[[], None],
        lift: Callable[[], None],
    ) -> None:
        self._fresh(deed)
        outcome, again = self._apart(deed, turn_on, lift)
        self.control.tell()
        tally, name = self.tally, f"{deed.name}, {words}"
        tally.trials += 1
        stored = self._look(name)
        if outcome == "died":
            tally.died += 1
            whole = [_but_copies(one) for one in (before, after)]  # a copy may be kept before the deed itself
            if _but_copies(stored) not in whole and not self._begun(stored, after):
                tally.wrong.append(f"{name}: half of it is stored")
            return
        if outcome == "done":
            tally.done += 1
        elif outcome.startswith("refused: "):
            tally.refused += 1
            tally.stored_though_refused += again == "stored already"
            if again == "stored already" and "nothing was stored" in outcome.lower() and deed.name != "migration":
                tally.wrong.append(f"{name}: {outcome}, but it is stored")
            self.sentences[outcome.removeprefix("refused: ").replace(str(self.folder), "…")] += 1
            if again not in ("done", "stored already"):
                tally.wrong.append(f"{name}: after the fault it is still {again}")
        else:
            tally.wrong.append(f"{name}: {outcome}")
        if stored != after:
            tally.wrong.append(f"{name}: {outcome}, then {again or 'nothing'}; what is stored is something else")

    def _look(self, name: str) -> object:
        try:
            return marks(self.home)
        except Exception as error:
            self.tally.wrong.append(f"{name}: what is left can't be read: {error}")
            return None

    def _begun(self, stored: object, after: object) -> bool:
        """A first start is two writes: the file with its tables, and the piece. Between them nothing is half."""
        return isinstance(stored, dict) and isinstance(after, dict) and not stored.get("pieces") and (
            not stored.get("events") and stored.get("version") in ((0,), after["version"])
        )  # fmt: skip

    def _apart(self, deed: Deed, turn_on: Callable[[], None], lift: Callable[[], None]) -> tuple[str, str]:
        """The deed in a process of its own: how it ended, and how it ended again once the fault was lifted."""
        reading, writing = os.pipe()
        child = os.fork()
        if not child:
            os.close(reading)
            said = ("traceback", "")
            try:
                said = self._do(deed, turn_on, lift)
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

    def _do(self, deed: Deed, turn_on: Callable[[], None], lift: Callable[[], None]) -> tuple[str, str]:
        workshop = open_at(self.home)
        opened = work_in(workshop) if deed.home in ("under way", "made") else None
        held = _countable(self.home)
        turn_on()
        try:
            deed.do(workshop, opened, self.design)
            outcome = "done"
        except WorkshopError as error:
            outcome = f"refused: {error}"
        lift()
        if outcome == "done":
            return outcome, ""
        if (
            deed.name in ("card", "start", "first start") and _countable(self.home) != held
        ):  # once more would be another one
            return outcome, "stored already"
        try:
            deed.do(workshop, opened, self.design)
        except Stale:
            return outcome, "stored already"
        except WorkshopError as error:
            return outcome, f"refused: {error}"
        return outcome, "done"


def _but_copies(found: object) -> object:
    return {key: value for key, value in found.items() if key != "copies"} if isinstance(found, dict) else found


def _countable(home: Path) -> tuple[object, object]:
    found = marks(home)
    return found.get("pieces") or None, found.get("tests") or None


def _nothing() -> None:
    return


def _limiting(size: int) -> Callable[[], None]:
    """No file may be written beyond that many bytes: a real refusal by the system, as of a quota."""
    hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (min(size, hard) if hard != -1 else size, hard))


if __name__ == "__main__":
    print(json.dumps(asdict(Trials(Path(sys.argv[1])).run(int(sys.argv[2]), int(sys.argv[3])))))
