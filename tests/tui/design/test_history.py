"""What was changed in a draft is undone and done again, the latest first; another change leaves nothing to redo."""

from __future__ import annotations

from companion.core.draft.draft import Draft
from companion.tui.design.history import DraftHistory

FIRST, SECOND, THIRD = (Draft(name=name) for name in ("Sula", "Fair Isle", "Foula"))


def test_each_change_is_undone_and_done_again() -> None:
    history = DraftHistory(FIRST)
    assert history.change(SECOND)
    assert history.change(THIRD)
    assert [(history.undo(), history.draft) for _ in range(3)] == [(True, SECOND), (True, FIRST), (False, FIRST)]
    assert [(history.redo(), history.draft) for _ in range(3)] == [(True, SECOND), (True, THIRD), (False, THIRD)]


def test_the_same_draft_is_no_change_and_another_one_leaves_nothing_to_redo() -> None:
    history = DraftHistory(FIRST)
    assert not history.change(Draft(name="Sula"))
    assert not history.undo()
    history.change(SECOND)
    history.undo()
    history.change(THIRD)
    assert not history.redo()
    assert (history.undo(), history.draft) == (True, FIRST)
