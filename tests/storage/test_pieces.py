"""The store: a step is on disk when the call returns, once; what is not ours is not touched."""

from __future__ import annotations

import signal
import sqlite3
import stat
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.core.journal.events import Confirmed, Noted
from companion.core.values.errors import NoSuchPiece, NotADatabase, NotStored, Stale
from companion.storage.migrations import APPLICATION_ID, CHANGES
from companion.workshop import Workshop, open_at

REPO = Path(__file__).parents[2]


@pytest.fixture
def workshop(data_folder: Path) -> Workshop:
    return open_at(data_folder)


def raw(folder: Path) -> sqlite3.Connection:
    return sqlite3.connect(folder / "pieces.sqlite3")


def test_nothing_is_made_before_something_is_written(workshop, data_folder, skerry) -> None:
    assert workshop.pieces() == ()
    assert workshop.pieces_of(skerry) == ()
    with pytest.raises(NoSuchPiece):
        workshop.open("none")
    assert not data_folder.exists()


def test_the_folder_and_the_file_are_private(workshop, data_folder, skerry) -> None:
    workshop.start(skerry)
    assert stat.S_IMODE(data_folder.stat().st_mode) == 0o700
    assert stat.S_IMODE((data_folder / "pieces.sqlite3").stat().st_mode) == 0o600


def test_durable_settings(workshop, data_folder, skerry) -> None:
    workshop.start(skerry)
    db = workshop._store.database.open()
    assert db.execute("PRAGMA synchronous").fetchone() == (3,)
    assert db.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    assert db.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    assert db.execute("PRAGMA user_version").fetchone() == (len(CHANGES),)


def test_a_confirm_is_dated_and_on_disk(data_folder, skerry) -> None:
    noon = datetime(2026, 12, 1, 12, tzinfo=UTC)
    workshop = open_at(data_folder)
    workshop._now = lambda: noon
    opened = workshop.confirm(workshop.start(skerry))
    rows = raw(data_folder).execute("SELECT seq, at, kind FROM event ORDER BY seq").fetchall()
    assert rows == [(1, noon.isoformat(), "started"), (2, noon.isoformat(), "confirmed")]
    assert workshop.journal(opened)[-1].at == noon


def test_the_journal_is_only_ever_added_to(workshop, data_folder, skerry) -> None:
    workshop.confirm(workshop.start(skerry))
    db = raw(data_folder)
    for statement in ("UPDATE event SET kind = 'x'", "DELETE FROM event"):
        with pytest.raises(sqlite3.IntegrityError, match="only ever added to"):
            db.execute(statement)


def test_a_piece_keeps_its_own_copy_of_the_design(workshop, tmp_path, skerry) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(skerry.read_text())
    opened = workshop.start(path)
    assert not workshop.design_differs(opened)
    path.write_text(skerry.read_text().replace("Skerry bracelet", "Other"))
    assert workshop.design_differs(opened)
    again = open_at(workshop._store.path.parent).open(opened.name)
    assert again.plan == opened.plan
    path.unlink()
    assert open_at(workshop._store.path.parent).open(opened.name).plan.design == "Skerry bracelet"


def test_a_piece_is_found_by_path_or_by_content(workshop, tmp_path, skerry) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(skerry.read_text())
    opened = workshop.start(path)
    moved = tmp_path / "moved.yaml"
    moved.write_text(path.read_text())
    assert [row.name for row in workshop.pieces_of(moved)] == [opened.name]
    path.write_text("format: 1")
    assert [row.name for row in workshop.pieces_of(path)] == [opened.name]
    moved.write_text(moved.read_text() + "\n")
    assert workshop.pieces_of(moved) == ()


def test_two_windows_never_fork_the_count(data_folder, skerry) -> None:
    one, other = open_at(data_folder), open_at(data_folder)
    mine = one.start(skerry)
    theirs = other.open(mine.name)
    mine = one.confirm(mine)
    with pytest.raises(Stale, match="1 of 33"):
        other.confirm(theirs)
    theirs = other.refresh(theirs)
    assert theirs.piece.done == 1
    theirs = other.confirm(theirs)
    assert one.refresh(mine).piece.done == 2
    assert one.refresh(mine).piece == theirs.piece


