"""Fault injection between Tallycord and its disk, built with the C compiler of the machine; see shim.c."""

from __future__ import annotations

import mmap
import os
import shutil
import struct
import subprocess
from pathlib import Path

SOURCE = Path(__file__).with_name("shim.c")
OFF, FAIL, HALF_THEN_FAIL, KILL_BEFORE, KILL_HALF, KILL_AFTER = range(6)
MODES = ("off", "fails", "half written, then fails", "killed before", "killed half written", "killed after")
_FIELDS = ("mode", "at", "error", "sticky", "delay_us", "folder_only", "count", "hits")


def compiler() -> str | None:
    """The machine's C compiler, None where it has none or is no Linux."""
    return (shutil.which("cc") or shutil.which("gcc")) if os.path.isdir("/proc/self/fd") else None


def build(folder: Path) -> Path:
    """The shim, built in that folder. Raises CalledProcessError where the compiler refuses."""
    made = folder / "shim.so"
    command = [compiler() or "cc", "-O1", "-shared", "-fPIC", "-o", str(made), str(SOURCE)]
    subprocess.run(command, check=True, capture_output=True)
    return made


class Control:
    """Which fault to inject, and how many calls there were, in a file that the program under test maps too."""

    def __init__(self, file: Path) -> None:
        self.file = file
        if not file.exists():
            file.write_bytes(bytes(4096))
        with file.open("r+b") as opened:
            self._map = mmap.mmap(opened.fileno(), 4096)

    def inject(
        self,
        mode: int,
        at: int = 0,
        error: int = 0,
        *,
        sticky: bool = False,
        delay_us: int = 0,
        folder_only: bool = False,
    ) -> None:
        """From now on: at the `at`-th call from here, the first being 1, do as `mode` says; count from 0 again.

        `sticky`: at each later call too. `folder_only`: count only calls on the folder itself, that is, those that
        force its names to disk.
        """
        struct.pack_into("8i", self._map, 0, OFF, at, error, sticky, delay_us, folder_only, 0, 0)
        struct.pack_into("i", self._map, 0, mode)

    def clear(self) -> None:
        """No fault any more; count from 0 again."""
        self.inject(OFF)

    def __getitem__(self, field: str) -> int:
        value: int = struct.unpack_from("8i", self._map)[_FIELDS.index(field)]
        return value


def environment(library: Path, control: Control, folder: Path, trace: Path | None = None) -> dict[str, str]:
    """The variables that put the shim under a program, for all that is written below that folder."""
    variables = {"LD_PRELOAD": str(library), "FAULT_CONTROL": str(control.file)}
    variables["FAULT_FOLDER"] = os.path.realpath(folder)
    return variables | ({"FAULT_TRACE": str(trace)} if trace else {})
