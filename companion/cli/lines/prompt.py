"""What the maker types, a line at a time: at a terminal, or through a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable
from time import monotonic
from typing import BinaryIO

from companion.cli.printing import finish_output, is_for_the_ear, say
from companion.workshop.key_bounce import bounce_seconds

MOST_BYTES = 4000  # of a line; what is typed beyond that is let go


class Left(Exception):
    """The input has ended: nobody types any more."""


class Prompt:
    """Reads lines from `source`. `by_hand`: whether a hand types them; then Enter that is held or bounces counts once,
    for `bounce_seconds` after what it did was said. A pipe counts every line. `mark`: what stands where she types."""

    def __init__(
        self,
        source: BinaryIO,
        encoding: str,
        by_hand: bool,
        bounce_seconds: float,
        mark: str = "",
        clock: Callable[[], float] = monotonic,
    ) -> None:
        self._source, self._encoding, self._mark = source, encoding, mark
        self._bounce_seconds, self._clock = bounce_seconds if by_hand else 0.0, clock

    def answer(self) -> str:
        """The next line, without spaces around it; all that was said before is heard by then. Raises Left."""
        finish_output()
        if self._mark:
            sys.stdout.write(self._mark)
            sys.stdout.flush()
        return self._line()

    def next_act(self) -> str:
        """The same, where Enter alone is a step done: one too soon to be meant is passed over, and said once."""
        asked_at, line = self._clock(), self.answer()
        if line or self._clock() - asked_at >= self._bounce_seconds:
            return line
        say("Enter came twice. It counts once.")
        finish_output()
        while not line and self._clock() - asked_at < self._bounce_seconds:
            asked_at, line = self._clock(), self._line()
        return line

    def _line(self) -> str:
        try:
            raw = rest = self._source.readline(MOST_BYTES)
            while len(rest) == MOST_BYTES and rest[-1:] != b"\n":
                rest = self._source.readline(MOST_BYTES)
        except KeyboardInterrupt:
            self._end_line()
            raise
        if not raw:
            self._end_line()
            raise Left
        text = raw.decode(self._encoding, "replace")
        return text.strip()

    def _end_line(self) -> None:
        """Go on below the mark."""
        if self._mark:
            sys.stdout.write("\n")


def prompt_on_input(bounce: float) -> Prompt:
    """The prompt on what this process reads; `bounce`: the maker's setting, in seconds. Raises Left where it reads
    nothing."""
    if sys.stdin is None:  # closed before Tallycord began (<&-)
        raise Left
    by_hand = sys.stdin.isatty()
    shown = by_hand and sys.stdout is not None and sys.stdout.isatty() and not is_for_the_ear()
    mark = "> " if shown else ""
    return Prompt(sys.stdin.buffer, sys.stdin.encoding or "utf-8", by_hand, bounce_seconds(bounce), mark)
