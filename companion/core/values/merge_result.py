"""What came of taking an export in."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct, field

# apart: gone on differently here and there, and left as it is here
Outcome = Literal["added", "continued", "same", "behind", "apart"]
Kind = Literal["pieces", "cards", "beads"]


class Merged(Struct):
    """What came of each piece, card and bead of the bead box, by the name it has here."""

    pieces: dict[str, Outcome] = field(default_factory=dict)
    cards: dict[str, Outcome] = field(default_factory=dict)
    beads: dict[str, Outcome] = field(default_factory=dict)
    renamed: dict[str, str] = field(default_factory=dict)  # by the name here: the name in the document

    def take(self, kind: Kind, name: str, outcome: Outcome) -> None:
        """What came of one; of one that the document holds twice, what is more than nothing."""
        found = self._of(kind)
        if outcome != "same" or name not in found:
            found[name] = outcome

    def named(self, kind: Kind, outcome: Outcome) -> tuple[str, ...]:
        """The names of those with that outcome."""
        return tuple(name for name, one in self._of(kind).items() if one == outcome)

    def _of(self, kind: Kind) -> dict[str, Outcome]:
        return {"pieces": self.pieces, "cards": self.cards, "beads": self.beads}[kind]
