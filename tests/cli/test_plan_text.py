"""A plan for reading."""

from __future__ import annotations


def test_the_text_plan_says_what_the_maker_needs(companion, skerry) -> None:
    out = companion("plan", skerry).out
    for words in ("45 5/8 in (1159 mm) of twisted silk", "arm rule", "21 Sea-glass round", "2 Silver daisy",
                  "9 would give 7 5/16 in", "accredited laboratory", "Silver daisy, then a single knot"):  # fmt: skip
        assert words in out
