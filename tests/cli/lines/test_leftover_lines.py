"""The prompt asks for what is left of the cord before the tails are trimmed, and then not again."""

from __future__ import annotations

from companion.core.plan.leftover import trimming_step
from companion.workshop import open_at


def test_asked_for_before_the_trimming_and_not_again_at_the_end(tallycord, talk, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("settings", "scrap", "9 in")
    tallycord("jump", name, trimming_step(open_at().open(name).plan) - 2)
    run = talk("follow", "--lines")
    run.until("Press Enter")
    run.say("", "Before you trim, measure what is left of the cord past the closure: type c and the length.")
    run.say("c 8 in", "The leftover cord measures 8 in")
    run.say("", "Step 32 done.")
    run.say("", "Every step is done.")
    run.say("", "How long did it come out")
    run.type("202 mm")
    code, heard = run.end()
    assert code == 0
    assert "How much of each cord" not in heard
    assert "8 in of each cord left." in heard
    assert open_at().open(name).piece.state == "finished"


def test_no_leftover_is_taken_once_the_tails_are_trimmed(tallycord, talk, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("jump", name, 4)
    run = talk("follow", "--lines")
    run.until("Press Enter")
    heard = run.say("c", "What does the ruler say?")
    assert "to the end of the tail, straight along the beads that are still loose." in heard
    run.say("", "No reading was taken.")
    run.say("j 32", "Next: ")
    run.say("c 1/4", "The tails are trimmed, so the leftover cord can no longer be measured.")
    run.say("c", "The tails are trimmed, so the leftover cord can no longer be measured.")
    assert open_at().open(name).piece.readings == ()
