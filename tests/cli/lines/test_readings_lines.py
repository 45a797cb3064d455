"""At the prompt: all readings, taken out and put back; a count that is off, which is asked about."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Recounted
from companion.workshop import open_at
from tests.cli.running import journal

NAME = "skerry-bracelet"


@pytest.fixture
def read(begun):
    """With three readings, of which the second does not fit the others."""
    for step, text in (("9", "34 mm"), ("16", "76 mm"), ("20", "114 mm")):
        begun.say(f"j {step}", "Next: ")
        heard = begun.say(text, "Enough cord")
        assert "The strand measures" in heard
    return begun


def counting() -> list[bool]:
    return [one.counts for one in open_at().open(NAME).piece.all_readings]


def test_one_is_chosen_by_its_number_and_again_to_put_it_back(read) -> None:
    heard = read.say("M", "Which number is to be taken out, or put back?")
    first, second, third = [line for line in heard.splitlines() if line[1:2] == ":"]
    assert first.startswith("1: strand 1 5/16 in after step 9, ")
    assert first.endswith("Expected by the plan: 1 5/16 in. It was as expected. It counts.")
    assert second.endswith("It was 3/8 in less. It is set aside: it doesn't fit the others.")
    assert third.endswith(" It counts.")
    heard = read.say("2", "Enough cord")
    assert heard.splitlines()[0] == "Your reading of 3 in after step 16 is taken out."
    assert "set aside" not in heard
    assert counting() == [True, False, True]
    assert "You took it out." in read.say("M", "Which number")
    heard = read.say("2", "It is set aside.")  # a listener hears that as well
    assert heard.splitlines()[0] == "Your reading of 3 in after step 16 counts again."
    assert counting() == [True, True, True]
    read.say("M 1", "Your reading of 1 5/16 in after step 9 is taken out.")
    read.say("u", "Undone: taking out your reading of 1 5/16 in after step 9.")
    read.say("x", "Your reading of 4 1/2 in after step 20 is taken out.")
    assert counting() == [True, True, False]


def test_what_is_no_number_changes_nothing(tallycord, read) -> None:
    before = journal(tallycord, NAME)
    read.say("M", "Which number")
    read.say("", "Nothing is changed.")
    read.say("M 4", "There is no reading 4. The last one is 3.")
    read.say("M", "Which number")
    read.say("two", "expected the number of a reading")
    assert journal(tallycord, NAME) == before


def test_without_any_that_is_said(begun) -> None:
    begun.say("M", "No readings yet.")
    begun.say("M 1", "There are no readings yet.")


def test_a_count_that_is_off_asks_which_of_the_two_it_is(tallycord, begun) -> None:
    begun.say("j 16", "Next: ")
    before = journal(tallycord, NAME)
    begun.say("r", "Press Enter for 11.")
    heard = begun.say("10", "Type 1 or 2")
    assert heard.splitlines()[:3] == [
        "One fewer than the count says.",
        "1  The count is ahead: set it back from step 16 to 15.",
        "2  A bead really is left out: reckon with it.",
    ]
    begun.say("", "The count was not taken.")
    assert journal(tallycord, NAME) == before
    begun.say("r", "Press Enter for 11.")
    begun.say("10", "Type 1 or 2")
    begun.say("2", "One fewer than the plan says. That is recorded and reckoned with.")
    begun.say("u", "Undone: the count of beads")
    begun.say("r", "Press Enter for 11.")
    begun.say("10", "Type 1 or 2")
    begun.say("1", "The count is set back from step 16 to 15. 15 of 33 steps are done. u undoes it.")
    opened = open_at().open(NAME)
    assert (opened.piece.done, opened.piece.counted) == (15, (Recounted(15),))


def test_there_is_no_screen_at_the_prompt_that_could_be_ahead(begun) -> None:
    begun.say("j 21", "Next: ")
    heard = begun.say("4 7/16", "Enough cord")
    assert "is where step 20 ends: is the count one ahead (type r)?" in heard
    assert "screen" not in heard


def test_what_has_to_do_with_the_cord_does_not_say_the_same_of_the_length_again(begun) -> None:
    begun.say("j 10", "Next: ")
    begun.say("1 9/16", "Enough cord")
    begun.say("j 16", "Next: ")
    begun.say("3 3/16", "Enough cord")
    begun.say("j 22", "Next: ")
    assert "The piece will be too short (type w)" in begun.say("4 13/16", "Enough cord")
    assert "too short" not in begun.say("o 8", "Enough cord")
    assert "Too short (type w)" in begun.say("s", "Enough cord")


def test_an_alarm_of_the_cord_is_said_again_only_when_asked_or_when_the_cord_was_measured(talk, skerry) -> None:
    little = "The cord reaches the last knot, but little of it is left."
    run = talk("follow", skerry, "--lines")
    run.until("How long is the cord you cut")
    run.say("42 in", "Type y")
    assert little in run.say("y", "Go on with tweezers")
    run.say("j 10", "Measure the strand now")
    heard = run.say("1 5/8", "Measure the strand after step")
    run.type("n a note")
    heard += run.until("Noted.")
    assert little not in heard
    assert little in run.say("s", "Go on with tweezers")
    assert little in run.say("c 15 1/2", "Go on with tweezers")
