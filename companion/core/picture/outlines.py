"""The forms that beads are drawn in, and the outline in characters of each, by the words for a bead's shape."""

from __future__ import annotations

import re
from typing import Literal

from msgspec import Struct

Form = Literal["round", "oval", "tube", "cube", "disc", "faceted", "drop", "daisy", "chip"]


class Outline(Struct, frozen=True):
    """A bead drawn large: three lines of equal width; `{}` in the middle one is where its letter goes."""

    form: Form
    top: str
    middle: str
    bottom: str

    def lines(self, letter: str) -> tuple[str, str, str]:
        """The three lines with this letter, one column wide, in the middle."""
        return self.top, self.middle.format(letter), self.bottom


ROUND = Outline("round", "╭─────╮", "│  {}  │", "╰─────╯")
OVAL = Outline("oval", "╭───────╮", "│   {}   │", "╰───────╯")
TUBE = Outline("tube", "┌───────┐", "│   {}   │", "└───────┘")
CUBE = Outline("cube", "┌─────┐", "│  {}  │", "└─────┘")
DISC = Outline("disc", "╭───╮", "│ {} │", "╰───╯")
FACETED = Outline("faceted", "╱─────╲", "│  {}  │", "╲─────╱")
DROP = Outline("drop", " ╱────╮", "<  {}  │", " ╲────╯")
DAISY = Outline("daisy", "╭┬┬┬┬┬╮", "├  {}  ┤", "╰┴┴┴┴┴╯")
CHIP = Outline("chip", "┌────╮ ", "│  {}  ╲", "╰─────┘")

SHAPE_WORDS: dict[str, Outline] = {
    "round": ROUND, "ball": ROUND, "sphere": ROUND, "globe": ROUND, "pearl": ROUND,
    "oval": OVAL, "olive": OVAL, "barrel": OVAL, "rice": OVAL, "egg": OVAL, "potato": OVAL,
    "tube": TUBE, "cylinder": TUBE, "bugle": TUBE, "pipe": TUBE, "bar": TUBE, "stick": TUBE,
    "cube": CUBE, "square": CUBE, "box": CUBE, "brick": CUBE, "block": CUBE,
    "disc": DISC, "disk": DISC, "coin": DISC, "button": DISC, "washer": DISC, "rondelle": DISC, "spacer": DISC,
    "ring": DISC, "wheel": DISC, "flat": DISC, "heishi": DISC, "lentil": DISC,
    "bicone": FACETED, "faceted": FACETED, "diamond": FACETED, "hexagon": FACETED, "octagon": FACETED,
    "drop": DROP, "teardrop": DROP, "pear": DROP, "briolette": DROP, "dagger": DROP, "leaf": DROP, "cone": DROP,
    "daisy": DAISY, "flower": DAISY, "star": DAISY, "cog": DAISY, "melon": DAISY, "snowflake": DAISY,
    "chip": CHIP, "nugget": CHIP, "pebble": CHIP, "shard": CHIP, "rough": CHIP, "baroque": CHIP, "tumbled": CHIP,
}  # fmt: skip


def outline_of(words: str) -> Outline:
    """The outline for shape words such as "flat disc"; of several the last counts; round where none is known."""
    for word in reversed(re.findall(r"[a-z]+", words.lower())):
        if word in SHAPE_WORDS:
            return SHAPE_WORDS[word]
    return ROUND
