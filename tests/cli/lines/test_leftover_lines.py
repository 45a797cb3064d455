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
    run.say("", "Before you trim: measure what is left of the cord past the closure: type c and the length.")
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
