"""The piece that is followed at a prompt, as it stands: what is said of it, and what is asked."""

from __future__ import annotations

from companion.cli.lines.prompt import Prompt
from companion.cli.lines.words import ANSWERS
from companion.cli.printing import finish_output, say, tell
from companion.core.journal.events import PutBack, TakenOut
from companion.core.journal.piece import STATE_WORDS
from companion.core.plan.leftover import leftover_due
from companion.core.words.finish_words import leftover_line
from companion.core.words.measured.alarms import PieceThen, cord_is_news, news
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reading_list_words import doubts_lines
from companion.core.words.measured.reading_words import expected_reading
from companion.core.words.measured.verdict_words import verdict_line
from companion.core.words.notices import Notice, heading
from companion.core.words.recap import recap
from companion.core.words.step_words import step_line
from companion.core.words.undo_words import reading_turned
from companion.workshop import OpenPiece, Workshop

NEAR_STEPS = 5  # a note is said again when the work is taken up while it is so near


class LineSession:
    """`opened` is the piece as it stands; what was last said of its length and cord is remembered, and not said again
    until there is something new of it."""

    def __init__(self, workshop: Workshop, opened: OpenPiece, prompt: Prompt) -> None:
        self.workshop, self.opened, self.prompt = workshop, opened, prompt
        self._told: PieceThen | None = None
        self._length_told: Notice | None = None  # the latest sentence of the length that was said when asked for
        self._doubts_told: list[Notice] = []  # what was last said of single readings
        self.asked = False  # whether what is being done has asked a question
        self.enter_is_told = False  # and whether it was said what Enter does next

    def ask(self, *lines: str) -> str:
        """What the maker answers, "" for Enter alone. Raises Left."""
        for line in lines:
            say(line)
        self.asked = True
        return self.prompt.answer()

    def agrees(self, question: str) -> bool:
        """Whether the maker means it: only y does it."""
        return self.ask(f"{question} Type y to take it anyway; anything else leaves it.")[:1] in ("y", "Y")

    def may_be_an_answer(self) -> bool:
        """Whether Enter may still have been meant for the question that was just closed. At the end it only asks."""
        return self.asked and not self.enter_is_told and self.opened.piece.done < self.opened.plan.total_steps

    def say_nothing_is_marked(self) -> None:
        """Enter came right after a question: it may have been meant for that. What it marks is said first."""
        plan, piece = self.opened.plan, self.opened.piece
        step = step_line(plan, piece.done + 1, piece)
        say(f"Nothing is marked: that Enter came right after a question. Press it again when this is done. {step}")

    def stands(self) -> str:
        """How many steps are done, as a sentence."""
        return f"{self.opened.piece.done} of {self.opened.plan.total_steps} steps are done."

    def say_where_it_stands(self) -> None:
        """What was made last, what to count, what the ruler should say, what comes next; length and cord."""
        plan, piece, outlook = self.opened.plan, self.opened.piece, self.workshop.outlook(self.opened)
        say(heading(plan))
        strand_mm = expected_reading(plan, piece, outlook, "strand").mean_mm
        for line in recap(plan, piece, strand_mm, ANSWERS["recount"]).lines:
            say(line)
        for note in [note for note in piece.notes if piece.done - note.step <= NEAR_STEPS][-3:]:
            say(f"Note at step {note.step}: {note.text}")
        self.say_verdicts()

    def say_after_reading(self, of_cord: bool = False) -> None:
        """Length and cord, right after a reading was judged; what is doubted of readings, where it is new."""
        self.say_verdicts(of_cord, of_the_piece=True, doubts_again=False)

    def say_verdicts(self, of_cord: bool = False, of_the_piece: bool = False, doubts_again: bool = True) -> None:
        """Length and cord, as a reading or a choice has made them. `of_cord`: it had to do with the cord, so of the
        length only what is another sentence than before is said; `of_the_piece`: a reading was judged just before;
        `doubts_again`: what is doubted of readings is said though it was said before."""
        plan, piece, outlook = self.opened.plan, self.opened.piece, self.workshop.outlook(self.opened)
        length = verdict_line(plan, piece, outlook, ANSWERS)
        if not (of_cord and length == self._length_told):
            tell(verdict_line(plan, piece, outlook, ANSWERS, of_the_piece))
        self._length_told = length
        now, cord = PieceThen(plan, piece, outlook), cord_line(plan, outlook)
        if of_cord or not of_the_piece or cord.level == "quiet" or cord_is_news(self._told, now):
            tell(cord)  # a reading of the strand does not say an alarm of the cord once more
        doubts = doubts_lines(plan, piece, outlook, ANSWERS)
        for notice in doubts:
            if doubts_again or notice not in self._doubts_told:
                say(str(notice))
        self._doubts_told = doubts
        self._told = now

    def say_reading_turned(self) -> None:
        """That a reading was taken out, or put back; then length and cord."""
        if isinstance(self.opened.piece.act, TakenOut | PutBack):
            say(reading_turned(self.opened.plan, self.opened.piece.act))
        self.say_verdicts()

    def say_next(self) -> None:
        """The step that comes next, then what is new of length and cord."""
        piece = self.opened.piece
        if piece.state != "under way":
            say(f"The piece is {STATE_WORDS[piece.state]}.")
            return
        if piece.done < self.opened.plan.total_steps:
            if leftover_due(self.opened.plan, piece):
                say(leftover_line(f": {ANSWERS['measure cord']}").text)
            say(f"Next: {step_line(self.opened.plan, piece.done + 1, piece)}")
        else:
            say("Every step is done. Press Enter to finish the piece.")
            self.enter_is_told = True
        finish_output()  # what is expected may take a moment: the step is heard before it
        now = PieceThen(self.opened.plan, piece, self.workshop.outlook(self.opened))
        for notice in news(self._told, now, ANSWERS):
            tell(notice)
        self._told = now
