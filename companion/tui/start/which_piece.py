"""Several pieces of one design are under way: which one?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from companion.tui.bench.piece_rows import since
from companion.tui.commands import WHICH_PIECE, bindings
from companion.tui.page import ListPage
from companion.tui.routes import ToBench, ToDesign, ToPiece
from companion.tui.widgets.rows import Row
from companion.workshop import PieceRow


class WhichPieceScreen(ListPage):
    """The pieces of one design that are under way."""

    BINDINGS = bindings(*WHICH_PIECE)
    COMMANDS_HERE = WHICH_PIECE
    heading = "Several pieces of this design are under way. Which one?"

    def __init__(self, path: Path, pieces: Sequence[PieceRow]) -> None:
        super().__init__()
        self.path, self.pieces = path, pieces

    def on_mount(self) -> None:
        self.rows.set_rows([Row(_words(piece), ToPiece(piece.name)) for piece in self.pieces])

    def action_open_row(self) -> None:
        """Go on with that one."""
        route = self.rows.chosen
        if isinstance(route, ToPiece):
            self.go(route)

    def action_begin_another(self) -> None:
        """Begin another."""
        self.go(ToDesign(self.path, new=True))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench())


def _words(row: PieceRow) -> str:
    return f"{row.name:<30.30}  step {row.steps_done} of {row.steps_total}   {since(row.touched_at)}"
