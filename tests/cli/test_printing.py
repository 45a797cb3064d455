"""Where results and complaints go: closed, full or narrow outputs."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys

import pytest

from companion.cli import printing
from tests.cli.running import REPO, in_a_shell


def test_a_closed_output_is_nobody_listening() -> None:
    ran = in_a_shell("tallycord plan patterns/skerry-bracelet.yaml >&-")
    assert (ran.returncode, ran.stderr) == (0, "")


def test_closed_errors_leave_the_exit_code_to_tell(tmp_path) -> None:
    ran = in_a_shell(f"tallycord check {tmp_path}/none.yaml 2>&-")
    assert (ran.returncode, ran.stdout) == (1, "")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no /dev/full here")
@pytest.mark.parametrize("command", ["pieces", "plan patterns/bell-rock-rope.yaml", "schema"])
def test_a_full_disk_under_the_output_is_told(command) -> None:
    ran = in_a_shell(f"tallycord {command} >/dev/full")
    assert ran.returncode == 1
    assert ran.stderr.splitlines() == ["Could not print the result: no space left on device."]


def test_broken_pipes_are_quiet_on_both_sides(tmp_path) -> None:
    ran = in_a_shell(f"tallycord check {tmp_path}/none.yaml 2> >(true); echo $?")
    assert ran.stdout.strip() == "1"
    assert ran.stderr == ""


def test_a_closed_pipe_is_quiet(patterns) -> None:
    command = f"{sys.executable} -m companion plan {patterns}/bell-rock-rope.yaml | head -n 1"
    run = subprocess.run(["bash", "-c", command], capture_output=True, text=True, cwd=REPO)
    assert run.stderr == ""
    assert run.stdout.startswith("Bell Rock rope")


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_any_output_encoding_will_do(skerry, encoding) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "companion", "plan", str(skerry)],
        capture_output=True, cwd=REPO, env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    between = b"-" if encoding == "ascii" else "·".encode(encoding)
    assert run.stdout.splitlines()[0] == b"Skerry bracelet " + between + b" wrist 6 1/2 in"


def test_marks_that_an_output_cannot_show_are_written_out(monkeypatch) -> None:
    narrow = io.TextIOWrapper(io.BytesIO(), encoding="ascii", errors="strict")
    monkeypatch.setattr(sys, "stdout", narrow)
    printing.say("▲ 7 15/16 ± 1/8 in · «glass» – Ærø")
    narrow.flush()
    assert narrow.buffer.getvalue().decode() == 'Warning: 7 15/16 +/- 1/8 in - "glass" - ?r?\n'


def test_marks_that_an_output_can_show_stay(monkeypatch) -> None:
    wide = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    monkeypatch.setattr(sys, "stdout", wide)
    printing.say("7 ± 1/8 in · Ærø")
    wide.flush()
    assert wide.buffer.getvalue().decode() == "7 ± 1/8 in · Ærø\n"


def test_json_is_ascii_and_nothing_else_is_on_stdout(tallycord, tmp_path) -> None:
    path = tmp_path / "design.yaml"
    path.write_text(
        "format: 1\nname: Ærø light\ncord: {name: silk, diameter: 0.5 mm}\n"
        "beads: {g: {length: 6 mm, name: Ærøskøbing}}\nstrand: {layout: [g, knot]}\n",
        encoding="utf-8",
    )
    ran = tallycord("plan", path, "--json")
    assert ran.out.isascii()
    assert json.loads(ran.out)["design"] == "Ærø light"
