"""Every fifth bead another: it is said in a form, and both readings of it are shown as pictures to pick from."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.draft.draft import Draft, StrandDraft, strands_of, with_strand
from companion.core.draft.every import EveryReading, every_readings, read_every
from companion.core.draft.layout import AS_TYPED
from companion.core.plan.plan import Plan
from companion.core.words.drafting.draft_words import bead_choice, every_words
from companion.core.words.notices import Notice
from companion.tui.commands import DROP_LIST, bindings, choosing
from companion.tui.design.preview import Preview
from companion.tui.dialogs.dialog import Dialog
from companion.tui.dialogs.form import Field, Form, FormDialog, FormJudged, Values
from companion.tui.page import Page
from companion.tui.widgets.text import KeyLine, Rule, TextLine

Readings = tuple[EveryReading, EveryReading]
LEAST_BEAD = 6.0  # pixels: the two are told apart by counting
BOTH = (choosing(1), choosing(2), DROP_LIST)


async def ask_every(page: Page, draft: Draft, strand: int) -> Draft | None:
    """The draft with the reading that is picked as the pattern of one strand (from 0); None where the maker leaves."""
    filled = await page.answer(FormDialog(every_form(draft)))
    if filled is None:
        return None
    drafts = [as_read(draft, strand, reading) for reading in filled.value]
    plans = [page.workshop.drafts.judge(one).plan for one in drafts]
    readings = [PatternReading(*one) for one in zip(filled.value, drafts, plans, strict=True)]
    return await page.answer(EveryDialog(readings))


def every_form(draft: Draft) -> Form[Readings]:
    """Which bead comes among which, and how often."""
    letters = {bead_choice(bead): bead.letter for bead in draft.beads}
    words = tuple(letters)

    def judge(values: Values) -> FormJudged[Readings]:
        most, other = letters[values["most"]], letters[values["other"]]
        if most == other:
            return FormJudged(None, (Notice("quiet", "Choose two different beads."),), at="other")
        try:
            readings = every_readings(read_every(values["every"]), most, other)
        except ValueError:
            return FormJudged(None, (Notice("quiet", "Every how many? A whole number from 2 to 99."),), at="every")
        return FormJudged(readings, (Notice("quiet", "Both ways to read that are shown next."),))

    return Form(
        "Every so many beads, another one",
        (
            Field("every", "every", hint="5: every fifth bead"),
            Field("other", "is", words[1], choices=words),
            Field("most", "among", words[0], choices=words),
        ),
        judge,
    )


def as_read(draft: Draft, number: int, reading: EveryReading) -> Draft:
    """The draft with that reading as the pattern of one strand; its knots and how often it comes stay."""
    strand = strands_of(draft)[number]
    if strand.knots == AS_TYPED:  # the pattern has no knots of its own any more
        strand = replace(strand, knots=StrandDraft().knots, times=StrandDraft().times, middle="")
    return with_strand(draft, number, replace(strand, pattern=reading.pattern))


class PatternReading(Struct, frozen=True):
    """A reading, the draft that it comes to, and its plan; None where it can't be planned yet."""

    reading: EveryReading
    draft: Draft
    plan: Plan | None


class EveryDialog(Dialog[Draft]):
    """Both readings, one above the other; gives back the draft with the one that was picked."""

    BINDINGS = bindings(*BOTH)

    def __init__(self, readings: Sequence[PatternReading]) -> None:
        super().__init__()
        self.readings = tuple(readings)

    def compose(self) -> ComposeResult:
        with Vertical(id="both"):
            yield TextLine(Content.styled("Which of these is meant?", "bold"), id="heading")
            for number, one in enumerate(self.readings, 1):
                yield TextLine(every_words(number, one.reading, one.plan))
                yield Preview(one.plan, least_bead=LEAST_BEAD, id=f"reading-{number}")
            yield Rule()
            yield KeyLine(*BOTH)

    def action_choose(self, number: int) -> None:
        """Take the one of that number, from 1."""
        self.dismiss(self.readings[number - 1].draft)
