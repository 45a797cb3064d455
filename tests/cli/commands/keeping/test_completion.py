"""What the Tab key completes: asked of the program, and of bash itself with the lines that are printed for it."""

from __future__ import annotations

import shutil
import subprocess
import sys

import pytest

from companion.cli.command_table import COMMANDS
from companion.cli.commands.keeping.completion import candidates, unquoted
from companion.cli.commands.keeping.shell_scripts import SCRIPTS
from companion.workshop import Workshop, open_at
from tests.tui.cards import SILK, SILK_TESTS


@pytest.fixture
def workshop(data_folder, skerry) -> Workshop:
    """Two pieces, one of them with a space in its name, and a cord card."""
    workshop = open_at(data_folder)
    workshop.start(skerry)
    workshop.rename(workshop.start(skerry), "For Anna")
    workshop.add_tests(SILK, *SILK_TESTS)
    return workshop


def test_commands_and_their_options(workshop) -> None:
    assert candidates([], "", workshop)[: len(COMMANDS)] == [command.name for command in COMMANDS]
    assert candidates([], "mea", workshop) == ["measure"]
    assert candidates([], "--v", workshop) == ["--version"]
    assert candidates(["measure"], "--", workshop) == [
        "--anyway", "--at", "--free", "--help", "--piece", "--ruler", "--spoken", "--withdraw",
    ]  # fmt: skip
    assert candidates(["no such"], "", workshop) == []


@pytest.mark.parametrize(
    ("before", "word", "found"),
    [
        (["status"], "", ["skerry-bracelet", "For Anna"]),
        (["status"], "for", ["For Anna"]),
        (["status", "--json"], "sk", ["skerry-bracelet"]),
        (["measure", "--piece"], "s", ["skerry-bracelet"]),
        (["measure", "--free", "37 cm"], "s", ["skerry-bracelet"]),
        (["measure", "skerry-bracelet"], "", []),  # a length
        (["status", "skerry-bracelet"], "", []),
        (["plan", "x.yaml", "--card"], "", [SILK.name]),
        (["cord"], "", [SILK.name]),
        (["cord", "linen", "--kind"], "d", ["double"]),
        (["cord", "linen", "--worked-with"], "kn", ["knotting tool"]),
        (["settings"], "col", ["colours"]),
        (["knots"], "French", ["French wire and clasp"]),
        (["completion"], "", ["bash", "zsh", "fish"]),
    ],
)
def test_what_a_word_stands_for(workshop, before, word, found) -> None:
    assert sorted(candidates(before, word, workshop)) == sorted(found)


def test_designs_and_the_folders_that_lead_to_them(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("beads", ".hidden"):
        (tmp_path / name).mkdir()
    for name in ("skerry.yaml", "notes.txt", "beads/cuff.yaml", "beads/bad\x1b[31m.yaml"):
        (tmp_path / name).write_text("")
    workshop.make_designs_folder()
    own = workshop.designs_folder / "mine.yaml"
    own.write_text("")
    found = candidates(["follow"], "", workshop)
    assert [one for one in found if "home" not in one] == ["beads/", "skerry.yaml"]
    assert str(own) in found
    assert candidates(["plan"], "beads/", workshop) == ["beads/cuff.yaml"]
    assert candidates(["check", "skerry.yaml"], "be", workshop) == ["beads/"]
    assert "notes.txt" in candidates(["import"], "no", workshop)
    assert candidates(["plan"], "no/such/", workshop) == []


def test_what_is_quoted_is_read_as_the_shell_reads_it() -> None:
    assert [unquoted(word) for word in ('"For A', "'For A", "For\\ A", "skerry")] == [
        "For A",
        "For A",
        "For A",
        "skerry",
    ]


def test_asking_makes_no_home_and_says_nothing_of_what_is_damaged(tallycord, data_folder, monkeypatch) -> None:
    monkeypatch.setenv("TALLYCORD_TYPED", "status\x1f\x1f")
    assert (tallycord("completion", "--candidates").out, data_folder.exists()) == ("", False)
    data_folder.mkdir()
    (data_folder / "pieces.sqlite3").write_bytes(b"no database" * 100)
    ran = tallycord("completion", "--candidates")
    assert (ran.code, ran.out, ran.err) == (0, "", "")


def test_without_a_shell_it_is_said_which_there_are(tallycord) -> None:
    ran = tallycord("completion")
    assert (ran.code, ran.err) == (2, "Found no SHELL; expected one of bash, zsh, fish.\n")


@pytest.mark.parametrize("shell", SCRIPTS)
def test_a_shell_that_is_here_can_read_its_lines(shell, tmp_path) -> None:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not here")
    script = tmp_path / "script"
    script.write_text(SCRIPTS[shell])
    assert subprocess.run([shell, "-n", script], capture_output=True, text=True).stderr == ""


def in_bash(typed: str, tmp_path) -> list[str]:
    """What bash would put in place of the last of these words."""
    (tmp_path / "tallycord").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m companion "$@"\n')
    (tmp_path / "tallycord").chmod(0o755)
    line = f"""
        PATH={tmp_path}:$PATH; compopt() {{ :; }}
        eval "$(tallycord completion bash)"
        COMP_WORDS=({typed}); COMP_CWORD=$(( ${{#COMP_WORDS[@]}} - 1 )); _tallycord
        printf '%s\\n' "${{COMPREPLY[@]}}"
    """
    ran = subprocess.run(["bash", "-c", line], capture_output=True, text=True)
    assert ran.stderr == ""
    return ran.stdout.splitlines()


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not here")
def test_bash_completes(workshop, tmp_path) -> None:
    assert in_bash("tallycord mea", tmp_path) == ["measure"]
    assert in_bash("tallycord status sk", tmp_path) == ["skerry-bracelet"]
    assert in_bash("tallycord status For", tmp_path) == [r"For\ Anna"]
    assert in_bash("tallycord status '\"For A'", tmp_path) == ["For Anna"]
    assert in_bash("tallycord next --st", tmp_path) == ["--step"]
