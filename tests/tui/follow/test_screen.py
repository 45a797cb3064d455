"""A piece that moves on while the hand is busy with a question, and a store that fails at a bad moment."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Confirmed
from companion.core.values.errors import Busy, NotConfirmed, NotStored, OpenElsewhere
from companion.tui.app import TallycordApp
from companion.tui.follow.screen import FollowScreen
from tests.tui.screens import golden, gone, screen_text, until, until_seen


async def at_step_eight(pilot, app) -> None:
    await until_seen(pilot, "Enter begin")
    await pilot.press("enter", *["space"] * 11)
    await until(pilot, lambda: app.screen.opened.piece.done == 11)


async def follow(pilot, app) -> FollowScreen:
    """From the recap to the follow screen."""
    await until_seen(pilot, "Last done")
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(app.screen, FollowScreen) and app.screen.outlook is not None)
    return app.screen


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_second_window_says_so_and_follows_along(workshop, other_window, begun, dimensions) -> None:
    theirs = other_window.open(begun.name)
    assert other_window.take_lock(theirs) == "here"
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=dimensions) as pilot:
        page = await follow(pilot, app)
        golden(f"follow-along-{dimensions[0]}x{dimensions[1]}", await until_seen(pilot, "You can watch here"))
        for key in ("space", "u", "m", "c", "n", "j", "o", "w", "r", "x", "enter"):
            page.session.said = None
            page.show_all()
            await until_seen(pilot, "You can watch here")
            await pilot.press(key)
            await until_seen(pilot, "so nothing was saved. Press h to take over.")
            assert app.screen is page
        assert other_window.refresh(theirs).revision == begun.revision
        other_window.confirm(theirs)  # progress is live
        page.look_again()
        await until_seen(pilot, "step 17 of 33")
        await until_seen(pilot, "You can watch here")


async def test_taking_over_with_a_word_and_being_taken_from(workshop, other_window, begun) -> None:
    theirs = other_window.open(begun.name)
    other_window.take_lock(theirs)
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        await pilot.press("h")
        await until_seen(pilot, "Take over the piece here?")
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is page)
        assert page.session.open_elsewhere
        await pilot.press("h")
        await until_seen(pilot, "Take over the piece here?")
        await pilot.press("enter")
        await until_seen(pilot, "You work on the piece here now; the other window can watch.")
        await pilot.press("space")
        await until_seen(pilot, "step 17 of 33")
        for write in (other_window.confirm, other_window.undo, lambda piece: other_window.note(piece, "hm")):
            with pytest.raises(OpenElsewhere, match=r"^This piece is open in another window, so nothing was saved\.$"):
                write(other_window.refresh(theirs))
        assert other_window.take_lock(theirs) == "elsewhere"
        assert other_window.take_lock(theirs, anyway=True) == "here"
        page.look_again()
        await until_seen(pilot, "Another window took this piece over")
        await pilot.press("space")
        await until_seen(pilot, "nothing was saved")
        assert page.opened.piece.done == 16


async def test_what_the_other_window_lets_go_is_in_hand_here(workshop, other_window, begun) -> None:
    other_window.take_lock(begun)
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        await until_seen(pilot, "You can watch here")
        other_window.let_go()
        page.look_again()
        await until_seen(pilot, "You can work on it here now")
        await until_seen(pilot, "Space done")
        assert other_window.take_lock(begun) == "elsewhere"
        await pilot.press("escape")
        await until_seen(pilot, "Under way")
        page.look_again()  # its timer's last turn
        assert other_window.take_lock(begun) == "here"


async def test_a_key_before_the_look_that_would_tell(workshop, other_window, begun, monkeypatch) -> None:
    """Taken over a moment ago, as by a window that slept until now: the next key writes nothing, and says why."""
    monkeypatch.setattr(FollowScreen, "look_again", lambda self: None)  # before its timer is set on it
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        theirs = other_window.open(begun.name)
        assert other_window.take_lock(theirs, anyway=True) == "here"
        await pilot.press("space")
        await until_seen(pilot, "so nothing was saved. Press h to take over.")
        other_window.confirm(theirs)
        await pilot.press("space")
        await until(pilot, lambda: page.opened.piece.done == 16)
        assert other_window.open(begun.name).piece.done == 16


async def test_a_note_typed_while_the_piece_moves_on_is_kept(workshop, other_window, begun, monkeypatch) -> None:
    monkeypatch.setattr(FollowScreen, "look_again", lambda self: None)  # before its timer is set on it
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        await pilot.press("n", *"tight")
        await until_seen(pilot, "A note at step 15")
        theirs = other_window.confirm(other_window.open(begun.name))
        await pilot.press("enter")
        await until_seen(pilot, "Noted.")
        assert [(note.step, note.text) for note in page.opened.piece.notes] == [(15, "tight")]
        assert page.opened.piece.done == 16

        await pilot.press("n", *"loose")
        await until_seen(pilot, "A note at step 16")
        other_window.take_lock(theirs, anyway=True)
        await pilot.press("enter")
        await until_seen(pilot, "The note is kept: n brings it back.")
        assert len(page.opened.piece.notes) == 1
        other_window.let_go()
        page.session.look_where_it_is_open()
        await pilot.press("n")
        await until_seen(pilot, "loose")
        await pilot.press("enter")
        await until(pilot, lambda: len(page.opened.piece.notes) == 2)
        assert page.opened.piece.notes[-1].text == "loose"


async def test_nobody_to_take_it_from(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        await pilot.press("h")
        await until_seen(pilot, "This piece is open in no other window.")
        assert app.screen is page


async def test_it_could_not_be_taken(workshop, other_window, begun, monkeypatch) -> None:
    other_window.take_lock(begun)
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        denied = raises(PermissionError(13, "Permission denied"))
        monkeypatch.setattr("companion.storage.piece_lock.Path.unlink", denied)
        await pilot.press("h")
        await until_seen(pilot, "Take over the piece here?")
        await pilot.press("enter")
        await until_seen(pilot, "could not be taken over. Check the permissions of the data folder.")
        await pilot.press("space")
        await until_seen(pilot, "so nothing was saved. Press h to take over.")
        assert page.opened.piece.done == 15


async def test_what_keeps_from_looking_is_said_until_it_is_over(workshop, begun, monkeypatch) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        with monkeypatch.context() as fault:
            fault.setattr(workshop, "refresh", raises(NotStored("The disk does not answer.")))
            page.look_again()
            await until_seen(pilot, "The disk does not answer.")
            page.show_all()  # drawn again, as after another size
            await pilot.pause()
            await until_seen(pilot, "The disk does not answer.")
        page.look_again()
        await until(pilot, lambda: "does not answer" not in screen_text(app))


async def test_a_held_file_is_looked_at_without_waiting_and_without_a_word(workshop, begun, monkeypatch) -> None:
    waits: list[float] = []
    monkeypatch.setattr(workshop, "wait_at_most", waits.append)
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        before = screen_text(app)
        with monkeypatch.context() as fault:
            fault.setattr(workshop, "refresh", raises(Busy("Another program holds the file.")))
            page.look_again()
            page.look_again()
            await pilot.pause()
            assert screen_text(app) == before
            assert waits[-1] == 0
        page.look_again()
        assert waits[0] == waits[-1] > 0


def raises(error: Exception):
    def act(*_: object) -> None:
        raise error

    return act


@pytest.mark.parametrize(("key", "kind"), [("m", "strand"), ("c", "free")])
async def test_a_reading_counts_at_the_step_that_was_asked_about(app, other_window, key, kind) -> None:
    """Another window makes a step while the ruler is being read: the reading is still of the strand before it."""
    async with app.run_test(size=(80, 24)) as pilot:
        await at_step_eight(pilot, app)
        follow = app.screen
        await pilot.press(key)
        await until_seen(pilot, "After step 11")
        other_window.confirm(other_window.open("skerry-bracelet"))
        follow.look_again()
        assert follow.opened.piece.done == 12
        expected = follow.opened.plan.strands[0].steps[10]
        length_mm = expected.strand_mm if kind == "strand" else expected.free_cord_mm
        await pilot.press(*f"{length_mm:.0f}", "space", *"mm", "enter")
        await until(pilot, lambda: len(follow.opened.piece.readings) == 1)
        assert [(reading.kind, reading.step) for reading in follow.opened.piece.readings] == [(kind, 11)]


async def test_a_reading_of_a_step_taken_back_meanwhile_is_not_taken(app, other_window) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await at_step_eight(pilot, app)
        follow = app.screen
        await pilot.press("m")
        await until_seen(pilot, "After step 11")
        other_window.undo(other_window.open("skerry-bracelet"))
        follow.look_again()
        await pilot.press(*"50", "space", *"mm", "enter")
        await until(pilot, lambda: app.screen is follow)
        assert follow.opened.piece.readings == ()
        assert follow.opened.piece.done == 10


async def test_a_stale_key_and_then_a_store_that_fails_is_said(app, other_window, workshop, monkeypatch) -> None:
    monkeypatch.setattr(FollowScreen, "look_again", lambda self: None)  # before its timer is set on it
    async with app.run_test(size=(80, 24)) as pilot:
        await at_step_eight(pilot, app)
        other_window.confirm(other_window.open("skerry-bracelet"))

        def gone(*_: object) -> None:
            raise NotStored("The disk does not answer.")

        for name in ("open", "refresh"):
            monkeypatch.setattr(workshop, name, gone)
        await pilot.press("space")
        await until_seen(pilot, "The disk does not answer.")
        assert app.screen.opened.piece.done == 11


async def test_the_bench_says_what_it_can_not_open(workshop, skerry, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Under way")

        def gone(*_: object) -> None:
            raise NotStored("The disk does not answer.")

        monkeypatch.setattr(workshop, "open", gone)
        await pilot.press("n")
        await until_seen(pilot, "The disk does not answer.")


async def test_a_finished_piece_says_that_it_is(workshop, skerry) -> None:
    opened = workshop.start(skerry)
    opened = workshop.finish(workshop.jump(opened, 33), 202.0)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await until_seen(
            pilot, "It came out at 7 15/16 in, 1/16 in short of 8 in: within the 1/8 in you allowed."
        )
        assert "Space closes" not in text
        await until_seen(pilot, "u open again")
        await pilot.press("u")
        await until_seen(pilot, "Press Space to finish the piece.")


async def test_a_change_of_plan_elsewhere_waits_for_the_question_that_is_open(workshop, other_window, skerry) -> None:
    opened = workshop.start(skerry)
    for step, length_mm in ((9, 33.0), (13, 63.0), (18, 92.0), (22, 120.0)):
        opened = workshop.jump(opened, step)
        opened = workshop.measure(opened, "strand", length_mm, f"{length_mm:.0f} mm")
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Last done")
        await pilot.press("enter")
        await until_seen(pilot, "step 23 of 33")
        follow = app.screen
        await pilot.press("n", *"tight")
        await until_seen(pilot, "A note at step 22")
        theirs = other_window.open(opened.name)
        theirs = other_window.choose(theirs, other_window.remedies(theirs)[0])
        for _ in range(3):
            follow.look_again()
            await pilot.pause()
        assert type(app.screen).__name__ == "AskDialog"
        await pilot.press("escape")
        await until_seen(pilot, f"step 23 of {theirs.plan.total_steps}")
        assert len([screen for screen in app.screen_stack if type(screen).__name__ == "FollowScreen"]) == 1


# -- a write in doubt -------------------------------------------------------------------------------------------------

LOOK = "It may have been saved: check before you do it again."
DOUBT = f"The disk did not confirm the write: input/output error. {LOOK}"


@pytest.fixture
def doubting(workshop, other_window, monkeypatch):
    """From now on what is written is there, but the disk does not say so; called again, it does."""
    append = workshop._store.append

    def stored_but_not_confirmed(*event):
        other_window._store.append(*event)  # seen anew by this window, as after a real failure
        raise NotConfirmed(DOUBT)

    def doubt(on: bool) -> None:
        monkeypatch.setattr(workshop._store, "append", stored_but_not_confirmed if on else append)

    return doubt


@pytest.mark.parametrize("key", ["space", "enter", "u", "m"])
async def test_a_step_in_doubt_is_said_until_it_is_answered(app, other_window, doubting, key) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 33")
        doubting(True)
        await pilot.press("space")
        await until_seen(pilot, LOOK)
        doubting(False)
        for _ in range(3):
            app.screen.look_again()
            await pilot.pause()
        await until_seen(pilot, LOOK)
        await until_seen(pilot, "step 3 of 33")  # as it is in the file
        await pilot.press(key)
        await gone(pilot, LOOK)
        opened = other_window.open("skerry-bracelet")
        assert [entry.event for entry in other_window.journal(opened)][1:] == [Confirmed(1), Confirmed(2)]
        await pilot.press("space")
        await until_seen(pilot, "step 4 of 33")


async def test_a_doubt_goes_along_to_the_bench(app, doubting) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 33")
        doubting(True)
        await pilot.press("space")
        await until_seen(pilot, LOOK)
        await pilot.press("escape")
        await until_seen(pilot, "Under way")
        await until_seen(pilot, LOOK)


# -- a forecast that takes long ---------------------------------------------------------------------------------------

FIGURES = "finishes at"


async def test_a_long_forecast_holds_up_no_screen_and_no_step(workshop, read, long_forecasts) -> None:
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "The strand should measure" not in await until_seen(pilot, "Last done")
        await pilot.press("enter")
        await until_seen(pilot, "step 16 of 33")
        await pilot.press("space")
        await until_seen(pilot, "step 17 of 33")
        await pilot.press("u", "n", *"tight", "enter")
        await until_seen(pilot, "Noted.")
        assert FIGURES not in screen_text(app)
        long_forecasts.set()
        await until_seen(pilot, FIGURES)
        await until_seen(pilot, "Measure the strand")
        assert app.screen.outlook == Forecaster(read.plan, faults=True).outlook(app.screen.opened.piece)


async def test_an_early_change_is_stored_and_shown_before_its_forecast(workshop, read, long_forecasts) -> None:
    app = TallycordApp(workshop, piece=read.name)
    long_forecasts.set()
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        figures = await until_seen(pilot, FIGURES)
        long_forecasts.clear()
        await pilot.press("r", "enter")
        text = await until_seen(pilot, "Count agrees")
        assert [one.step for one in workshop.open(read.name).piece.counted] == [15]
        assert "On length." not in text
        assert text.splitlines()[17:19] == figures.splitlines()[17:19]  # as they were, until it is known better
        long_forecasts.set()
        await until(pilot, lambda: page.outlook == Forecaster(read.plan, faults=True).outlook(page.opened.piece))


async def test_the_bench_is_told_though_the_piece_was_left(workshop, read, long_forecasts) -> None:
    app = TallycordApp(workshop, piece=read.name)
    long_forecasts.set()
    async with app.run_test(size=(80, 24)) as pilot:
        await follow(pilot, app)
        long_forecasts.clear()
        await pilot.press("r")
        await until_seen(pilot, "How many are there?")
        await pilot.press("8", "enter")
        await until_seen(pilot, "2 fewer than the screen says")
        await pilot.press("2", "enter")
        await until_seen(pilot, "2 fewer than the plan says. That is recorded and reckoned with.")
        await pilot.press("escape")
        await until_seen(pilot, "Under way")
        assert workshop.pieces()[0].warning == ""
        long_forecasts.set()
        await until_seen(pilot, "△ measure again, cord short to hold")


async def test_a_screen_that_is_being_left_shows_nothing_more(workshop, begun) -> None:
    """Its widgets go one after the other, and a key just before has asked for the next frame."""
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await follow(pilot, app)
        page.display = False  # as Textual says of what it is taking away
        await page.query_one("#heading").remove()
        page.show_all()
        await page.query_one("#figures").remove()
        page.show_outlook()


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_f_where_the_strand_is_letters_shows_the_bead_large_and_says_how_all_comes_back(
    workshop, begun, dimensions
) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=dimensions) as pilot:
        await follow(pilot, app)
        before = await until_seen(pilot, "finishes at")
        await pilot.press("f")
        text = await until_seen(pilot, "Only this step is shown. f shows all again.")
        assert "of 23 beads" in text
        assert "█" in text
        assert "finishes at" not in text
        golden(f"follow-afar-{dimensions[0]}x{dimensions[1]}", text)
        await pilot.press("space")
        await until_seen(pilot, "step 17 of 33")
        assert "of 23 beads" in screen_text(app)
        await pilot.press("u", "f")
        await until_seen(pilot, "finishes at")
        assert "of 23 beads" not in screen_text(app)
        assert before.splitlines()[2:5] == screen_text(app).splitlines()[2:5]
