"""remedy: what would help, and going on so."""

from __future__ import annotations

from tests.cli.running import steps_made


def test_a_remedy_chosen_changes_what_is_left_and_can_be_taken_back(companion, skerry) -> None:
    name = companion("start", skerry).out.strip()
    companion("jump", name, 22)
    assert "Nothing needs doing" in companion("remedy", name).out
    for step, length in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
        companion("measure", name, length, "--at", step)
    listed = companion("remedy", name).out.splitlines()
    assert listed[0].startswith("1  ")
    assert companion("remedy", name, 9).code == 2
    more = next(line.split()[0] for line in listed if "more of «sea-glass round" in line)
    chosen = companion("remedy", name, more)
    assert chosen.code == 0
    total = steps_made(companion)[1]
    assert total > 33
    assert f"22 of {total} steps are made" in chosen.out
    for _ in range(total - 22):
        assert companion("next", name).code == 0
    assert companion("next", name).code == 1
    assert "Going on otherwise" in companion("journal", name).out
    for _ in range(total - 22 + 1):
        assert companion("back", name).code == 0
    assert steps_made(companion) == (22, 33, "under way")
    assert f"Step {total} of {total}." in companion("journal", name).out
