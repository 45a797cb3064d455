"""Lengths and counts as an editor can check them: patterns that accept all that `core.values.measures` accepts, and
little else.

They use only what the regular expressions of Python and of ECMA-262 (JSON Schema's) have in common.
"""

from __future__ import annotations

_VULGAR = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_THOUSANDS = "[1-9][0-9]{0,2},[0-9]{3}(?![0-9.,])"
_DECIMAL = f"(?!{_THOUSANDS})(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)"
_HYPHEN = "[-‐‑–]"
_FRACTION = rf"(?:[0-9]+(?:\s+|\s*{_HYPHEN}\s*))?[0-9]+[/⁄]0*[1-9][0-9]*"
_NUMBER = rf"(?:{_DECIMAL}|{_FRACTION}|(?:[0-9]+\s*{_HYPHEN}?)?\s*[{_VULGAR}])"
_INCHES = '(?:inches|inch|ins|in|["″”])'
_FEET = "(?:feet|foot|ft|['′’])"
_METRIC = "(?:milli|centi)?met(?:re|er)s?|mms?|cms?|m"
_UNIT = f"(?:{_METRIC}|yards?|yds?|{_INCHES}|{_FEET})"
_FEET_AND_INCHES = rf"[0-9]+\s*{_FEET}\s*{_NUMBER}\s*{_INCHES}"

WITH_UNIT = rf"^\s*(?:{_NUMBER}\s*{_UNIT}|{_FEET_AND_INCHES})\s*$"
LENGTH = rf"^\s*(?:{_NUMBER}\s*{_UNIT}?|{_FEET_AND_INCHES})\s*$"
LENGTH_ABOVE_ZERO = rf"^(?=.*[1-9{_VULGAR}]){LENGTH[1:]}"
COUNT = r"^\s*0*(?:[1-9][0-9]{0,4}|100000)\s*$"
LAYERS = r"^\s*0*[1-8]\s*$"
