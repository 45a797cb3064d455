"""A design that can't be planned, whatever the command: a clear sentence, exit code 1, nothing written."""

from __future__ import annotations

import os

import pytest

from tests.cli.running import REPO

GOOD = (REPO / "patterns" / "skerry-bracelet.yaml").read_text()


def changed(old: str, new: str) -> bytes:
    assert old in GOOD
    return GOOD.replace(old, new, 1).encode()


BAD = {
    "unknown key": (changed("note:", "notte:"), ":3:1:", '"notte" in the design', "Did you mean note"),
    "missing unit": (changed("diameter: 0.45 mm", "diameter: 0.45"), ":8:13:", "without a unit", "0.45 mm"),
    "undefined bead": (changed("- silver", "- sliver"), ":23:13:", '"sliver"', "Did you mean silver"),
    "two documents": ((GOOD + "---\nformat: 1\n").encode(), ":28:1:", "another design", "A file holds one"),
    "not UTF-8": (GOOD.encode().replace(b"Skerry", b"Sk\xe9rry", 1), ":2:9:", "not UTF-8", "Save the file as UTF-8"),
    "5 MiB": (b"# " + b"x" * (5 << 20), "", "larger than 1 MiB", ""),
    "alias": (changed("[glass, knot]", "&a [glass, knot]"), ":22:17:", "& or *", "write out what it stands for"),
    "repeat": (changed("repeat: fit", "repeat: 1000000000"), ":21:21:", "1000000000", "100000"),
    "escape codes": (changed("name: Skerry", 'name: "\\e[31mSkerry"#'), ":2:7:", "U+001B", ""),
    "raw escape": (changed("Skerry", "Sk\x1b[2Jerry"), ":2:9:", "U+001B", "Delete it"),
    "duplicate": (changed("note:", "name: Other\nnote:"), ":3:1:", "second time", "line 2"),
    "two sizes": (changed("ease: 3/4 in", "neck: 16 in"), ":4:25:", "2 sizes", "Keep one of"),
    "empty": (b"", "", "empty", "format: 1"),
    "format": (changed("format: 1", "format: 2"), ":1:9:", 'format "2"', "reads format 1"),
    "tab": (changed("  name: twisted", "\tname: twisted"), ":6:1:", "tab", "spaces"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
@pytest.mark.parametrize("command", ["check", "plan", "start", "follow"])
def test_a_bad_file(tallycord, tmp_path, data_folder, name, command) -> None:
    data, place, found, hint = BAD[name]
    path = tmp_path / "bad.yaml"
    path.write_bytes(data)
    ran = tallycord(command, path)
    assert ran.code == 1
    assert ran.out == ""
    assert f"{path}{place}" in ran.err
    assert found in ran.err
    assert hint in ran.err
    assert "\x1b" not in ran.err
    assert not data_folder.exists()


def test_all_faults_of_a_file_at_once(tallycord, tmp_path) -> None:
    path = tmp_path / "bad.yaml"
    text = GOOD.replace("note:", "notte:").replace("0.45 mm", "0.45").replace("- silver", "- sliver")
    path.write_text(text.replace("bead tip and clasp, length: 12 mm", "bead tip and clsp, length: 12 m m", 1))
    ran = tallycord("check", path)
    lines = ran.err.splitlines()
    assert [line.split(":")[1] for line in lines] == ["3", "8", "16", "16", "23"]
    assert "Did you mean bead tip and clasp" in ran.err


@pytest.mark.parametrize("command", ["check", "plan", "start", "follow"])
def test_no_plain_file(tallycord, tmp_path, data_folder, command) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for path, words in ((tmp_path, "folder"), (tmp_path / "none.yaml", "no such file"), (pipe, "not a plain file")):
        ran = tallycord(command, path)
        assert ran.code == 1
        assert words in ran.err
    assert not data_folder.exists()


def test_a_file_name_is_only_text(tallycord, tmp_path) -> None:
    ran = tallycord("check", tmp_path / "a\x1b[31mb\nc.yaml")
    assert ran.code == 1
    assert "\x1b" not in ran.err
    assert len(ran.err.splitlines()) == 1
