"""Where results and complaints go: closed, full or narrow outputs, an interrupt, a fault of our own."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from companion.cli import printing
from companion.cli.main import FAMILIES
from companion.workshop import Workshop

REPO = Path(__file__).parents[2]
COMMANDS = [name for names in FAMILIES.values() for name in names]


def in_a_shell(line: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """The line with `companion` standing for the real program, in a shell of its own."""
    program = f'companion() {{ "{sys.executable}" -m companion "$@"; }}\n'
    return subprocess.run(
        ["bash", "-c", program + line], cwd=REPO, env={**os.environ, **environment},
        stdin=subprocess.DEVNULL, capture_output=True, text=True,
    )  # fmt: skip


def test_a_closed_output_is_nobody_listening() -> None:
    ran = in_a_shell("companion plan patterns/skerry-bracelet.yaml >&-")
    assert (ran.returncode, ran.stderr) == (0, "")


def test_closed_errors_leave_the_exit_code_to_tell(tmp_path) -> None:
    ran = in_a_shell(f"companion check {tmp_path}/none.yaml 2>&-")
    assert (ran.returncode, ran.stdout) == (1, "")


def test_a_closed_input_is_no_terminal() -> None:
    ran = in_a_shell("companion follow patterns/skerry-bracelet.yaml <&-")
    assert ran.returncode == 1
    assert "companion start" in ran.stderr


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no /dev/full here")
@pytest.mark.parametrize("command", ["pieces", "plan patterns/bell-rock-rope.yaml", "schema"])
def test_a_full_disk_under_the_output_is_told(command) -> None:
    ran = in_a_shell(f"companion {command} >/dev/full")
    assert ran.returncode == 1
    assert ran.stderr.splitlines() == ["What there is to say could not be written: no space left on device."]


def test_broken_pipes_are_quiet_on_both_sides(tmp_path) -> None:
    ran = in_a_shell(f"companion check {tmp_path}/none.yaml 2> >(true); echo $?")
    assert ran.stdout.strip() == "1"
    assert ran.stderr == ""


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_prints_in_any_encoding_and_shows_lines_to_type(command) -> None:
    ran = in_a_shell(f"companion {command} --help", LC_ALL="C", PYTHONIOENCODING="ascii:strict", PYTHONUTF8="0")
    assert ran.returncode == 0, ran.stderr
    assert f"  companion {command or 'plan'} " in ran.stdout or f"  companion {command}\n" in ran.stdout
    assert [line for line in ran.stdout.splitlines() if len(line) > 80] == []


def test_marks_that_an_output_cannot_show_are_written_out(monkeypatch) -> None:
    narrow = io.TextIOWrapper(io.BytesIO(), encoding="ascii", errors="strict")
    monkeypatch.setattr(sys, "stdout", narrow)
    printing.say("▲ 7 15/16 ± 1/8 in · «glass» – Ærø")
    narrow.flush()
    assert narrow.buffer.getvalue().decode() == '! 7 15/16 +/- 1/8 in - "glass" - ?r?\n'


def test_marks_that_an_output_can_show_stay(monkeypatch) -> None:
    wide = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    monkeypatch.setattr(sys, "stdout", wide)
    printing.say("▲ 7 ± 1/8 in")
    wide.flush()
    assert wide.buffer.getvalue().decode() == "▲ 7 ± 1/8 in\n"


def test_json_is_ascii_and_nothing_else_is_on_stdout(companion, tmp_path) -> None:
    path = tmp_path / "design.yaml"
    path.write_text(
        "format: 1\nname: Ærø light\ncord: {name: silk, diameter: 0.5 mm}\n"
        "beads: {g: {length: 6 mm, name: Ærøskøbing}}\nstrand: {layout: [g, knot]}\n",
        encoding="utf-8",
    )
    ran = companion("plan", path, "--json")
    assert ran.out.isascii()
    assert json.loads(ran.out)["design"] == "Ærø light"


def test_an_interrupt_is_quiet(companion, monkeypatch) -> None:
    def interrupted(self: Workshop) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Workshop, "pieces", interrupted)
    ran = companion("pieces")
    assert (ran.code, ran.out, ran.err) == (130, "", "")


def test_a_fault_of_our_own_is_one_line_and_its_trace_can_be_had(companion, monkeypatch) -> None:
    def broken(self: Workshop) -> None:
        raise ZeroDivisionError("a\x1b[31m\nb")

    monkeypatch.setattr(Workshop, "pieces", broken)
    ran = companion("pieces")
    assert ran.code == 1
    assert ran.err == "Something went wrong in the companion itself: ZeroDivisionError: a[31m b.\n"
    monkeypatch.setenv("COMPANION_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        companion("pieces")


def test_the_schema_is_json_and_the_version_is_said(companion) -> None:
    assert json.loads(companion("schema").out)["type"] == "object"
    assert companion("--version").out.startswith("companion 0.")


def test_every_command_is_in_the_list_and_listed_once(companion) -> None:
    out = companion("--help").out
    listed = [line.split()[0] for line in out.splitlines() if line.startswith("    ") and line[4] != " "]
    assert listed == ["follow", "plan", "check", "schema", "forecast", *COMMANDS[5:]]
    assert len(set(COMMANDS)) == len(COMMANDS)
