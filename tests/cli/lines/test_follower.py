"""The prompt: what is asked, what is refused, how it ends; nothing is said that is not on disk."""

from __future__ import annotations

import signal

import pytest

from companion.workshop import open_at
from tests.cli.running import Talk, journal, steps_made


def test_ways_to_leave(tallycord, talk, skerry, begun) -> None:
    begun.say("", "Step 2 of 33.")
    begun.type("q")
    code, heard = begun.end()
    assert (code, heard) == (0, "Left: 1 of 33 steps are done. `tallycord follow --lines` goes on.\n")
    run = talk("follow", skerry, "--lines")
    run.until("Press Enter")
    run.type("")
    code, heard = run.end()  # the input ends
    assert code == 0
    assert heard.splitlines()[-1].startswith("Left: 2 of 33")
    run = talk("follow", "--lines")
    run.until("Press Enter")
    run.say("", "Step 3 done.")
    run.heard = ""
    assert run.kill(signal.SIGINT) == 130
    assert run.heard.splitlines()[-1].startswith("Left: 3 of 33")
    assert steps_made(tallycord)[0] == 3


def test_a_piece_begins_only_once_its_cut_is_answered(tallycord, talk, skerry, data_folder) -> None:
    run = talk("follow", skerry, "--lines")
    run.until("How long is the cord")
    run.type("0 in", "4 8", "1160", "30 in", "n")
    code, heard = run.end()
    assert code == 0
    assert heard.count("How long is the cord") == 4
    assert "1160 in looks wrong, but 1160 mm would fit." in heard
    assert heard.splitlines()[-1] == "Nothing was begun."
    assert not data_folder.exists()


@pytest.mark.parametrize("seen", [1, 4, 9])
def test_what_is_heard_is_on_disk_wherever_it_is_killed(tallycord, talk, begun, seen) -> None:
    begun.type(*[""] * 12)
    begun.until(f"Step {seen} done.")
    begun.kill()
    heard = begun.heard.count(" done.\n")
    made = steps_made(tallycord)[0]
    assert heard <= made <= heard + 1
    run = talk("follow", "--lines")
    assert f"step {made} of 33" in run.until("Press Enter")
    run.say("", f"Step {made + 1} done.")


def step_done(run: Talk) -> str:
    """All that is said after a step."""
    run.type("", "nonsense")
    return run.until("not understood")


def test_an_alarm_is_said_once_and_what_it_is_when_asked(begun) -> None:
    begun.say("j 16", "Next: ")
    assert "Warning: " in begun.say("3 1/16", "Enough cord")
    assert [said for said in (step_done(begun) for _ in range(3)) if "Warning: " in said] == []
    assert "Warning: " in begun.say("s", "Enough cord")
    assert "Warning: " not in step_done(begun)
    begun.say("x", "On length.")
    assert "Warning: " not in step_done(begun)


def test_a_reading_that_cannot_be_right_is_asked_about(tallycord, begun) -> None:
    begun.say("j 16", "Next: ")
    before = len(journal(tallycord, "skerry-bracelet"))
    assert "Type y to take it" in begun.say("5 in", "Type y")
    assert "was not taken" in begun.say("", "not taken")
    begun.say("86", "86 in looks wrong, but 86 mm would fit.")
    begun.say("3 3/8 x", "expected a number and its unit")
    begun.say("-3", "with a sign")
    begun.say("m", "What does the ruler say?")
    begun.say("", "No reading was taken.")
    assert len(journal(tallycord, "skerry-bracelet")) == before
    begun.say("5 in", "Type y")
    begun.say("y", "The strand measures 5 in after step 16.")
    begun.say("u", "Undone: your reading of 5 in after step 16.")
    begun.say("c", "The leftover cord should measure")
    begun.say("13 3/4", "The leftover cord measures 13 3/4 in after step 16.")


