"""All rows of the bench: pieces under way, designs, cords, pieces that are finished or put away."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path, PurePath

from msgspec import Struct
from rich.cells import cell_len

from companion.core.cord.cards import CordCard
from companion.core.journal.names import shown_name
from companion.core.journal.piece import State
from companion.core.values.text import plain
from companion.tui.bench.contents import Contents
from companion.tui.bench.piece_rows import GAP, LEAST_DOTS, MOST_DOTS, ROW_EDGES, piece_rows
from companion.tui.routes import ToCard, ToDesign
from companion.tui.widgets.rows import Row, StripPlace
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar
NONE_YET, FILES_GO_IN = "None yet. d makes one.", "Files go in"
NEW_HERE = "New here? y shows you how it goes, in two minutes, on a sample piece."
LEFT_OUT = "…/"
MOST_STEM = 40  # letters of a design's name
LEAST_WORDS, MOST_WORDS = 16, 33  # columns for the size and kind of a design
MOST_LETTERS = 30  # of what is looked for, as a sentence repeats it


def bench_rows(
    contents: Contents, letters: str, columns: int, folder: Path | None, beads_first: bool = False
) -> list[Row]:
    """What holds these letters, or everything for none; `folder`: where the maker's own designs would lie, None where
    there is no room to say it; `beads_first`: as `piece_rows` has it."""
    pieces, places = _pieces(contents, letters, columns, beads_first), _places(contents.designs, columns, beads_first)
    own = _designs(contents.own_designs, letters, places)
    parts = [
        _part("Under way", pieces["under way"]),
        _part("Your designs", own or ([] if letters else no_designs(folder, columns))),
        _part("Designs in this folder", _designs(contents.designs_here, letters, places)),
        _part("Cords", _cards(contents.cards, letters)),
        _part("Designs that come with Tallycord", _designs(contents.shipped_designs, letters, places)),
        _part("Finished", pieces["finished"]),
        _part("Put away", pieces["abandoned"]),
    ]
    found = [row for part in parts for row in part]
    if not contents.pieces and not letters:
        found = [*(Row(line, detail=True) for line in hanging(NEW_HERE, columns - DETAIL_EDGES, 0)), Row(""), *found]
    return found[:-1] or [Row(f'Nothing found for "{plain(letters, MOST_LETTERS)}".')]


def _part(title: str, rows: Sequence[Row]) -> Sequence[Row]:
    """Its title, its rows and an empty one; nothing where it has no rows."""
    return (Row(title), *rows, Row("")) if rows else ()


def _pieces(contents: Contents, letters: str, columns: int, beads_first: bool) -> dict[State, list[Row]]:
    """The rows of the pieces in each state, in columns that agree over all of them."""
    found = [
        (piece, size)
        for piece, size in zip(contents.pieces, contents.sizes, strict=True)
        if _holds(letters, shown_name(piece.name, piece.design_name), piece.design_name)
    ]
    rows = piece_rows([piece for piece, _ in found], [size for _, size in found], columns, beads_first)
    parts: dict[State, list[Row]] = {"under way": [], "finished": [], "abandoned": []}
    for (piece, _), row in zip(found, rows, strict=True):
        parts[piece.state].append(row)
    return parts


def _designs(designs: Sequence[Path], letters: str, places: _Places) -> list[Row]:
    found = (path for path in designs if _holds(letters, path.stem))
    return [Row(_shown(path), ToDesign(path), strip=places.strip, words=places.words) for path in found]


def _shown(path: Path) -> str:
    return plain(path.stem, MOST_STEM)


class _Places(Struct, frozen=True):
    """Where the size and kind of a design stand, and where its beads; None where there is no room for them."""

    words: StripPlace | None
    strip: StripPlace | None


def _places(designs: Sequence[Path], columns: int, beads_first: bool) -> _Places:
    """Words beside the longest name, then the beads. `beads_first`: the words stand beside the list."""
    at = max((cell_len(_shown(path)) for path in designs), default=0) + GAP
    room = columns - ROW_EDGES - at
    if beads_first or room < LEAST_WORDS:
        return _Places(None, StripPlace(at, min(MOST_DOTS, room)) if room >= LEAST_DOTS else None)
    words = min(MOST_WORDS, room)
    left = room - words - GAP
    return _Places(
        StripPlace(at, words), StripPlace(at + words + GAP, min(MOST_DOTS, left)) if left >= LEAST_DOTS else None
    )


def no_designs(folder: Path | None, columns: int) -> list[Row]:
    """How there come to be designs of the maker's own: in one line where the folder fits into it, else in two."""
    if folder is None:
        return [Row(NONE_YET, detail=True)]
    room, shown = columns - DETAIL_EDGES, shown_folder(folder)
    whole = f"{NONE_YET} {FILES_GO_IN} {shown}"
    lines = [whole] if cell_len(whole) <= room else [f"{NONE_YET} {FILES_GO_IN}", last_folders(shown, room)]
    return [Row(line, detail=True) for line in lines]


def last_folders(folder: str, columns: int) -> str:
    """As many of the last folders of that path as fit, after an ellipsis where some are left out."""
    parts, shown = PurePath(folder).parts, folder
    for first in range(1, len(parts)):
        if cell_len(shown) <= columns:
            break
        shown = LEFT_OUT + "/".join(parts[first:])
    return shown


def shown_folder(folder: Path) -> str:
    """A folder as a maker writes it: her own home is ~."""
    try:
        return plain(f"~/{folder.relative_to(Path.home())}")
    except (ValueError, RuntimeError):
        return plain(str(folder))


def _cards(cards: Sequence[CordCard], letters: str) -> list[Row]:
    """The cord cards, a line each."""
    found = [card for card in cards if _holds(letters, card.name)]
    if not found:
        return []
    from companion.core.words.card_words import card_in_short

    return [Row(card_in_short(card), ToCard(card.name)) for card in found]


def _holds(letters: str, *texts: str) -> bool:
    return any(letters.lower() in text.lower() for text in texts)
