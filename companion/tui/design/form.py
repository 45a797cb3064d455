"""The form of one part, at the foot of the page: the drawing above it changes with every key."""

from __future__ import annotations

from collections.abc import Callable

from companion.core.draft.draft import Draft
from companion.core.words.notices import Notice
from companion.tui.design.parts import PartForm, with_answers
from companion.tui.dialogs.form import Form, FormDialog, FormJudged, Values

Show = Callable[[Draft, str], tuple[Notice, ...]]


def form_of(draft: Draft, part: PartForm, show: Show, begin_at: str = "") -> Form[Draft]:
    """The form; `show` is told of the draft and the part at every key, and says what there is to say of that part.
    Anything can be taken: what is not yet right is said on the page, and no design is saved with it."""

    def judge(values: Values) -> FormJudged[Draft]:
        try:
            changed = with_answers(draft, part, values)
        except ValueError as error:
            return FormJudged(None, (Notice("quiet", str(error)),))
        return FormJudged(changed, show(changed, part.part))

    return Form(part.title, part.fields, judge, begin_at)


class PartDialog(FormDialog[Draft]):
    """A form that leaves the page above it in sight. `keep` is told of the draft as each line is done, so that it is
    not lost if the window goes; `lies_over`, over how many lines of the page the form lies."""

    PLACE = "part"

    def __init__(
        self, form: Form[Draft], keep: Callable[[Draft], None], lies_over: Callable[[int], None] = lambda lines: None
    ) -> None:
        super().__init__(form)
        self.keep, self.lies_over = keep, lies_over

    def on_resize(self) -> None:
        self.call_after_refresh(self._say_how_high)

    def _say_how_high(self) -> None:
        if self.is_attached:
            self.lies_over(self.query_one(f"#{self.PLACE}").outer_size.height)

    def action_take(self) -> None:
        """On to the next line; on the last one, take it all."""
        judged = self.form.judge(self.values)
        if judged.value is not None:
            self.keep(judged.value)
        super().action_take()
