"""The present step, large: its beads and knot, and the words beside them. A click says that it is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from textual import events
from textual.color import Color
from textual.content import Content, Span
from textual.message import Message
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

from companion.core.journal.piece import STATE_WORDS, State
from companion.core.picture.big_beads import StrokeRow, big_beads, line_text
from companion.core.picture.block_digits import block_digits
from companion.core.picture.marks import BeadMark, marks_of
from companion.core.plan.plan import Plan
from companion.core.words.step_words import step_in_two
from companion.tui.themes import ground_of
from companion.tui.widgets.wrapping import shortened, wrapped

BESIDE = 3
LINES = 3
NARROW_BOXES, WIDE_BOXES = 2, 3
WORDS_AT_LEAST = 26
WITH_NUMBER = 100  # columns of screen from which the bead's number stands at the right
REOPENS: Mapping[State, str] = {"finished": "opens it again", "abandoned": "takes it up again"}
WHOLE = " (k: all)"  # at the end of a step that is cut off


@dataclass
class StepMade(Message):
    """The hand says that the present step is made."""


Drawing = tuple[StrokeRow, StrokeRow, StrokeRow]


def _columns(drawing: Drawing | None) -> int:
    """What a drawing takes, with the room beside it."""
    return max(len(line_text(line)) for line in drawing) + BESIDE if drawing else 0


def bead_number(plan: Plan, step: int) -> tuple[int, int] | None:
    """Which bead of its entry a step of the piece (from 1) begins with, from 1, and of how many; None without one."""
    entry, number = plan.place(step)
    strand = plan.strands[entry]
    if not strand.steps[number - 1].beads:
        return None
    before = sum(len(one.beads) for one in strand.steps[: number - 1])
    return before + 1, sum(count for _, count in strand.beads)


class BigStep(Widget):
    """What to do now; it stands in the same place on every step. `number_wanted`: the bead's number is large on a
    narrow screen too."""

    number_wanted = reactive(False)

    def __init__(self, plan: Plan, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.step: int | None = None
        self.ended: State | None = None
        self.own_cut = ""
        self._take(plan)

    def _take(self, plan: Plan) -> None:
        self.plan = plan
        self.marks: dict[str, BeadMark] = {mark.key: mark for mark in marks_of(plan.beads)}

    def show(self, plan: Plan, step: int | None, ended: State | None = None, own_cut: str = "") -> None:
        """Show that step of the piece (from 1); None: every step is made. `ended`: how the piece ended, if it has;
        `own_cut`: what is said in place of the step, where it cuts the cord as long as the maker entered."""
        same = plan is self.plan
        if not same:
            self._take(plan)
        if not same or (step, ended, own_cut) != (self.step, self.ended, self.own_cut):
            self.step, self.ended, self.own_cut = step, ended, own_cut
            self.refresh()

    def words(self) -> tuple[str, str]:
        """What to do, and how the knot goes with it."""
        if self.ended:
            return f"The piece is {STATE_WORDS[self.ended]}.", f"u {REOPENS[self.ended]}."
        if self.step is None:
            return "Every step is done.", "Press Space to finish the piece."
        return (self.own_cut, "") if self.own_cut else step_in_two(self.plan, self.step)

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
        number = self.number_lines() if self.number_wanted or self.app.size.width >= WITH_NUMBER else ()
        width = self.content_size.width - (len(number[0]) + BESIDE if number else 0)
        drawing = self.drawing(WIDE_BOXES)
        if drawing and len(line_text(drawing[0])) + BESIDE + WORDS_AT_LEAST > width:
            drawing = self.drawing(NARROW_BOXES)
        left = _columns(drawing)
        now, then = self.words()
        if drawing and not then and len(wrapped(now, max(10, width - left))) > LINES:
            drawing, left = None, 0  # what to do comes before how it looks
        beside = self._beside(max(10, width - left))
        lines = []
        for place in range(LINES):
            cord = self._coloured(drawing[place]) if drawing else Content("")
            text = beside[place].ljust(width - left + BESIDE) + number[place] if number else beside[place]
            padded = cord + Content(" " * (left - len(cord.plain)))
            lines.append(padded + Content.styled(text, "bold"))
        return Content("\n").join(lines)

    def number_lines(self) -> tuple[str, ...]:
        """The present bead's number in block digits, and of how many; () for a step without a bead."""
        place = self.step and not self.ended and bead_number(self.plan, self.step)
        if not place:
            return ()
        *above, last = block_digits(str(place[0]))
        of = f" of {place[1]} beads"
        return (*(line + " " * len(of) for line in above), last + of)

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
