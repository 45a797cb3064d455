"""For the ear: marks, units and fractions as words, and no output of any command with a mark that reads badly."""

from __future__ import annotations

import io
import string
import sys

import pytest

from companion.cli.command_table import COMMANDS

SAID = set(string.ascii_letters + string.digits + " \n.,;:!?()'\"/%+-=_<>[]#|{}*")  # with letters of any script


def _read_badly(text: str) -> set[str]:
    return {mark for mark in text if not (mark in SAID or mark.isalpha())}


LINES = (
    ("check", "bad"), ("plan", "design"), ("plan", "strands"), ("start", "design", "--cut", "30 in"), ("pieces",),
    ("next",), ("next",), ("undo",), ("redo",), ("jump", "16"), ("measure",), ("measure", "3"), ("measure", "3 1/8 in"),
    ("measure", "86"), ("measure", "--free", "9 1/2"), ("status",), ("remedy",), ("remedy", "1"), ("undo",),
    ("status", "--chart"), ("compare", "design"), ("compare", "strands"), ("reach", "design", "--cord", "40 in"),
    ("reach", "strands", "--cord", "1 m"), ("reach", "design", "--cord", "forty"),
    ("measure", "1 in"), ("measure", "--withdraw"), ("readings",), ("readings", "--out", "1"),
    ("readings", "--in", "1"), ("readings", "--json"), ("recount",), ("recount", "--beads", "9"),
    ("recount", "--beads", "9", "--really"),
    ("join", "12"),
    ("note", "a “tight” knot"), ("journal",), ("status", "--json"), ("jump", "40"), ("jump", "33"), ("next",),
    ("finish", "7 7/8", "--left", "9 in", "--learn"), ("status",), ("undo",), ("finish", "70 in"), ("next",),
    ("undo",), ("abandon", "it frayed"), ("pieces",), ("next", "nxet"), ("note", "frayed"), ("measure", "x y", "z"),
    ("forecast", "design", "--strand", "16=3 1/8 in", "--free", "16=9 1/2 in"), ("forecast", "design", "--free", "x"),
    ("cords",), ("cord", "silk", "--knots", "2", "--before", "250 mm", "--after", "238 mm", "--row", "4 mm",
                 "--diameter", "0.45 mm", "--layers", "2"),
    ("cord", "silk", "--knots", "2", "--before", "250 mm", "--after", "150 mm"), ("cords",),
    ("cord", "silk", "--withdraw"), ("risk",), ("risk", "3%"), ("knots",), ("knots", "double"),
    ("knots", "French wire", "--unit", "in"), ("knots", "sliding knot"), ("rescue",), ("import", "nowhere.json"),
    ("follow", "design"), ("design",), ("try",), ("completion",), ("nosuch",), ("--help",),
    *((command.name, "--help") for command in COMMANDS),
)  # fmt: skip


SEVERAL = 18  # of them, where it is only another way to ask for it


@pytest.mark.parametrize("how", ["before", "after", "environment"])
def test_no_command_prints_what_reads_badly(tallycord, skerry, strands, tmp_path, monkeypatch, how) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text(skerry.read_text("utf-8").replace("note:", "notte:").replace("- silver", "- sliver"), "utf-8")
    files = {"design": skerry, "strands": strands, "bad": bad}
    if how == "environment":
        monkeypatch.setenv("TALLYCORD_SPOKEN", "1")
    heard = 0
    lines = LINES if how == "before" else LINES[:SEVERAL]
    for words in lines:
        line = [str(files.get(word, word)) for word in words]
        line = {"before": ["--spoken", *line], "after": [*line, "--spoken"], "environment": line}[how]
        ran = tallycord(*line)
        heard += len(ran.out)
        if "--json" not in words:
            assert (words, _read_badly(ran.out + ran.err)) == (words, set())
    assert heard > (20_000 if how == "before" else 4_000)


TYPED = (
    "42", "y", "?", "", "k", "", "", "", "", "u", "U", "p", "s", "m", "1/2", "86", "c 19", "v", "2", "v 2", "v", "",
    "r", "", "r", "10", "1", "j 16", "3 1/16",
    "w", "", "c 9 1/2", "w", "9", "w", "1", "", "o 8", "x", "n a “tight” knot", "dance", "5 in", "", "j 40", "j 33", "",
    "202", "", "7 7/8", "3 1/4",
)  # fmt: skip


def test_the_prompt_says_nothing_that_reads_badly(tallycord, skerry, monkeypatch) -> None:
    lines = io.BytesIO("".join(f"{line}\n" for line in TYPED).encode())
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(lines, encoding="utf-8"))
    ran = tallycord("follow", skerry, "--lines", "--spoken")
    assert ran.code == 0
    assert "Skerry bracelet is finished." in ran.out
    assert _read_badly(ran.out + ran.err) == set()


def test_without_it_only_warnings_and_quotes_change(tallycord, skerry) -> None:
    tallycord("start", skerry)
    tallycord("jump", "16")
    out = tallycord("measure", "3 in").out
    assert "Warning: " in out
    assert " ± " in out
    assert not set(out) & set("▲△«»")


FOR_PROGRAMS = (
    ("status", "--json"), ("pieces", "--json"), ("readings", "--json"), ("export", "-"), ("plan", "design", "--json"),
    ("plan", "design", "--picture", "-"), ("schema",),
)  # fmt: skip


@pytest.mark.parametrize("command", FOR_PROGRAMS)
def test_what_programs_read_stays_to_the_letter(tallycord, skerry, tmp_path, monkeypatch, command) -> None:
    design = tmp_path / "design.yaml"
    name = "name: Tight «knots» ± 3/8 in · `x`"
    design.write_text(skerry.read_text("utf-8").replace("name: Skerry bracelet", name), "utf-8")
    tallycord("start", design)
    tallycord("note", "a «tight» knot ± 3/8 in · `x`")
    tallycord("measure", "--free", "23 ½ in")
    line = [str(design) if word == "design" else word for word in command]
    plainly = tallycord(*line).out
    monkeypatch.setenv("TALLYCORD_SPOKEN", "1")
    heard = tallycord(*line).out
    assert len(plainly) > 100
    changing = '"made_at"'  # of an export: when it was written
    assert [one for one in heard.splitlines() if changing not in one] == [
        one for one in plainly.splitlines() if changing not in one
    ]
