"""What can be the name of a piece, when two names are alike, and how each event changes the name.

A piece begins with a name that is made from its design and is easy to type. The maker may give it any other.
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
    """The same text for all names that are alike: "For Anna", "for anna" and "for-anna" give one."""
    return re.sub(r"[\W_]+", "-", unicodedata.normalize("NFKC", name).casefold()).strip("-")


def can_be_kept(name: str) -> bool:
    """Whether a name is one line of plain text that can be typed after a command."""
    is_line = bool(alike(name)) and plain(name, MOST_NAME_KEPT) == name
    return is_line and not name.startswith("-") and not any(mark in name for mark in PATH_MARKS)


def free_name(design: str, taken: Collection[str]) -> str:
    """A name for a new piece that is easy to type: "skerry-bracelet", and "skerry-bracelet-2" for the next.

    `taken`: the names in use, in the form that `alike` gives.
    """
    first = easy_name(design)
    number, name = 1, first
    while name in taken:
        number += 1
        name = f"{first}-{number}"
    return name


def easy_name(design: str) -> str:
    """A design's name in lower-case letters, digits and dashes."""
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
    """The events that reopen a piece that has ended: its end is undone, but a name that it was given since then
    stays."""
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
