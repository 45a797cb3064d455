"""The maker's settings: in the file of pieces, and until they are there as Older versions left them."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from companion.core.values.errors import NotStored, WorkshopError
from companion.workshop import open_at


def old_settings(folder: Path, text: str) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "settings.json").write_text(text)
    return folder


def test_nothing_is_set_and_nothing_is_made_by_asking(data_folder: Path) -> None:
    assert open_at(data_folder).run_out_risk == pytest.approx(0.01)
    assert not data_folder.exists()


def test_what_is_set_is_kept_in_the_file_of_pieces(data_folder: Path) -> None:
    open_at(data_folder).set_run_out_risk(0.05)
    assert open_at(data_folder).run_out_risk == 0.05
    open_at(data_folder).set_run_out_risk(0.002)
    assert open_at(data_folder).run_out_risk == 0.002
    assert [path.name for path in data_folder.iterdir()] == ["pieces.sqlite3"]


def test_the_risk_that_an_older_version_kept_is_not_lost(data_folder: Path, skerry: Path) -> None:
    old_settings(data_folder, '{"run_out_risk": 0.05}')
    workshop = open_at(data_folder)
    assert workshop.run_out_risk == 0.05
    assert [path.name for path in data_folder.iterdir()] == ["settings.json"]  # asking makes no file of pieces
    assert workshop.start(skerry).plan.risk == 0.05
    assert open_at(data_folder).run_out_risk == 0.05  # nor does the file of pieces hide it
    workshop.set_run_out_risk(0.1)
    assert open_at(data_folder).run_out_risk == 0.1


def test_asking_leaves_a_file_of_an_older_shape_as_it_is(data_folder: Path) -> None:
    old_settings(data_folder, '{"run_out_risk": 0.05}')
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        db.executescript((Path(__file__).parent / "version_2.sql").read_text(encoding="utf-8"))
    before = (data_folder / "pieces.sqlite3").read_bytes()
    assert open_at(data_folder).run_out_risk == 0.05
    assert (data_folder / "pieces.sqlite3").read_bytes() == before
    assert not (data_folder / "backups").exists()


@pytest.mark.parametrize("value", ["7", "true", '"5%"', "[]", "{", "1e999"])
def test_what_can_not_be_understood_is_said_and_written_anew(data_folder: Path, value: str) -> None:
    open_at(data_folder).set_run_out_risk(0.05)
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db, db:
        db.execute("UPDATE setting SET value = ?", (value,))
    with pytest.raises(WorkshopError, match=r"can't be understood. `tallycord risk 1%` writes them anew"):
        _ = open_at(data_folder).run_out_risk
    open_at(data_folder).set_run_out_risk(0.02)
    assert open_at(data_folder).run_out_risk == 0.02


def test_a_setting_that_is_not_stored_is_said(data_folder: Path) -> None:
    data_folder.mkdir()
    (data_folder / "pieces.sqlite3").mkdir()
    with pytest.raises(NotStored):
        open_at(data_folder).set_run_out_risk(0.05)


def test_a_folder_that_can_not_be_reached_holds_no_settings(tmp_path: Path) -> None:
    assert open_at(tmp_path / ("x" * 400)).run_out_risk == pytest.approx(0.01)


def test_settings_come_through_a_rescue(data_folder: Path, skerry: Path) -> None:
    workshop = open_at(data_folder)
    workshop.start(skerry)
    workshop.set_run_out_risk(0.05)
    workshop.close()
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db, db:
        db.execute("DROP TRIGGER event_never_updated")
        db.execute("UPDATE piece SET plan = 'gone'")
        db.execute("INSERT INTO setting VALUES ('least_scrap_mm', ?)", (json.dumps(150),))
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        rows = db.execute("SELECT * FROM setting ORDER BY name").fetchall()
    open_at(data_folder).keep_a_copy()
    assert open_at(data_folder).rescue().state == "damaged"
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        assert db.execute("SELECT * FROM setting ORDER BY name").fetchall() == rows
