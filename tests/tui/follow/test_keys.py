"""The keys at the foot are those that do something now."""

from __future__ import annotations

from companion.tui.follow.keys import foot_keys
from companion.tui.follow.session import PieceSession


def offered(session: PieceSession) -> list[str]:
    return [f"{command.shown} {command.short}" for command in foot_keys(session)]


def test_by_how_the_piece_stands_and_where_it_is_open(workshop, other_window, skerry) -> None:
    session = PieceSession(workshop, workshop.start(skerry), wait_for_others=lambda wait: None)
    session.look_where_it_is_open()
    assert offered(session)[:3] == ["Space done", "u undo", "m measure"]
    session.change(lambda opened: workshop.jump(opened, 33))
    assert offered(session)[0] == "Space finish"
    session.change(workshop.finish)
    assert offered(session) == ["u open again", "Esc bench", "? more"]
    other_window.take_lock(session.opened, anyway=True)
    session.look_where_it_is_open()
    assert offered(session) == ["h take over", "Esc bench", "? more"]
