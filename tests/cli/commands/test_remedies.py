"""remedy: what would help, and going on so."""

from __future__ import annotations

from tests.cli.running import steps_made


def test_a_remedy_chosen_changes_what_is_left_and_can_be_taken_back(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("jump", name, 22)
    assert "On length. Nothing needs doing for the length." in tallycord("remedy", name).out
    for step, length in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
        tallycord("measure", name, length, "--at", step)
    listed = tallycord("remedy", name).out.splitlines()
    assert listed[0].startswith("1  ")
    assert tallycord("remedy", name, 9).code == 2
    more = next(line.split()[0] for line in listed if 'more "sea-glass round' in line)
    chosen = tallycord("remedy", name, more)
    assert chosen.code == 0
    total = steps_made(tallycord)[1]
    assert total > 33
    assert f"22 of {total} steps are done" in chosen.out
    for _ in range(total - 22):
        assert tallycord("next", name).code == 0
    assert tallycord("next", name).code == 1
    assert "Chosen for the rest" in tallycord("journal", name).out
    for _ in range(total - 22 + 1):
        assert tallycord("back", name).code == 0
    assert steps_made(tallycord) == (22, 33, "under way")
    assert f"Step {total} of {total}." in tallycord("journal", name).out
