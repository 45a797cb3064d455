"""Which piece a command is meant for: named, or the latest, which is said; a name that is none is never another one."""

from __future__ import annotations

import json

import pytest

from companion.workshop import open_at
from tests.cli.running import journal


@pytest.fixture
def two(tallycord, skerry, strands) -> tuple[str, str]:
    """Two pieces under way; the second was touched last."""
    first = tallycord("start", skerry).out.strip()
    second = tallycord("start", strands).out.strip()
    tallycord("jump", first, 16)
    tallycord("jump", second, "upper:8")
    return first, second


def kept(tallycord, *names: str) -> list[list[str]]:
    return [journal(tallycord, name) for name in names]


@pytest.mark.parametrize(
    "command",
    [
        ("next",), ("undo",), ("back",), ("status",), ("journal",), ("measure",), ("measure", "--free", "89 cm"),
        ("recount",), ("remedy",), ("join", "30 cm"), ("join", "30"), ("jump", "upper:9"),
        ("note", "the hall was cold"), ("abandon",), ("abandon", "the cord frayed"),
    ],
)  # fmt: skip
def test_the_latest_piece_is_meant_and_named_first(tallycord, two, command) -> None:
    first, second = two
    (before,) = kept(tallycord, first)
    ran = tallycord(*command)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"On {second}:"
    assert kept(tallycord, first) == [before]


@pytest.mark.parametrize("named", ["first", "option", "long option"])
@pytest.mark.parametrize(
    "words", [("next",), ("note", "cold"), ("note", "so", "cold"), ("measure", "86 mm"), ("jump", "9")]
)
def test_a_piece_that_is_named_is_taken_and_not_said_again(tallycord, two, words, named) -> None:
    first, second = two
    (before,) = kept(tallycord, second)
    command, *more = words
    name = {"first": [first], "option": ["-p", first], "long option": ["--piece", first]}[named]
    ran = tallycord(command, *name, *more)
    assert ran.code == 0
    assert not ran.out.startswith("On ")
    assert len(journal(tallycord, first)) == 3
    assert kept(tallycord, second) == [before]


@pytest.mark.parametrize(
    "command",
    [
        ("next", "nxet"), ("undo", "nxet"), ("status", "nxet"), ("journal", "nxet"), ("measure", "nxet"),
        ("measure", "nxet", "86 mm"), ("recount", "nxet"), ("remedy", "nxet"), ("remedy", "nxet", "1"),
        ("join", "nxet", "30 cm"), ("jump", "nxet", "upper:9"), ("jump", "nxet"), ("join", "nxet"),
        ("note", "nxet"), ("note", "nxet", "so", "cold"), ("note", "knots", "looser"), ("finish", "nxet"),
        ("abandon", "nxet"), ("abandon", "nxet", "frayed"), ("next", "-p", "nxet"), ("next", "inner", "more"),
        ("next", "13"), ("undo", "2"),
    ],
)  # fmt: skip
def test_what_is_no_piece_is_an_error_and_nothing_is_written(tallycord, two, command) -> None:
    before = kept(tallycord, *two)
    ran = tallycord(*command)
    assert ran.code in (1, 2)
    assert ran.out == ""
    assert kept(tallycord, *two) == before


def test_a_note_of_one_word_says_how_it_is_meant(tallycord, two) -> None:
    ran = tallycord("note", "frayed")
    assert ran.err == ("There is no piece named frayed. If it is the text, name the piece: --piece PIECE frayed.\n")
    assert tallycord("note", "--piece", two[0], "frayed").code == 0
    assert journal(tallycord, two[0])[-1] == "Note: frayed"


def test_a_text_without_quotes_is_told_how_it_is_meant(tallycord, two) -> None:
    ran = tallycord("note", "knots", "looser", "tonight")
    assert ran.code == 1
    assert 'Then put the text in quotes: "knots looser tonight".' in ran.err
    assert tallycord("note", "knots looser tonight").out.startswith(f"On {two[1]}:")


def test_a_length_needs_no_quotes(tallycord, piece) -> None:
    for words in (("3", "3/8", "in"), (piece, "3", "3/8", "in"), ("3", "3/8"), ("-p", piece, "8,6", "cm")):
        assert tallycord("measure", *words).code == 0, words
    assert len(journal(tallycord, piece)) == 6


def test_options_may_stand_anywhere(tallycord, piece) -> None:
    for words in (
        ("--free", "37 cm", piece, "86 mm"),
        (piece, "--free", "37 cm", "86 mm"),
        ("86 mm", "--free", "37 cm"),
    ):
        assert tallycord("measure", *words).code == 0, words
    assert len(journal(tallycord, piece)) == 8


def test_undo_takes_back_the_end_of_the_piece_that_was_ended_last(tallycord, two) -> None:
    _, second = two
    tallycord("abandon", second)
    ran = tallycord("undo")
    assert ran.out.startswith(f"On {second}:\nUndone: putting the piece away.")
    assert tallycord("redo").out.startswith(f"On {second}:\n")
    assert tallycord("journal").out.startswith(f"On {second}:\n")
    assert tallycord("next").out.startswith("On skerry-bracelet:\n")  # the latest that is under way
    assert tallycord("undo").out.startswith("On skerry-bracelet:\nUndone: step 17.")


def test_without_a_piece_under_way_that_is_said(tallycord, piece) -> None:
    tallycord("abandon", piece)
    for command in (("next",), ("status",), ("measure", "86 mm"), ("note", "so cold"), ("finish",)):
        ran = tallycord(*command)
        assert (ran.code, ran.out) == (1, "")
        assert "No piece is under way" in ran.err


def test_what_goes_wrong_with_a_piece_not_named_begins_with_its_name(tallycord, piece) -> None:
    tallycord("jump", piece, 33)
    assert tallycord("next").err == "skerry-bracelet: Every step is done already.\n"
    assert tallycord("next", piece).err == "Every step is done already.\n"
    assert tallycord("jump", "34").err.startswith("skerry-bracelet: There is no step 34")


def test_names_that_begin_with_a_digit(tallycord, skerry, tmp_path) -> None:
    text = skerry.read_text(encoding="utf-8")
    names = []
    for name in ("3 tides", "7"):
        path = tmp_path / f"{name}.yaml"
        path.write_text(text.replace("name: Skerry bracelet", f"name: '{name}'"), encoding="utf-8")
        names.append(tallycord("start", path).out.strip())
    assert names == ["3-tides", "7"]
    assert tallycord("jump", "3-tides", "5").code == 0
    assert tallycord("jump", "3-", "6").code == 0
    assert tallycord("jump", "3").out.startswith("On 3-tides:\n")  # a number, whatever begins with it
    either = tallycord("jump", "7")
    assert either.code == 2
    assert "--piece 7" in either.err
    assert tallycord("jump", "--piece", "7", "7").code == 0
    assert open_at().open("7").piece.done == 7
    assert open_at().open("3-tides").piece.done == 3


def test_the_status_for_programs_names_its_piece_inside(tallycord, two) -> None:
    assert json.loads(tallycord("status", "--json").out)["piece"] == two[1]


@pytest.mark.parametrize("command", ["measure", "note", "abandon", "jump", "next"])
def test_the_help_tells_how_a_piece_is_named(tallycord, command) -> None:
    out = " ".join(tallycord(command, "--help").out.split())
    assert "-p, --piece PIECE" in out
    assert "the latest piece" in out
