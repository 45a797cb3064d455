"""The piece or the design under the cursor of the bench, drawn at the right."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical

from companion.core.words.notices import heading
from companion.core.words.piece_page import lengths_in_short, note_in_short
from companion.core.words.plan_words import closed_length_lines
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.piece_drawing import PieceDrawing
from companion.workshop.bench.sketches import Sketch

REST = 16  # lines of the screen that are not for the drawing


class Chosen(Vertical):
    """Its name, the drawing with as much of it made as is, its size, its cut and the latest note."""

    def __init__(self) -> None:
        super().__init__()
        self._sketch: Sketch | None = None

    def compose(self) -> ComposeResult:
        yield Paragraphs((), id="chosen-name")
        yield PieceDrawing(None, rest=REST)
        yield Paragraphs((), id="chosen-words")

    def on_mount(self) -> None:
        self._show()

    def show(self, sketch: Sketch | None) -> None:
        """Show that one; None: nothing."""
        if sketch is not self._sketch:
            self._sketch = sketch
            if self.children:
                self._show()

    def _show(self) -> None:
        drawing, (name, words) = self.query_one(PieceDrawing), self.query(Paragraphs)
        if self._sketch is None:
            drawing.show(None)
            name.show(())
            words.show(())
            return
        plan, piece = self._sketch.plan, self._sketch.piece
        drawing.show(plan, closed_length_lines(plan), piece.done if piece and piece.state != "finished" else None)
        name.show([Paragraph(heading(plan, self._sketch.name if piece else ""), "bold")])
        told = [Paragraph(line, hang=2) for line in lengths_in_short(plan, piece)]
        note = note_in_short(plan, piece)
        words.show([*told, *([Paragraph(), Paragraph(note, hang=2)] if note else [])])