def test_refresh_gives_the_very_same_value_where_nothing_changed(workshop, skerry) -> None:
    opened = workshop.refresh(workshop.start(skerry))
    opened = workshop.refresh(opened)
    assert workshop.refresh(opened) is opened


def test_a_confirm_does_the_same_few_statements_however_long_the_piece(workshop, tmp_path) -> None:
    counts = []
    for beads in (20, 4000):
        path = tmp_path / f"{beads}.yaml"
        path.write_text(
            "format: 1\nname: Long\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"
            f"strand: {{layout: [{{repeat: {beads}, of: [b, knot]}}]}}\n"
        )
        opened = workshop.confirm(workshop.start(path))
        seen: list[str] = []
        workshop._store.database.open().set_trace_callback(seen.append)
        workshop.confirm(opened)
        workshop._store.database.open().set_trace_callback(None)
        counts.append([statement.split()[0] for statement in seen])
    assert counts[0] == counts[1] == ["BEGIN", "SELECT", "INSERT", "UPDATE", "COMMIT"]


def test_a_foreign_file_is_not_touched(data_folder, skerry) -> None:
    data_folder.mkdir()
    path = data_folder / "pieces.sqlite3"
    for content in (b"a diary, not a database" * 50, None):
        path.unlink(missing_ok=True)
        if content is None:
            db = sqlite3.connect(path)
            db.execute("CREATE TABLE diary (day TEXT)")
            db.commit()
            db.close()
        else:
            path.write_bytes(content)
        before = path.read_bytes()
        with pytest.raises(NotADatabase):
            open_at(data_folder).start(skerry)
        with pytest.raises(NotADatabase):
            open_at(data_folder).pieces()
        assert path.read_bytes() == before


def test_a_newer_file_is_refused(workshop, data_folder, skerry) -> None:
    workshop.start(skerry)
    workshop.close()
    db = raw(data_folder)
    db.execute(f"PRAGMA user_version = {len(CHANGES) + 1}")
    db.close()
    before = (data_folder / "pieces.sqlite3").read_bytes()
    with pytest.raises(NotADatabase, match="newer version"):
        open_at(data_folder).pieces()
    assert (data_folder / "pieces.sqlite3").read_bytes() == before


def test_a_file_held_by_another_program_is_said(workshop, data_folder, skerry, monkeypatch) -> None:
    monkeypatch.setattr("companion.storage.database.BUSY_SECONDS", 0.05)
    opened = open_at(data_folder).start(skerry)
    holder = raw(data_folder)
    holder.isolation_level = None
    holder.execute("BEGIN EXCLUSIVE")
    impatient = open_at(data_folder)
    with pytest.raises(NotStored, match="Another program is using"):
        impatient.confirm(opened)
    holder.execute("ROLLBACK")
    assert impatient.confirm(opened).piece.done == 1


