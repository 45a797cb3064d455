"""All rows of the bench: which part each stands in, and what stands there where there is nothing yet."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.cells import cell_len

from companion.core.cord.cards import CordCard
from companion.tui.bench.contents import Contents
from companion.tui.bench.rows import bench_rows, last_folders, no_designs, shown_folder
from companion.tui.routes import ToCard, ToDesign, ToPiece
from companion.tui.widgets.rows import StripPlace
from tests.tui.bench.pieces import piece

FOLDER = Path("/data/tallycord/designs")
CONTENTS = Contents(
    pieces=(
        piece("Anna's bracelet", 9, 28),
        piece("For Bea", 33, 33, state="finished"),
        piece("Teal", 120, 219, state="abandoned"),
    ),
    sizes=("wrist 6 1/2 in", "", "length 66 in"),
    own_designs=(Path("/own/moss.yaml"),),
    designs_here=(Path("/here/teal-rope.yaml"),),
    shipped_designs=(Path("/shipped/fastnet-cuff.yaml"),),
    cards=(CordCard("teal silk", 0.45, 2),),
)


def parts(rows) -> dict[str, list[object]]:
    """What can be chosen under each title."""
    found: dict[str, list[object]] = {}
    for row in rows:
        if row.value is not None:
            list(found.values())[-1].append(row.value)
        elif row.text and not row.detail:
            found[row.text] = []
    return found


def test_the_parts_and_their_order() -> None:
    rows = bench_rows(CONTENTS, "", 80, FOLDER)
    assert list(parts(rows).items()) == [
        ("Under way", [ToPiece("Anna's bracelet")]),
        ("Your designs", [ToDesign(Path("/own/moss.yaml"))]),
        ("Designs in this folder", [ToDesign(Path("/here/teal-rope.yaml"))]),
        ("Cords", [ToCard("teal silk")]),
        ("Designs that come with Tallycord", [ToDesign(Path("/shipped/fastnet-cuff.yaml"))]),
        ("Finished", [ToPiece("For Bea")]),
        ("Put away", [ToPiece("Teal")]),
    ]
    assert rows[-1].value is not None  # no empty row that a screen would scroll for


def test_pieces_stand_in_the_same_columns_in_every_part() -> None:
    texts = [row.text for row in bench_rows(CONTENTS, "", 80, FOLDER) if isinstance(row.value, ToPiece)]
    assert len({text.index(" of ") for text in texts}) == 1
    assert len({text.index(" steps") for text in texts}) > 1  # the word follows its number


def test_letters_are_looked_for_in_every_part() -> None:
    assert list(parts(bench_rows(CONTENTS, "TEAL", 80, FOLDER)).values()) == [
        [ToDesign(Path("/here/teal-rope.yaml"))],
        [ToCard("teal silk")],
        [ToPiece("Teal")],
    ]
    assert [row.text for row in bench_rows(CONTENTS, "[zz", 80, FOLDER)] == ['Nothing found for "[zz".']


def test_without_own_designs_the_way_to_one_is_said_in_as_few_rows_as_there_is_room_for() -> None:
    assert [row.text for row in no_designs(FOLDER, 80)] == [
        "None yet. d makes one. Files go in /data/tallycord/designs"
    ]
    assert [row.text for row in no_designs(FOLDER, 60)] == [
        "None yet. d makes one. Files go in",
        "/data/tallycord/designs",
    ]
    assert [row.text for row in no_designs(None, 60)] == ["None yet. d makes one."]
    assert all(row.detail for row in no_designs(FOLDER, 60))
    assert not any("None yet" in row.text for row in bench_rows(CONTENTS, "", 80, FOLDER))


@pytest.mark.parametrize("columns", [20, 34, 53, 80])
def test_a_long_folder_keeps_to_one_line_and_its_last_folders(columns) -> None:
    folder = "/srv/" + "/".join(f"a folder {number}" for number in range(9)) + "/designs"
    shown = last_folders(folder, columns)
    assert cell_len(shown) <= columns
    assert shown.endswith("/designs")
    assert shown.startswith("…/")
    assert folder.endswith(shown.removeprefix("…"))
    assert last_folders("/srv/designs", 80) == "/srv/designs"


def test_a_folder_at_home_is_written_as_a_maker_writes_it(monkeypatch) -> None:
    monkeypatch.setenv("HOME", "/home/maker")
    assert shown_folder(Path("/home/maker/beads/designs")) == "~/beads/designs"
    assert shown_folder(Path("/elsewhere/designs")) == "/elsewhere/designs"


def test_designs_have_room_for_their_beads_beside_the_longest_name() -> None:
    designs = tuple(Path(f"/designs/{name}.yaml") for name in ("a", "a-longer-name"))
    rows = [row for row in bench_rows(Contents(shipped_designs=designs), "", 80, None) if row.value is not None]
    assert [row.words for row in rows] == [StripPlace(15, 33)] * 2
    assert [row.strip for row in rows] == [StripPlace(50, 24)] * 2
    narrow = bench_rows(Contents(shipped_designs=designs), "", 28, None)
    assert all(row.strip is None for row in narrow)
