"""What can go wrong while working on a piece, each as a sentence for the maker. One family: WorkshopError."""

from __future__ import annotations


class WorkshopError(Exception):
    """Something the maker must see to; the text is whole sentences, clean for any screen."""


class NotStored(WorkshopError):
    """A step or reading did not reach the disk: it does not count."""


class NotConfirmed(NotStored):
    """What was written is there, but the disk does not say that it will stay: it may count, or not."""


class Busy(NotStored):
    """Another program has the file of pieces to itself just now; a moment later it may not."""


class Stale(WorkshopError):
    """The piece has moved on since it was last looked at (another window, another command); nothing was written."""


class NotPossible(WorkshopError, ValueError):
    """An event that does not follow from the piece as it stands; nothing was written."""


class OpenElsewhere(WorkshopError):
    """Another window has the piece open; nothing was written."""


class NoSuchPiece(WorkshopError):
    """No piece of that name, or more than one that begins so."""


class NameTaken(WorkshopError):
    """Another piece has that name, or one like it; nothing was written."""


class NotADatabase(WorkshopError):
    """The file where pieces are kept is not one of ours, is newer than this program, or is damaged."""
