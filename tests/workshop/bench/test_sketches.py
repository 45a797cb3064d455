"""What the bench draws: read beside the screen, kept while it is the same, nothing of what can't be read."""

from __future__ import annotations

import os
import shutil
import threading

import pytest

from companion.workshop import open_at
from companion.workshop.bench.sketches import MOST_WHOLE, Sketched

GIVE_UP_SECONDS = 60


@pytest.fixture
def workshop(data_folder):
    return open_at(data_folder)


def read(workshop, what, whole: bool = True) -> Sketched:
    found = workshop.sketches.read(what).result(GIVE_UP_SECONDS)
    workshop.sketches.keep(what, found, whole)
    return found


def row_of(workshop, name: str):
    return next(row for row in workshop.pieces() if row.name == name)


def test_a_design_is_read_in_another_thread_and_kept_until_it_is_written_anew(workshop, skerry, tmp_path) -> None:
    own = tmp_path / "own.yaml"
    shutil.copy(skerry, own)
    assert not workshop.sketches.is_known(own)
    found = read(workshop, own)
    assert found.sketch.plan.design == "Skerry bracelet"
    assert found.sketch.piece is None
    assert workshop.sketches.bead_strip(own) == found.strip
    assert workshop.sketches.whole(own) is found.sketch
    own.write_text(own.read_text().replace("Skerry bracelet", "Another"))
    os.utime(own, ns=(1, 1))
    assert not workshop.sketches.is_known(own)
    assert workshop.sketches.bead_strip(own) is None
    assert read(workshop, own).sketch.plan.design == "Another"


def test_a_pieces_strip_stays_and_its_sketch_is_of_today(workshop, skerry) -> None:
    opened = workshop.jump(workshop.start(skerry), 12)
    row = row_of(workshop, opened.name)
    assert read(workshop, row).sketch.piece.done == 12
    workshop.note(workshop.open(opened.name), "teal beads")
    later = row_of(workshop, opened.name)
    assert workshop.sketches.is_known(later)
    assert not workshop.sketches.is_known(later, whole=True)
    assert [note.text for note in read(workshop, later).sketch.piece.notes] == ["teal beads"]


def test_what_can_not_be_read_is_known_and_nothing(workshop, skerry, tmp_path) -> None:
    broken, gone = tmp_path / "broken.yaml", tmp_path / "gone.yaml"
    broken.write_text("format: 1\nname: [", encoding="utf-8")
    opened = workshop.start(skerry)
    row = row_of(workshop, opened.name)
    workshop.rename(opened, "Another name")
    for what in (broken, gone, tmp_path, row):
        assert read(workshop, what) == Sketched()
        assert workshop.sketches.is_known(what)
        assert workshop.sketches.bead_strip(what) is None


def test_few_plans_are_kept_and_every_strip(workshop, patterns) -> None:
    designs = sorted(patterns.glob("*.yaml"))
    for design in designs:
        read(workshop, design)
    assert len(designs) > MOST_WHOLE
    assert all(workshop.sketches.bead_strip(design) is not None for design in designs)
    kept = [design for design in designs if workshop.sketches.whole(design) is not None]
    assert kept == designs[-MOST_WHOLE:]


def test_reading_the_beads_of_others_lets_no_sketch_go(workshop, skerry, patterns) -> None:
    """The one that is drawn beside the list stays, however many rows are read after it."""
    drawn = read(workshop, skerry).sketch
    for design in sorted(patterns.glob("*.yaml")):
        if design != skerry:
            read(workshop, design, whole=False)
            assert workshop.sketches.whole(design) is None
    assert workshop.sketches.whole(skerry) is drawn


def test_nobody_waits_for_it(workshop, skerry, monkeypatch) -> None:
    """The thread's own workshop reads, and is closed; what is open here is not touched by another thread."""
    threads, closed = [], []
    other = open_at(workshop.designs_folder.parent)
    plan, close = other.plan, other.close
    monkeypatch.setattr(other, "plan", lambda path: (threads.append(threading.current_thread()), plan(path))[1])
    monkeypatch.setattr(other, "close", lambda: (closed.append(True), close())[1])
    monkeypatch.setattr(workshop.sketches, "_reader", lambda: other)
    assert read(workshop, skerry).strip is not None
    assert threads != [threading.current_thread()]
    assert [thread.daemon for thread in threads] == [True]
    assert closed == [True]