def test_counts_notes_jumps_and_how_it_is_tied(tallycord, begun) -> None:
    begun.say("j 16", "16 of 33 steps are done.")
    begun.say("j", "Up to which step")
    begun.say("", "Nothing moved.")
    begun.say("j 40", "There is no step 40")
    begun.say("r", "How many are there? Press Enter for 11.")
    begun.say("30", "Type y")
    begun.say("", "The count was not taken.")
    begun.say("r", "How many are there?")
    begun.say("eleven", "expected a number of beads")
    begun.say("r", "How many are there?")
    begun.say("11", "Enough cord")
    begun.say("n", "What is the note?")
    begun.say("the hall was cold", "Noted.")
    begun.say("n one bead is chipped", "Noted.")
    assert journal(tallycord, "skerry-bracelet")[-2:] == ["Note: the hall was cold", "Note: one bead is chipped"]
    begun.say("k", "What goes wrong:")
    begun.say("p", "Finished length")
    begun.say("?", "q: leave. Nothing is lost.")
    begun.say("dance", "not understood, and nothing was saved")
    begun.say("w", "On length. Nothing needs doing for the length.")
    begun.say("o", "How much longer is each cord now?")
    begun.say("", "No cord was joined on.")
    begun.say("U", "Nothing to redo.")
    assert steps_made(tallycord)[0] == 16


def test_a_step_made_elsewhere_meanwhile_is_told_and_counts_once(tallycord, begun) -> None:
    begun.say("", "Step 1 done.")
    assert tallycord("next").code == 0
    begun.say("", "2 of 33 steps are done now")
    assert steps_made(tallycord)[0] == 2
    begun.say("", "Step 3 done.")


def test_a_piece_open_in_another_window_is_taken_over_by_h(talk, begun, tallycord) -> None:
    begun.say("", "Step 1 done.")
    other = talk("follow", "--lines")
    other.until("open in another window")
    other.say("", "open in another window")
    assert steps_made(tallycord)[0] == 1
    other.say("h", "The piece is open here")
    other.say("", "Step 2 done.")
    begun.say("", "open in another window")
    assert steps_made(tallycord)[0] == 2


def test_several_pieces_of_a_design_are_asked_about(tallycord, talk, skerry) -> None:
    for _ in range(2):
        tallycord("start", skerry)
    tallycord("jump", "--piece", "skerry-bracelet", 5)
    run = talk("follow", skerry, "--lines")
    asked = run.until("Which number?")
    assert asked.splitlines()[1:3] == ["1: skerry-bracelet, step 5 of 33", "2: skerry-bracelet-2, step 0 of 33"]
    run.say("7", "There is no number 7")
    run.until("Which number?")
    run.say("2", "No step is done yet.")
    new = talk("follow", skerry, "--lines", "--new")
    new.until("How long is the cord")
    new.say("", "Begun: skerry-bracelet-3.")


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("--lines",), 1, "No piece is under way."),
        ((), 2, "Found no DESIGN"),
        (("--lines", "--new"), 2, "Found no DESIGN"),
        (("--piece", "x"), 2, "Found no DESIGN"),
        (("DESIGN", "--lines", "--piece", "x"), 2, "it stands in place of a DESIGN"),
        (("--lines", "--piece", "nxet"), 1, "There is no piece named nxet."),
        (("nowhere.yaml", "--lines"), 1, "no such file"),
    ],
)
def test_what_cannot_be_followed(tallycord, skerry, data_folder, arguments, code, words) -> None:
    ran = tallycord("follow", *(skerry if one == "DESIGN" else one for one in arguments))
    assert ran.code == code
    assert words in ran.err
    assert not data_folder.exists()


def test_the_card_learns_where_the_maker_says_so(tallycord, talk, carded) -> None:
    rows = ("--before", "250 mm", "--after", "238 mm", "--row", "4 mm")
    tallycord("cord", "skerry silk", "--knots", "2", *rows, "--diameter", "0.45 mm", "--layers", "2")
    total = open_at().open(tallycord("start", carded).out.strip()).plan.total_steps
    tallycord("jump", total)
    for answer, learnt in (("n", 0), ("", 1)):
        run = talk("follow", "--lines")
        run.until("Press Enter to finish the piece;")
        run.say("", "How long did it come out")
        run.say("206 mm", "How much of each cord")
        run.say("150 mm", "Press Enter to update it; anything but y leaves it as it is.")
        run.type(answer)
        code, heard = run.end()
        assert (code, "The cord card skerry silk is left as it is." in heard) == (0, not learnt)
        card = open_at().card("skerry silk")
        assert card is not None
        assert len({lesson.piece for lesson in card.lessons}) == learnt
        tallycord("undo")


