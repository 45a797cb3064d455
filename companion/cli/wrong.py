"""The one way in which a command line itself is wrong."""

from __future__ import annotations


class Wrong(Exception):
    """The command can't be taken as it was typed; the text is a sentence, the exit code 2."""
