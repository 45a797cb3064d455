"""status: where you are, and how it ended."""

from __future__ import annotations


def test_status_tells_where_the_work_stands(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    assert "No step is done yet." in tallycord("status", name).out
    for _ in range(18):
        tallycord("next", name)
    out = tallycord("status", name).out
    assert "Last done: Silver daisy, then a single knot. That is step 18 of 33." in out
    assert "1 Silver daisy, then 1 Sea-glass round, then 1 Silver daisy, to the Sea-glass round that is bead 10" in out
    assert "about 3 7/8 in (98 mm)" in out  # 2 + 10 x 8 + 4 + 8 + 4
    assert "Next: Sea-glass round, then a single knot." in out
    assert "On length." in out
    assert "Enough cord." in out


def test_an_ended_piece_has_nothing_to_forecast(tallycord, piece) -> None:
    tallycord("abandon", piece)
    assert tallycord("status", piece).out.splitlines()[1:] == ["Put away: 16 of 33 steps were done."]
    tallycord("back", piece)
    tallycord("jump", piece, 33)
    assert tallycord("finish", piece, "0 mm").code == 2
    far = tallycord("finish", piece, "202 cm")
    assert far.code == 1
    assert "far from the plan" in far.err
    right = tallycord("finish", piece, "202 mm")
    assert (right.code, right.err) == (0, "")
    told = tallycord("status", piece).out.splitlines()[1:]
    assert told[0] == "It came out at 7 15/16 in, 1/16 in short of 8 in: within the 1/8 in you allowed."
    assert "  came out  7 15/16 in (202 mm)" in told
    assert "  target    8 in" in told


def test_a_design_edited_since_is_told_and_changes_nothing(tallycord, skerry, tmp_path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_bytes(skerry.read_bytes())
    name = tallycord("start", path).out.strip()
    before = tallycord("status", name).out
    path.write_text(path.read_text().replace("name: Skerry", "name: Other"))
    after = tallycord("status", name).out
    assert after.startswith(before)
    assert after.removeprefix(before).startswith("The design file has changed")


def test_a_finished_piece_marks_the_reading_that_others_contradict(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    for step, text in ((9, "34 mm"), (16, "76 mm"), (20, "114 mm")):
        tallycord("jump", name, str(step))
        tallycord("measure", name, text, "--anyway")
    tallycord("jump", name, "33")
    tallycord("finish", name, "202 mm", "--left", "15 cm")
    out = tallycord("status", name).out
    assert "after step 16: strand 3 in, set aside" in out
    assert "after step 20: strand 4 1/2 in\n" in out
