"""The problems found in one design file, each with its place. Of many that are alike, the rest are only counted."""

from __future__ import annotations

from collections import Counter
from typing import Any

from companion.core.values.design_reading import Problem
from companion.core.values.text import plain
from companion.storage.design.yaml_text.strict_yaml import Map, Node

MOST_ALIKE = 50  # problems of one kind that are told in full; the rest are counted
SHOWN = 60  # columns of a value in a message


class Findings:
    """Collects problems with their places."""

    def __init__(self, root: Map, file: str) -> None:
        self.root, self.file = root, file
        self.problems: list[Problem] = []
        self.counts: Counter[str] = Counter()  # problems of each kind, told or not
        self.rest: dict[str, Node] = {}  # of each kind that is only counted from some place on: that place
        self.compared = 0  # words held against others so far

    def add(self, node: Node, code: str, found: str, expected: str, hint: str = "") -> None:
        """One error at that node's place."""
        if self.tells(code, node):
            self.problems.append(Problem(self.file, node.line, node.column, "error", code, found, expected, hint))

    def tells(self, code: str, node: Node) -> bool:
        """Count one more problem of that kind. Whether it is to be told in full."""
        self.counts[code] += 1
        if self.counts[code] > MOST_ALIKE:
            self.rest.setdefault(code, node)
            return False
        return True

    def tell_the_rest(self) -> None:
        """Add one line for each kind of which some were not told, at the place of the first of those."""
        for code, node in self.rest.items():
            found = f"From here on there are {self.counts[code] - MOST_ALIKE:,} more of this kind."
            self.problems.append(Problem(self.file, node.line, node.column, "error", code, found, ""))

    def bead_length(self, key: str) -> Node:
        """The place where a bead's length is written, by the bead's key, which must be in the file."""
        beads = self.root.values["beads"]
        bead = beads.values[key] if isinstance(beads, Map) else beads
        return bead.keys["length"] if isinstance(bead, Map) else bead


def quoted(value: Any) -> str:
    """A value from the file, fit for one line: a text as it is; of a mapping, its first key."""
    if isinstance(value, str):
        shown = plain(value, SHOWN)
        return f"«{shown}»" if shown else "nothing"
    if isinstance(value, list):
        return "a list" if value else "an empty list"
    first = plain(str(next(iter(value), "")), SHOWN - 3)
    return f"«{first}: …»" if first else "nothing"
