"""A whole piece at the prompt: a short cord, a slip, a phone call, a way out, the end."""

from __future__ import annotations

from tests.cli.running import journal, steps_made


def test_a_whole_piece_by_pipe(tallycord, talk, skerry) -> None:
    run = talk("follow", skerry, "--lines", "--spoken")
    told = run.until("How long is the cord you cut")
    assert told.startswith("Skerry bracelet, wrist 6 and a half inches\n")
    assert "21 Sea-glass rounds" in told
    assert "Type y to go on with it" in run.say("42", "Type y")  # inches, and much too short
    run.say("", "How long is the cord you cut")
    run.say("42", "Type y")
    assert "Warning: " in run.say("y", "Warning:")
    run.until("skerry-bracelet")
    for step in range(1, 13):
        assert "Warning: " not in run.say("", f"Step {step} done.")
    # a slip: Enter once too often
    run.say("", "Step 13 done.")
    assert "12 of 33 steps are done." in run.say("u", "Undone: step 13.")
    run.say("", "Step 13 done.")
    # the phone rings, and nobody says goodbye
    run.kill()
    assert steps_made(tallycord) == (13, 33, "under way")
    run = talk("follow", "--lines")
    assert "That is step 13 of 33." in run.until("Press Enter when a step is done")
    assert run.heard.startswith("On skerry-bracelet:\n")
    for step in range(14, 17):
        assert "Warning: " not in run.say("", f"Step {step} done.")  # said by the recap
    assert "Your reading is as expected" in run.say("3 3/8", "Measure the strand after step")
    # the cord is short
    assert "Warning: " in run.say("c 9 1/2", "Warning: ")
    ways = run.say("w", "Which number?")
    assert "No bead still to come takes four cords: start afresh with a longer cord" in ways
    run.say("", "Nothing is changed.")
    assert "Enough cord" in run.say("o 8", "Enough cord")
    for step in range(17, 34):
        assert "Warning: " not in run.say("", f"Step {step} done.")
    run.until("Press Enter to finish the piece.")
    run.say("", "How long did it come out")
    run.say("7 7/8", "How much of each cord is left")
    run.type("4 1/4")
    code, heard = run.end()
    assert code == 0
    assert heard.splitlines()[-1] == "Skerry bracelet is finished. `tallycord undo` opens it again."
    assert steps_made(tallycord) == (33, 33, "finished")
    story = journal(tallycord, "skerry-bracelet")
    assert story[1].startswith("Cut 42 in")
    assert sum(line.startswith("Undone") for line in story) == 1
    assert "New cord joined on: 8 in more of each cord." in story
    assert story[-1] == "Finished at 7 7/8 in."


def test_a_whole_piece_of_several_strands(tallycord, talk, strands) -> None:
    run = talk("follow", strands, "--lines")
    run.until("How long is the cord you cut for upper")
    run.say("", "cut for middle")
    run.say("3 m", "cut for lower")
    run.say("", "Next: ")
    run.type(*[""] * 150)
    run.until("Step 2 done.")
    run.until("Step 54 done.")
    run.until("Press Enter to finish the piece.")
    run.type("", "45", "")
    assert run.end()[0] == 0
    assert steps_made(tallycord) == (150, 150, "finished")
    assert journal(tallycord, "inner-farne-strands")[-1] == "Finished at 45 cm."
