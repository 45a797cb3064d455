"""The documents for people run too, and say what there is."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from companion.__main__ import main
from companion.cli.command_table import COMMANDS

REPO = Path(__file__).parents[1]
README = (REPO / "README.md").read_text(encoding="utf-8")


def commands() -> list[str]:
    return [command.name for command in COMMANDS]


def console() -> list[tuple[str, list[str]]]:
    """Every line of the README's console with what it is said to print."""
    block = re.search(r"```console\n(.*?)```", README, re.S).group(1)
    found: list[tuple[str, list[str]]] = []
    for line in block.splitlines():
        if line.startswith("$ "):
            found.append((line[2:], []))
        else:
            found[-1][1].append(line)
    return found


def test_every_line_of_the_console_works(capsys, monkeypatch) -> None:
    monkeypatch.chdir(REPO)
    ran = set()
    for line, printed in console():
        program, *arguments = shlex.split(line)
        assert program == "tallycord"
        assert main(arguments) == 0, line
        ran.add(arguments[0])
        out = capsys.readouterr().out
        for words in printed:
            assert words in out.splitlines(), (line, words, out)
    assert ran >= {"start", "next", "back", "measure", "jump", "note", "finish", "journal", "pieces", "status"}


@pytest.mark.parametrize("name", commands())
def test_every_command_is_in_the_readme_and_explains_itself(name, capsys) -> None:
    assert f"`tallycord {name}" in README
    assert main([name, "--help"]) == 0
    assert "usage: tallycord" in capsys.readouterr().out


@pytest.mark.parametrize("heading", ["Run it", "Test it"])
def test_one_block_of_one_line(heading) -> None:
    section = README.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0]
    blocks = re.findall(r"```sh\n(.*?)```", section, re.S)
    assert len(blocks) == 1
    assert len(blocks[0].strip().splitlines()) == 1


def test_the_screen_and_the_design_shown_are_the_real_ones() -> None:
    assert (REPO / "tests/tui/golden/follow-middle-80x24.txt").read_text(encoding="utf-8").rstrip("\n") in README
    assert (REPO / "patterns/skerry-bracelet.yaml").read_text(encoding="utf-8").rstrip("\n") in README


def test_the_files_that_the_contributors_page_names_are_there() -> None:
    text = (REPO / "DEVELOPERS.md").read_text(encoding="utf-8")
    for name in re.findall(r"`((?:companion|tests|patterns|core|storage|cli|tui)/[\w/.]+)`", text):
        places = (REPO / name, REPO / "companion" / name)
        assert any(place.exists() for place in places), name


def test_the_example_for_contributors_runs(capsys) -> None:
    text = (REPO / "DEVELOPERS.md").read_text(encoding="utf-8")
    exec(re.search(r"```python\n(.*?)```", text, re.S).group(1), {})
    assert capsys.readouterr().out == "recount bead missed 190\n"


def test_nothing_goes_by_an_earlier_name() -> None:
    """The folder of the package is the only place where the word stands for the program."""
    earlier = re.compile("(?i)knotting[ -]" + "companion|`" + "companion |\\bthe " + "companion\\b")
    places = [REPO / "README.md", REPO / "DEVELOPERS.md", REPO / "pyproject.toml"]
    places += [path for top in ("companion", "patterns", "tests") for path in (REPO / top).rglob("*.*")]
    texts = {
        path: path.read_text(encoding="utf-8")
        for path in places
        if path.suffix in (".md", ".py", ".txt", ".yaml", ".toml")
    }
    assert {str(path): found for path, text in texts.items() if (found := earlier.findall(text))} == {}


def test_only_the_agreed_names_at_the_top() -> None:
    import subprocess

    listed = subprocess.run(["git", "ls-files"], cwd=REPO, capture_output=True, text=True)
    if listed.returncode:
        pytest.skip("not a checkout")
    tops = {line.split("/")[0] for line in listed.stdout.split() if not line.startswith(".")}
    assert tops <= {"README.md", "DEVELOPERS.md", "pyproject.toml", "companion", "patterns", "tests"}


# Lengths that elsewhere stand for this whole trade: here they may only be checked, and say that they have no source.
MODEL_LENGTHS = re.compile(r"\b7[ -]3/4|\b7¾|\b197 ?mm|\b19\.7 ?cm")


@pytest.mark.parametrize("folder", ["companion", "patterns", "tests", "."])
def test_examples_are_our_own(folder: str) -> None:
    found = []
    files = (REPO / folder).glob("*") if folder == "." else (REPO / folder).rglob("*")
    for path in files:
        if path.suffix in (".py", ".txt", ".yaml", ".md", ".svg", ".sql") and path != Path(__file__):
            text = path.read_text(encoding="utf-8")
            if MODEL_LENGTHS.search(text) and "no source" not in text:
                found.append(str(path.relative_to(REPO)))
    assert found == []
