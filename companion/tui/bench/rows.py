"""All rows of the bench: pieces under way, designs, cords, pieces that are finished or put away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from companion.core.cord.cards import CordCard
from companion.core.journal.names import shown_name
from companion.core.journal.piece import State
from companion.core.values.text import plain
from companion.tui.bench.contents import Contents
from companion.tui.bench.piece_rows import piece_rows
from companion.tui.routes import ToCard, ToDesign
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar
MOST_LETTERS = 30  # of what is looked for, as a sentence repeats it


def bench_rows(contents: Contents, letters: str, columns: int, folder: Path) -> list[Row]:
    """What holds these letters, or everything for none; `folder`: where the maker's own designs lie."""
    found = [
        *_pieces(contents, letters, "under way", "Under way", columns),
        *_designs(contents.own_designs, letters, "Your designs"),
        *(() if contents.own_designs or letters else _no_designs(folder, columns)),
        *_designs(contents.designs_here, letters, "Designs in this folder"),
        *_cards(contents.cards, letters),
        *_designs(contents.shipped_designs, letters, "Designs that come with Tallycord"),
        *_pieces(contents, letters, "finished", "Finished", columns),
        *_pieces(contents, letters, "abandoned", "Put away", columns),
    ]
    return found or [Row(f'Nothing found for "{plain(letters, MOST_LETTERS)}".')]


def _pieces(contents: Contents, letters: str, state: State, title: str, columns: int) -> Iterator[Row]:
    found = [
        (piece, size)
        for piece, size in zip(contents.pieces, contents.sizes, strict=True)
        if piece.state == state and _holds(letters, shown_name(piece.name, piece.design_name), piece.design_name)
    ]
    if found:
        yield Row(title)
        yield from piece_rows([piece for piece, _ in found], [size for _, size in found], columns)
        yield Row("")


def _designs(designs: Sequence[Path], letters: str, title: str) -> Iterator[Row]:
    found = [path for path in designs if _holds(letters, path.stem)]
    if found:
        yield Row(title)
        yield from (Row(plain(path.stem, 40), ToDesign(path)) for path in found)
        yield Row("")


def _no_designs(folder: Path, columns: int) -> Iterator[Row]:
    """Where designs of the maker's own would lie."""
    yield Row("Your designs")
    lines = ("None yet. d makes one, or put a design file in", shown_folder(folder))
    yield from (Row(line, detail=True) for text in lines for line in hanging(text, columns - DETAIL_EDGES, 0))
    yield Row("")


def shown_folder(folder: Path) -> str:
    """A folder as a maker writes it: her own home is ~."""
    try:
        return plain(f"~/{folder.relative_to(Path.home())}")
    except (ValueError, RuntimeError):
        return plain(str(folder))


def _cards(cards: Sequence[CordCard], letters: str) -> Iterator[Row]:
    """The cord cards, a line each."""
    found = [card for card in cards if _holds(letters, card.name)]
    if found:
        from companion.core.words.card_words import card_in_short

        yield Row("Cords")
        yield from (Row(card_in_short(card), ToCard(card.name)) for card in found)
        yield Row("")


def _holds(letters: str, *texts: str) -> bool:
    return any(letters.lower() in text.lower() for text in texts)