def test_a_length_far_from_the_plan_does_not_finish_the_piece_unasked(tallycord, begun) -> None:
    begun.say("j 33", "Press Enter to finish the piece.")
    begun.say("", "How long did it come out")
    begun.say("3 in", "Type y")
    begun.say("", "not finished yet")
    begun.say("", "How long did it come out")
    begun.say("202", "202 in looks wrong, but 202 mm would fit.")
    assert steps_made(tallycord) == (33, 33, "under way")


def test_a_full_disk_counts_nothing(talk, begun, tallycord, data_folder) -> None:
    import sqlite3
    from contextlib import closing

    begun.say("", "Step 1 done.")
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        db.execute("CREATE TRIGGER fault AFTER INSERT ON event BEGIN SELECT RAISE(ABORT, 'a fault'); END")
    heard = begun.say("", "nothing was saved")
    assert "done." not in heard
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        db.execute("DROP TRIGGER fault")
    begun.say("", "Step 2 done.")


def test_a_length_once_every_step_is_done_is_the_finished_one(tallycord, begun) -> None:
    """It is no reading of the strand: that would be taken for a slip of the ruler."""
    begun.say("j 33", "Every step is done.")
    begun.say("20", "20 in looks wrong, but 20 cm would fit.")
    begun.say("8", "How much of each cord is left")
    begun.say("", "Skerry bracelet is finished.")
    opened = open_at().open("skerry-bracelet")
    assert (opened.piece.finished_mm, opened.piece.readings) == (pytest.approx(8 * 25.4), ())


def test_an_answer_that_is_none_leaves_the_question_and_says_so(begun) -> None:
    begun.type(*[""] * 8)
    begun.until("Step 8 done.")
    left = "That question is left. Enter marks the next step again; to be asked once more, type the same as before."
    begun.say("m", "What does the ruler say?")
    begun.say("about three", left)
    begun.say("j", "Up to which step")
    begun.say("third", left)
    begun.type("m nonsense", "s")
    begun.until("Last done")
    assert left not in begun.heard


def test_a_wrong_word_at_the_end_asks_the_same_again(tallycord, begun) -> None:
    """The length that was told before it is not asked for once more."""
    begun.say("j 33", "Every step is done.")
    begun.say("7 7/8", "How much of each cord is left")
    assert "Found ‘dance’" in begun.say("dance", "How much of each cord is left")
    begun.say("4", "Skerry bracelet is finished.")
    assert open_at().open("skerry-bracelet").piece.finished_mm == pytest.approx(7.875 * 25.4)


@pytest.mark.parametrize(
    ("typed", "closed"),
    [
        (("m", "1 5/8 in"), "Enough cord"),
        (("m", ""), "No reading was taken."),
        (("r", ""), "Enough cord"),
        (("j", ""), "Step 11 of 33."),
        (("o", ""), "No cord was joined on."),
    ],
)
def test_enter_pressed_once_too_often_after_a_question_marks_nothing(begun, tallycord, typed, closed) -> None:
    begun.say("j 10", "Next: ")
    question, answer = typed
    begun.say(question, "Press Enter" if question in "rj" else "ruler say" if question == "m" else "overlap")
    begun.say(answer, closed)
    told = begun.say("", "Step 11 of 33.")
    assert told.startswith("Nothing is marked: that Enter came right after a question.")
    assert steps_made(tallycord)[0] == 10
    assert "Step 11 done." in begun.say("", "Next: ")


def test_where_enter_was_just_told_it_does_what_was_said(begun) -> None:
    begun.say("j 10", "Next: ")
    begun.say("m", "ruler say?")
    begun.say("no", "Enter marks the next step again")
    assert "Step 11 done." in begun.say("", "Next: ")


def test_the_order_of_the_beads_is_in_the_step_and_trimming_is_told_after_what_comes_before_it(begun) -> None:
    assert "Their order: 10 Sea-glass rounds, 1 Silver daisy, 1 Sea-glass round, " in begun.say("j 3", "Step 4 of 33.")
    heard = begun.say("j 31", "Step 32 of 33.")
    assert heard.index("Before you trim, measure") < heard.index("Next: Trim the tails")


def test_the_first_step_says_the_cut_that_was_entered(talk, skerry) -> None:
    run = talk("follow", skerry, "--lines")
    run.until("How long is the cord you cut")
    heard = run.say("50 in", "Step 1 of 33.")
    assert "Cut 50 in, as you entered, if it is not cut yet." in heard
    assert "47 in" not in heard
