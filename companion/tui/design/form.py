"""The form of one part, at the foot of the page: the drawing above it changes with every key."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content

from companion.core.draft.draft import Draft
from companion.core.words.notices import Notice
from companion.tui.commands import FORM
from companion.tui.design.parts import PartForm, with_answers
from companion.tui.dialogs.form import Form, FormDialog, FormJudged, Values, entry_of
from companion.tui.widgets.text import KeyLine, Rule, TextLine

Show = Callable[[Draft], tuple[Notice, ...]]


def form_of(draft: Draft, part: PartForm, show: Show, begin_at: str = "") -> Form[Draft]:
    """The form; `show` is told of the draft at every key, and says what there is to say of that part. Anything can be
    taken: what is not yet right is said on the page, and no design is saved with it."""

    def judge(values: Values) -> FormJudged[Draft]:
        try:
            changed = with_answers(draft, part, values)
        except ValueError as error:
            return FormJudged(None, (Notice("quiet", str(error)),))
        return FormJudged(changed, show(changed))

    return Form(part.title, part.fields, judge, begin_at)


class PartDialog(FormDialog[Draft]):
    """A form that leaves the page above it in sight."""

    def compose(self) -> ComposeResult:
        with Vertical(id="part"):
            yield TextLine(Content.styled(self.form.title, "bold"), id="heading")
            with Vertical(id="fields"):
                for field in self.form.fields:
                    with Horizontal(classes="field"):
                        yield TextLine(f"  {field.label}", id=f"label-{field.key}")
                        yield entry_of(field)
            yield TextLine("", id="meaning")
            yield Rule()
            yield KeyLine(*FORM)
