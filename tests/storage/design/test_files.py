"""What a path can be other than a readable file, and what reading costs before and while it is done."""

from __future__ import annotations

import os
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from companion.core.values.design import Bead, Knot
from companion.storage.design.files import read_design, read_design_text

ROOT = Path(__file__).parents[3]
HEAD = "format: 1\nname: File light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"


def of_the_whole_file(path: Path) -> str:
    reading = read_design(path)
    (problem,) = reading.problems
    assert (problem.line, problem.column, problem.code) == (0, 0, "cannot read")
    assert (reading.design, reading.text, reading.digest) == (None, "", "")
    return problem.found


def test_no_file_a_folder_and_a_pipe(tmp_path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert of_the_whole_file(tmp_path / "none.yaml") == "There is no such file."
    assert of_the_whole_file(tmp_path) == "It is a folder."
    assert of_the_whole_file(tmp_path / "pipe") == "It is not a plain file."
    assert of_the_whole_file(tmp_path / "a\0b").startswith("It can't be read")


def test_a_file_that_is_not_ours_to_read(tmp_path, monkeypatch) -> None:
    path = tmp_path / "shut.yaml"
    path.write_text(HEAD)
    path.chmod(0)
    if os.access(path, os.R_OK):  # an all-powerful user reads it all the same: the refusal is put in its place

        def refuse(*_args, **_more):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(Path, "open", refuse)
    assert of_the_whole_file(path) == "It can't be read: permission denied."


def test_a_loop_of_links(tmp_path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    assert of_the_whole_file(tmp_path / "a").startswith("It can't be read")


def test_the_digest_is_of_the_bytes(skerry) -> None:
    assert read_design(skerry).digest == sha256(skerry.read_bytes()).hexdigest()


@pytest.mark.parametrize("module", ["companion.storage.design", "companion.storage.design.files"])
def test_importing_brings_in_neither_yaml_nor_pydantic(module) -> None:
    look = f"import sys, {module}; print(sorted({{'yaml', 'pydantic'}} & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", look], cwd=ROOT, capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


def test_a_layout_of_twenty_thousand_lines() -> None:
    text = HEAD + "strand:\n  layout:\n" + "    - b\n    - knot\n" * 10_000
    reading = read_design_text(text, "long.yaml")
    assert reading.problems == ()
    assert reading.design.strands[0].layout == (Bead("b"), Knot("single")) * 10_000


def test_a_wrong_word_in_the_last_of_twenty_thousand_lines() -> None:
    text = HEAD + "strand:\n  layout:\n" + "    - b\n    - knot\n" * 10_000 + "    - bb\n"
    (problem,) = read_design_text(text, "long.yaml").problems
    assert (problem.code, problem.line, problem.column) == ("undefined bead", 20_007, 7)


def test_bytes_that_are_no_text_are_shown_where_they_are() -> None:
    (problem,) = read_design_text(b"format: 1\nname: caf\xe9\n", "old.yaml").problems
    assert (problem.code, problem.line, problem.column) == ("not UTF-8", 2, 10)
    (problem,) = read_design_text("note: Türme\r\nname: Tür".encode() + b"m\xe9\n", "old.yaml").problems
    assert (problem.line, problem.column) == (2, 11)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32", "utf-32-be"])
def test_other_encodings_are_called_by_their_name(encoding) -> None:
    (problem,) = read_design_text(HEAD.encode(encoding), "wide.yaml").problems
    assert (problem.code, problem.line) == ("not UTF-8", 0)
    assert "UTF-16" in problem.found
    assert "UTF-8" in problem.expected
