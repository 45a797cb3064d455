"""export and import: what they print, and the exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.storage.design.json_schema import accepts


def test_there_and_back(tallycord, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, skerry: Path) -> None:
    tallycord("start", skerry)
    tallycord("next", "skerry")
    tallycord("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    place = tmp_path / "all.json"
    ran = tallycord("export", place)
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    before = tallycord("status", "skerry", "--json").out
    monkeypatch.setenv("TALLYCORD_HOME", str(tmp_path / "other"))
    ran = tallycord("import", place)
    assert ran.out == "1 piece added (skerry-bracelet).\n1 cord card added (linen).\n"
    assert tallycord("status", "skerry", "--json").out == before
    assert list((tmp_path / "other" / "backups").glob("*.db")) != []  # what was taken in has its copy
    assert tallycord("import", place).out == "1 piece the same here.\n1 cord card the same here.\n"
    tallycord("next", "skerry")
    assert tallycord("import", place).out.startswith("1 piece newer here, so not changed (skerry-bracelet).\n")


def test_gone_on_differently_is_told_and_exit_code_1(tallycord, monkeypatch, tmp_path: Path, skerry: Path) -> None:
    tallycord("start", skerry)
    place = tmp_path / "all.json"
    tallycord("export", place)
    tallycord("next", "skerry")
    here = tallycord("status", "skerry").out
    monkeypatch.setenv("TALLYCORD_HOME", str(tmp_path / "other"))
    tallycord("import", place)
    tallycord("note", "skerry", "another road")
    tallycord("export", place, "--force")
    monkeypatch.setenv("TALLYCORD_HOME", str(tmp_path / "tallycord-home"))
    ran = tallycord("import", place, "--json")
    assert ran.code == 1
    assert json.loads(ran.out)["pieces"] == [{"name": "skerry-bracelet", "outcome": "apart"}]
    assert ran.err == "Warning: skerry-bracelet differs in the two copies; yours was kept.\n"
    assert tallycord("status", "skerry").out == here


def test_on_the_output_it_is_one_document_that_the_schema_knows(tallycord, skerry: Path) -> None:
    assert json.loads(tallycord("export").out)["pieces"] == []
    tallycord("start", skerry)
    tallycord("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    document = json.loads(tallycord("export", "-").out)
    assert (document["format"], document["kind"], len(document["pieces"])) == (1, "tallycord export", 1)
    schema = json.loads(tallycord("schema", "--export").out)
    assert accepts(schema, schema, document)
    document["pieces"][0]["events"][0]["kind"] = "exploded"
    assert not accepts(schema, schema, document)


def test_a_file_that_is_there_and_one_that_is_none(tallycord, tmp_path: Path) -> None:
    place = tmp_path / "all.json"
    place.write_text("mine")
    ran = tallycord("export", place)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err == f"{place} is there already: nothing was saved. Give another name, or --force.\n"
    assert place.read_text() == "mine"
    ran = tallycord("import", place)
    assert (ran.code, ran.err) == (
        1,
        f"{place}: line 1, column 1: Found no JSON object. Nothing was taken from it.\n",
    )
    assert tallycord("import").code == 2
