"""export and import: what they print, and the exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.storage.design.json_schema import accepts


def test_there_and_back(companion, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, skerry: Path) -> None:
    companion("start", skerry)
    companion("next", "skerry")
    companion("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    place = tmp_path / "all.json"
    ran = companion("export", place)
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    before = companion("status", "skerry", "--json").out
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "other"))
    ran = companion("import", place)
    assert ran.out == "1 piece added (skerry-bracelet).\n1 cord card added (linen).\n"
    assert companion("status", "skerry", "--json").out == before
    assert list((tmp_path / "other" / "backups").glob("*.db")) != []  # what was taken in has its copy
    assert companion("import", place).out == "1 piece the same here.\n1 cord card the same here.\n"
    companion("next", "skerry")
    assert companion("import", place).out.startswith("1 piece newer here, and left so (skerry-bracelet).\n")


def test_gone_on_differently_is_told_and_exit_code_1(companion, monkeypatch, tmp_path: Path, skerry: Path) -> None:
    companion("start", skerry)
    place = tmp_path / "all.json"
    companion("export", place)
    companion("next", "skerry")
    here = companion("status", "skerry").out
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "other"))
    companion("import", place)
    companion("note", "skerry", "another road")
    companion("export", place, "--force")
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "companion-home"))
    ran = companion("import", place, "--json")
    assert ran.code == 1
    assert json.loads(ran.out)["pieces"] == [{"name": "skerry-bracelet", "outcome": "apart"}]
    assert ran.err == "▲ skerry-bracelet has gone on differently here and there: it is left as it is here.\n"
    assert companion("status", "skerry").out == here


def test_on_the_output_it_is_one_document_that_the_schema_knows(companion, skerry: Path) -> None:
    assert json.loads(companion("export").out)["pieces"] == []
    companion("start", skerry)
    companion("cord", "linen", "--diameter", "0.6 mm", "--knots", "1", "--before", "200 mm", "--after", "190 mm")
    document = json.loads(companion("export", "-").out)
    assert (document["format"], document["kind"], len(document["pieces"])) == (1, "companion export", 1)
    schema = json.loads(companion("schema", "--export").out)
    assert accepts(schema, schema, document)
    document["pieces"][0]["events"][0]["kind"] = "exploded"
    assert not accepts(schema, schema, document)


def test_a_file_that_is_there_and_one_that_is_none(companion, tmp_path: Path) -> None:
    place = tmp_path / "all.json"
    place.write_text("mine")
    ran = companion("export", place)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err == f"{place} is there already: nothing was written. Give another name, or --force.\n"
    assert place.read_text() == "mine"
    ran = companion("import", place)
    assert (ran.code, ran.err) == (
        1,
        f"{place}: line 1, column 1: Found no JSON object. Nothing was taken from it.\n",
    )
    assert companion("import").code == 2