def test_a_full_disk_keeps_the_last_confirmed_step(data_folder, skerry) -> None:
    """The real fault: the kernel refuses to let the file grow (RLIMIT_FSIZE)."""
    opened = open_at(data_folder).start(skerry)
    size = (data_folder / "pieces.sqlite3").stat().st_size
    code = (
        "import resource, signal, sys\n"
        "from companion.workshop import open_at\n"
        "from companion.core.values.errors import WorkshopError\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "shop = open_at(); work = shop.open(sys.argv[1])\n"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({size}, {size}))\n"
        "done = 0\n"
        "try:\n"
        "    for _ in range(27):\n"
        "        work = shop.note(work, 'x' * 2000); work = shop.confirm(work); done = work.piece.done\n"
        "except WorkshopError as error:\n"
        "    print(done, error)\n"
    )
    run = subprocess.run([sys.executable, "-c", code, opened.name], capture_output=True, text=True, cwd=REPO)
    assert "saved" in run.stdout, run.stderr
    done = int(run.stdout.split()[0])
    assert open_at(data_folder).open(opened.name).piece.done == done
    assert raw(data_folder).execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_killed_at_any_moment_every_step_said_is_stored_once(data_folder, skerry) -> None:
    opened = open_at(data_folder).start(skerry)
    code = (
        "import sys\n"
        "from companion.workshop import open_at\n"
        "shop = open_at(); work = shop.open(sys.argv[1])\n"
        "while True:\n"
        "    work = shop.confirm(work) if work.piece.done < 28 else shop.jump(work, 0)\n"
        "    print(work.revision, flush=True)\n"
    )
    for lines in (1, 2, 7, 19, 40):
        process = subprocess.Popen(
            [sys.executable, "-c", code, opened.name], stdout=subprocess.PIPE, text=True, cwd=REPO
        )
        assert process.stdout is not None
        said = [int(process.stdout.readline()) for _ in range(lines)]
        process.send_signal(signal.SIGKILL)
        rest = process.stdout.read().split()
        process.wait()
        db = raw(data_folder)
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        (stored,) = db.execute("SELECT max(seq) FROM event").fetchone()
        (count,) = db.execute("SELECT count(*) FROM event").fetchone()
        assert stored == count
        shown = [*said, *(int(line) for line in rest if line)]
        assert shown == list(range(shown[0], shown[-1] + 1))
        assert stored in (shown[-1], shown[-1] + 1)
        open_at(data_folder).open(opened.name)  # the journal still folds


def test_a_folder_that_can_not_be_made_is_said(tmp_path, skerry) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    with pytest.raises(NotStored, match="can't be made"):
        open_at(blocked / "below").start(skerry)


def test_what_fails_after_its_first_half_leaves_nothing(workshop, data_folder, skerry) -> None:
    """The event is in, the row on the bench is refused; then the row is in, its first event refused."""
    opened = workshop.start(skerry)
    for event in ("UPDATE ON piece", "INSERT ON event"):
        db = raw(data_folder)
        db.execute(f"CREATE TRIGGER fault AFTER {event} BEGIN SELECT RAISE(ABORT, 'a fault'); END")
        with pytest.raises(NotStored, match="a fault"):
            workshop.confirm(opened) if "UPDATE" in event else workshop.start(skerry)
        db.execute("DROP TRIGGER fault")
        assert db.execute("SELECT (SELECT count(*) FROM event), (SELECT count(*) FROM piece)").fetchone() == (1, 1)
        db.close()
    assert workshop.confirm(opened).piece.done == 1


def test_a_store_that_fails_half_way_leaves_nothing(workshop, data_folder, skerry, monkeypatch) -> None:
    opened = workshop.start(skerry)
    monkeypatch.setattr(
        "companion.storage.rows.add_events",
        lambda *a: (_ for _ in ()).throw(sqlite3.OperationalError("disk I/O error")),
    )
    with pytest.raises(NotStored):
        workshop._store.append(opened.id, 2, [Confirmed(1)], datetime.now(UTC), None)
    assert raw(data_folder).execute("SELECT count(*) FROM event").fetchone() == (1,)


def test_append_against_a_number_that_is_taken(workshop, skerry) -> None:
    opened = workshop.note(workshop.start(skerry), "one")
    from companion.storage.kept import Summary

    for seq in (2, 4):
        with pytest.raises(Stale):
            workshop._store.append(opened.id, seq, [Noted(0, "x")], datetime.now(UTC), Summary(0, 28, "under way", ""))


def test_names_are_easy_to_type(workshop, tmp_path) -> None:
    def start(name: str) -> str:
        path = tmp_path / "d.yaml"
        path.write_text(
            f"format: 1\nname: {name}\ncord: {{name: c, diameter: 1 mm}}\nbeads: {{b: {{length: 6 mm}}}}\n"
            "strand: {layout: [b, knot]}\n"
        )
        return workshop.start(path).name

    assert start("Phare d'Ar-Men n° 2") == "phare-d-ar-men-n-2"
    assert start("灯台") == "piece"
    assert start("灯台") == "piece-2"
    assert len(start("x" * 150)) <= 40
