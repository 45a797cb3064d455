"""The bench is read anew where something has changed, and only there."""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.core.cord.cards import CordCard
from companion.core.values.errors import NotStored
from companion.tui.app import TallycordApp
from companion.tui.bench.contents import BenchReader
from tests.tui.screens import until_seen

LONG_AGO = time.time() - 1000


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """The folder that Tallycord is started in; nothing has changed there for a while."""
    folder = tmp_path / "designs"
    folder.mkdir()
    os.utime(folder, (LONG_AGO, LONG_AGO))
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def reads(workshop, folder, monkeypatch) -> list[str]:
    """Every reading of the pieces, of the cards, and of the folder."""
    seen: list[str] = []
    pieces, cards, glob = workshop.pieces, workshop.cards, Path.glob

    def listed(path: Path, pattern: str) -> Iterator[Path]:
        seen.extend(["folder"] if path == folder else [])
        return glob(path, pattern)

    monkeypatch.setattr(workshop, "pieces", lambda: (seen.append("pieces"), pieces())[1])
    monkeypatch.setattr(workshop, "cards", lambda: (seen.append("cards"), cards())[1])
    monkeypatch.setattr(Path, "glob", listed)
    return seen


async def test_a_bench_that_nobody_touches_reads_nothing(workshop, other_window, skerry, folder, reads) -> None:
    workshop.finish(workshop.jump(workshop.start(skerry), 33), 202.0)
    piece = workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "0 of 33")
        reads.clear()
        for _ in range(8):
            app.screen.look_again()
        assert reads == []
        other_window.confirm(other_window.open(piece.name))
        app.screen.look_again()
        assert reads == ["pieces", "cards"]
        await until_seen(pilot, "1 of 33")
        (folder / "sea-glass.yaml").touch()
        app.screen.look_again()
        assert reads == ["pieces", "cards", "folder"]
        await until_seen(pilot, "sea-glass")


def test_the_very_same_value_until_something_is_written(workshop, other_window, skerry, folder) -> None:
    reader = BenchReader(workshop)
    assert reader.read() is reader.read()  # there is no file of pieces yet
    writes = (
        lambda: other_window.start(skerry),
        lambda: workshop.start(skerry),
        lambda: workshop.confirm(workshop.open("skerry-bracelet")),
        lambda: other_window.confirm(other_window.open("skerry-bracelet")),
        lambda: workshop.add_tests(CordCard("silk", 0.45, 2)),
        lambda: other_window.add_tests(CordCard("linen", 0.6, 1)),
    )
    for write in writes:
        before = reader.read()
        write()
        now = reader.read()
        assert (now.pieces, now.cards) == (workshop.pieces(), workshop.cards())
        assert now != before
        assert reader.read() is now


def test_designs_come_and_go(workshop, folder) -> None:
    reader = BenchReader(workshop)
    shipped = reader.read().designs
    assert [path.stem for path in shipped][-1] == "wolf-rock-necklace"
    design = folder / "sea-glass.yaml"
    design.touch()
    assert reader.read().designs == (design, *shipped)
    design.unlink()
    assert reader.read().designs == shipped


def test_a_design_added_within_one_tick_of_a_coarse_clock_is_seen(workshop, folder) -> None:
    reader, just_now = BenchReader(workshop), time.time()
    os.utime(folder, (just_now, just_now))
    assert folder / "sea-glass.yaml" not in reader.read().designs
    (folder / "sea-glass.yaml").touch()
    os.utime(folder, (just_now, just_now))
    assert folder / "sea-glass.yaml" in reader.read().designs


def test_a_folder_that_is_gone_leaves_the_designs_that_are_shipped(workshop, folder) -> None:
    (folder / "sea-glass.yaml").touch()
    reader = BenchReader(workshop)
    with_it = reader.read().designs
    shutil.rmtree(folder)
    assert reader.read().designs == with_it[1:]


def test_a_fault_is_told_as_long_as_it_lasts(workshop, skerry, folder, monkeypatch) -> None:
    workshop.start(skerry)
    reader = BenchReader(workshop)
    whole = reader.read()

    def gone(*_: object) -> None:
        raise NotStored("The disk does not answer.")

    with monkeypatch.context() as fault:
        fault.setattr(workshop, "state", gone)
        for _ in range(2):
            assert (reader.read().fault, reader.read().pieces) == ("The disk does not answer.", ())
    assert reader.read() == whole


def test_cards_that_can_not_be_read_hide_no_piece(workshop, skerry, folder, monkeypatch) -> None:
    workshop.start(skerry)

    def gone() -> None:
        raise NotStored("The cards can't be read.")

    monkeypatch.setattr(workshop, "cards", gone)
    contents = BenchReader(workshop).read()
    assert (len(contents.pieces), contents.cards, contents.fault) == (1, (), "")
