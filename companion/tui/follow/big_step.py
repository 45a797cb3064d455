"""The present step, large: its beads and knot, and the words beside them. A click says that it is made."""

from __future__ import annotations

from dataclasses import dataclass

from textual import events
from textual.color import Color
from textual.content import Content, Span
from textual.message import Message
from textual.style import Style
from textual.widget import Widget

from companion.core.picture.big_beads import StrokeRow, big_beads, line_text
from companion.core.picture.marks import BeadMark, marks_of
from companion.core.plan.plan import Plan
from companion.core.words.step_words import step_in_two
from companion.tui.themes import ground_of
from companion.tui.widgets.wrapping import shortened, wrapped

BESIDE = 3
LINES = 3
NARROW_BOXES, WIDE_BOXES = 2, 3
WORDS_AT_LEAST = 26
WHOLE = " (k: all)"  # at the end of a step that is cut off


@dataclass
class StepMade(Message):
    """The hand says that the present step is made."""


Drawing = tuple[StrokeRow, StrokeRow, StrokeRow]


def _columns(drawing: Drawing | None) -> int:
    """What a drawing takes, with the room beside it."""
    return max(len(line_text(line)) for line in drawing) + BESIDE if drawing else 0


class BigStep(Widget):
    """What to do now; it stands in the same place on every step."""

    def __init__(self, plan: Plan, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.step: int | None = None
        self.ended = ""
        self._take(plan)

    def _take(self, plan: Plan) -> None:
        self.plan = plan
        self.marks: dict[str, BeadMark] = {mark.key: mark for mark in marks_of(plan.beads)}

    def show(self, plan: Plan, step: int | None, ended: str = "") -> None:
        """Show that step of the piece (from 1); None: every step is made. `ended`: how the piece ended, if it has."""
        if plan is not self.plan or (step, ended) != (self.step, self.ended):
            self._take(plan)
            self.step, self.ended = step, ended
            self.refresh()

    def words(self) -> tuple[str, str]:
        """What to do, and how the knot goes with it."""
        if self.ended:
            return f"The piece is {self.ended}.", "u opens it again."
        if self.step is None:
            return "Every step is made.", "Space closes the piece."
        return step_in_two(self.plan, self.step)

    def drawing(self, boxes: int) -> Drawing | None:
        """The beads and knot, None for a step at an end."""
        if self.step is None or self.ended:
            return None
        entry, number = self.plan.place(self.step)
        step = self.plan.strands[entry].steps[number - 1]
        if step.kind != "string":
            return None
        return big_beads([self.marks[key] for key in step.beads], step.knot, boxes)

    def render(self) -> Content:
        width = self.content_size.width
        drawing = self.drawing(WIDE_BOXES)
        if drawing and len(line_text(drawing[0])) + BESIDE + WORDS_AT_LEAST > width:
            drawing = self.drawing(NARROW_BOXES)
        left = _columns(drawing)
        now, then = self.words()
        if drawing and not then and len(wrapped(now, max(10, width - left))) > LINES:
            drawing, left = None, 0  # what to do comes before how it looks
        beside = self._beside(max(10, width - left))
        lines = []
        for number in range(LINES):
            cord = self._coloured(drawing[number]) if drawing else Content("")
            text = beside[number]
            padded = cord + Content(" " * (left - len(cord.plain)))
            lines.append(padded + Content.styled(text, "bold"))
        return Content("\n").join(lines)

    def _beside(self, width: int) -> list[str]:
        """Three lines of words: what to do in the middle, the knot under it; long words take all three."""
        now, then = self.words()
        below = wrapped(then, width)[: LINES - 1] if then else []
        above = wrapped(now, width)
        room = LINES - min(1, len(below))
        if len(above) > room:  # the knot keeps its line, whatever the beads are called
            above = [*above[: room - 1], shortened(" ".join(above[room - 1 :]), width - len(WHOLE)) + WHOLE]
        lines = [*above, *below][:LINES]
        if len(lines) == 1 or (len(lines) == 2 and below):
            lines = ["", *lines]
        return (lines + [""] * LINES)[:LINES]

    def _coloured(self, line: StrokeRow) -> Content:
        text, spans, column, ground = line_text(line), [], 0, ground_of(self.app)
        for stroke in line:
            mark = self.marks.get(stroke.bead) if stroke.bead else None
            if mark and mark.colour:
                style = Style(foreground=Color(*ground.letter(mark.colour)), bold=True)
                spans.append(Span(column, column + len(stroke.text), style))
            column += len(stroke.text)
        return Content(text, spans)

    def on_click(self, event: events.Click) -> None:
        event.stop()
        self.post_message(StepMade())
