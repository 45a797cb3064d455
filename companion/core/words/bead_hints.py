"""Hints about beads whose words nobody here knows: they are drawn all the same, so nothing is wrong with the design."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator

from companion.core.picture.colours import COLOUR_WORDS, colour_of
from companion.core.picture.outlines import SHAPE_WORDS
from companion.core.values.design import BeadKind
from companion.core.values.text import nearest, plain, sentences

MOST_COLUMNS = 40  # of a word, as a sentence repeats it


def look_hints(beads: Iterable[BeadKind]) -> Iterator[tuple[str, BeadKind]]:
    """A sentence or two for each colour and shape that is not known, with its bead."""
    for kind in beads:
        if kind.colour.strip() and colour_of(kind.colour) is None:
            yield _hint("colour", kind.colour, "in no colour of its own", COLOUR_WORDS), kind
        if kind.shape.strip() and not any(word in SHAPE_WORDS for word in _words(kind.shape)):
            yield _hint("shape", kind.shape, "round", SHAPE_WORDS), kind


def _hint(what: str, words: str, drawn: str, known: Collection[str]) -> str:
    near = nearest(words.strip(), known) or next(filter(None, (nearest(word, known) for word in _words(words))), None)
    return sentences(
        f'"{plain(words, MOST_COLUMNS)}" is no {what} known here, so the bead is drawn {drawn}.',
        f"Did you mean {near}?" if near else "",
    )


def _words(text: str) -> list[str]:
    """From the last one, which counts most."""
    return re.findall(r"[^\W\d_]+", text.lower())[-9:][::-1]
