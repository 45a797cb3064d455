"""rescue: it tells, and does nothing without the maker's word."""

from __future__ import annotations

from pathlib import Path


def spoiled(data_folder: Path) -> Path:
    path = data_folder / "pieces.sqlite3"
    with path.open("rb+") as file:
        file.write(b"\xff" * 4096)
    return path


def test_told_and_then_done(tallycord, data_folder: Path, skerry: Path) -> None:
    tallycord("start", skerry)
    tallycord("next", "skerry")
    (copy,) = (data_folder / "backups").iterdir()
    path = spoiled(data_folder)
    ran = tallycord("pieces")
    assert ran.code == 1
    assert ran.err == (
        f"{path} is damaged or not a file of pieces. Nothing was changed: `tallycord rescue` tells what can be saved.\n"
    )
    broken = path.read_bytes()
    ran = tallycord("rescue")
    assert ran.code == 1
    assert ran.out.splitlines() == [
        "The file of pieces is damaged.",
        "From it, 0 pieces, 0 events and 0 cord cards can be read.",
        "  Warning: it is no database any more.",
        f"From its newest good copy, {copy.name}, 1 piece, 1 event and 0 cord cards can be read.",
        "The copy holds more. For each piece the longer journal is kept.",
        "`tallycord rescue --yes` makes a new file of all that can be read, and keeps the damaged one beside it.",
    ]
    assert path.read_bytes() == broken
    ran = tallycord("rescue", "--yes")
    assert ran.code == 0
    (aside,) = data_folder.glob("pieces-damaged-*.sqlite3")
    assert (
        ran.out.splitlines()[-1] == f"A new file of pieces is in its place. The damaged file is kept as {aside.name}."
    )
    assert aside.read_bytes() == broken
    assert tallycord("next", "skerry").code == 0
    assert tallycord("rescue").out == "The file of pieces is sound: there is nothing to rescue.\n"


def test_nothing_to_rescue(tallycord, data_folder: Path, skerry: Path) -> None:
    ran = tallycord("rescue")
    assert (ran.code, ran.out) == (
        0,
        "There is no file of pieces yet, and no copy of one: there is nothing to rescue.\n",
    )
    assert not data_folder.exists()
    tallycord("start", skerry)
    for copy in (data_folder / "backups").iterdir():
        copy.unlink()
    spoiled(data_folder)
    for words in ((), ("--yes",)):
        ran = tallycord("rescue", *words)
        assert ran.code == 1
        assert ran.out.splitlines()[-1] == "There is nothing to save. Move the file away to start afresh."
