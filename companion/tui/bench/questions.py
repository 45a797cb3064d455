"""What the bench asks about a piece."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.journal.events import MOST_NOTE
from companion.core.journal.name_fault import name_fault
from companion.core.journal.names import alike, shown_name
from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.dialogs.question import Judged, Question, not_yet
from companion.workshop import PieceRow


def rename_question(piece: PieceRow, pieces: Sequence[PieceRow]) -> Question[str]:
    """What is it to be named?"""
    shown = shown_name(piece.name, piece.design_name)
    others = {alike(other.name): other.name for other in pieces if other.id != piece.id}

    def judge(text: str) -> Judged[str]:
        name = plain(text)
        if not name or name in (shown, piece.name):
            return not_yet("Type another name, or press Esc to keep this one.")
        fault = name_fault(name)
        if alike(name) in others:
            fault = f"Another piece is named {others[alike(name)]}. Give this one a name of its own."
        if fault:
            return Judged(None, (Notice("watch", fault),))
        return Judged(name, (Notice("quiet", f'Commands find it as "{alike(name)}" too.'),))

    return Question(f"A new name for {shown}:", judge, begin_with=shown)


def put_away_question(piece: PieceRow) -> Question[str]:
    """Is it really to be put away, and why?"""

    def judge(text: str) -> Judged[str]:
        return Judged(plain(text, MOST_NOTE))

    shown = shown_name(piece.name, piece.design_name)
    prompt = f"Put {shown} away? Its steps and notes are kept, and you can take it up again."
    return Question(prompt, judge, hint="why, if you like; Enter puts it away")
