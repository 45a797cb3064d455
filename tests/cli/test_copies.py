"""The day's copy, as the commands keep it."""

from __future__ import annotations

from pathlib import Path


def copies(folder: Path) -> list[Path]:
    return sorted((folder / "backups").glob("companion-*.db"))


def test_commands_that_write_leave_one_copy_a_day(companion, data_folder: Path, skerry: Path) -> None:
    companion("pieces")
    assert not data_folder.exists()
    companion("start", skerry)
    companion("next", "skerry")
    companion("next", "skerry")
    assert len(copies(data_folder)) == 1


def test_commands_that_only_read_leave_none(companion, data_folder: Path, skerry: Path) -> None:
    companion("start", skerry)
    (copy,) = copies(data_folder)
    copy.unlink()
    for command in (("pieces",), ("status", "skerry"), ("journal", "skerry"), ("plan", skerry)):
        assert companion(*command).code == 0
    assert copies(data_folder) == []


def test_a_cord_card_counts_as_written(companion, data_folder: Path) -> None:
    companion("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    assert len(copies(data_folder)) == 1


def test_a_copy_that_can_not_be_kept_is_said_and_stops_nothing(companion, data_folder: Path, skerry: Path) -> None:
    data_folder.mkdir()
    (data_folder / "backups").write_text("in the way")
    ran = companion("start", skerry)
    assert (ran.code, ran.out) == (0, "skerry-bracelet\n")
    assert ran.err == "▲ No copy of the pieces could be kept today. Nothing was stored: file exists.\n"
    assert companion("next", "skerry").code == 0
