"""The name of a piece: what can be one, when two are alike, and what each event makes of it.

The name a piece begins with is made from its design and easy to type; the maker may give it any other.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable

from companion.core.journal.events import Event, RedoneAct, Renamed, UndoneAct
from companion.core.journal.fold import after
from companion.core.journal.piece import Piece
from companion.core.values.text import plain

MOST_NAME = 40
PATH_MARKS = "/\\"  # a name with one of them would look like a file
MOST_NAME_KEPT = 60  # of a name that was made longer by its number


def alike(name: str) -> str:
    """What two names have in common that are alike: "For Anna", "for anna" and "for-anna" have the same."""
    return re.sub(r"[\W_]+", "-", unicodedata.normalize("NFKC", name).casefold()).strip("-")


def can_be_kept(name: str) -> bool:
    """Whether a name is one line of plain text that a command can be given."""
    is_line = bool(alike(name)) and plain(name, MOST_NAME_KEPT) == name
    return is_line and not name.startswith("-") and not any(mark in name for mark in PATH_MARKS)


def free_name(design: str, taken: Collection[str]) -> str:
    """A name for a new piece that is easy to type: "skerry-bracelet", and "skerry-bracelet-2" for the next.

    `taken`: the names that there are, as `alike` gives them.
    """
    first = easy_name(design)
    number, name = 1, first
    while name in taken:
        number += 1
        name = f"{first}-{number}"
    return name


def easy_name(design: str) -> str:
    """A design's name in small letters, digits and dashes."""
    ascii_text = unicodedata.normalize("NFKD", design).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", ascii_text.lower()).strip("-")[:MOST_NAME].strip("-") or "piece"


def shown_name(name: str, design: str) -> str:
    """A piece's name as a page shows it: the design's own name, with its number, until the maker gives another."""
    first = easy_name(design)
    if name == first:
        return design
    number = name.removeprefix(f"{first}-")
    return f"{design} {number}" if name.startswith(f"{first}-") and number.isdigit() else name


def name_after(name: str, piece: Piece, event: Event) -> str:
    """The piece's name after an event; `piece`: as it stood before."""
    match event:
        case Renamed(name=new):
            return new
        case UndoneAct() if isinstance(piece.act, Renamed):
            return piece.act.was
        case RedoneAct() if piece.later is not None and isinstance(piece.later.act, Renamed):
            return piece.later.act.name
    return name


def reopening(piece: Piece, name: str) -> tuple[Event, ...]:
    """What opens a piece again that has ended: its end is undone, and a name that it was given since stays."""
    events: list[Event] = []
    earlier = name
    while piece.state != "under way" and piece.before is not None:
        events.append(UndoneAct())
        earlier, piece = name_after(earlier, piece, events[-1]), piece.before
    return tuple(events) if earlier == name else (*events, Renamed(name, earlier))


def name_after_all(name: str, piece: Piece, events: Iterable[Event]) -> str:
    """The same after several events."""
    for event in events:
        name, piece = name_after(name, piece, event), after(piece, event)
    return name
