"""How a command ends: an interrupt, a fault of our own, and the day's copy."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.workshop import Workshop


def test_an_interrupt_is_quiet(tallycord, monkeypatch) -> None:
    def interrupted(self: Workshop) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Workshop, "pieces", interrupted)
    ran = tallycord("pieces")
    assert (ran.code, ran.out, ran.err) == (130, "", "")


def test_a_fault_of_our_own_is_one_line_and_its_trace_can_be_had(tallycord, monkeypatch) -> None:
    def broken(self: Workshop) -> None:
        raise ZeroDivisionError("a\x1b[31m\nb")

    monkeypatch.setattr(Workshop, "pieces", broken)
    ran = tallycord("pieces")
    assert ran.code == 1
    assert ran.err == "Something went wrong in Tallycord itself: ZeroDivisionError: a[31m b.\n"
    monkeypatch.setenv("TALLYCORD_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        tallycord("pieces")


def copies(folder: Path) -> list[Path]:
    return sorted((folder / "backups").glob("tallycord-*.db"))


def test_commands_that_write_leave_one_copy_a_day(tallycord, data_folder: Path, skerry: Path) -> None:
    tallycord("pieces")
    assert not data_folder.exists()
    tallycord("start", skerry)
    tallycord("next", "skerry")
    tallycord("next", "skerry")
    assert len(copies(data_folder)) == 1


def test_commands_that_only_read_leave_none(tallycord, data_folder: Path, skerry: Path) -> None:
    tallycord("start", skerry)
    (copy,) = copies(data_folder)
    copy.unlink()
    for command in (("pieces",), ("status", "skerry"), ("journal", "skerry"), ("plan", skerry)):
        assert tallycord(*command).code == 0
    assert copies(data_folder) == []


def test_a_cord_card_counts_as_written(tallycord, data_folder: Path) -> None:
    tallycord("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    assert len(copies(data_folder)) == 1


def test_a_copy_that_can_not_be_kept_is_said_and_stops_nothing(tallycord, data_folder: Path, skerry: Path) -> None:
    data_folder.mkdir()
    (data_folder / "backups").write_text("in the way")
    ran = tallycord("start", skerry)
    assert (ran.code, ran.out) == (0, "skerry-bracelet\n")
    assert ran.err == "Warning: No copy of the pieces could be kept today. Nothing was saved: file exists.\n"
    assert tallycord("next", "skerry").code == 0
