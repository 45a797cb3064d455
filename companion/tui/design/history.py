"""A draft and what it was before: every change can be undone, and done again."""

from __future__ import annotations

from companion.core.draft.draft import Draft


class DraftHistory:
    """The draft as it is now, with the ones before and after it."""

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self.done: list[Draft] = []
        self.undone: list[Draft] = []

    def change(self, draft: Draft) -> bool:
        """The draft is that from now on; whether it is another one."""
        if draft == self.draft:
            return False
        self.done.append(self.draft)
        self.undone.clear()
        self.draft = draft
        return True

    def undo(self) -> bool:
        """The draft as it was before the latest change; whether there was one."""
        return self._turn(self.done, self.undone)

    def redo(self) -> bool:
        """The change that was undone last, again; whether there was one."""
        return self._turn(self.undone, self.done)

    def _turn(self, source: list[Draft], target: list[Draft]) -> bool:
        if source:
            target.append(self.draft)
            self.draft = source.pop()
            return True
        return False
