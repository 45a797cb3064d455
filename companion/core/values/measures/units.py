"""The inch in millimetres, what can be read off a ruler, and how fractions are written: what showing lengths needs of
all that reading them takes."""

from __future__ import annotations

MM_PER_INCH = 25.4
SIXTEENTH_INCH_MM = MM_PER_INCH / 16
UNNOTICED_MM = 0.8  # half a sixteenth of an inch: a length off by less is as it should be
COARSEST_RULER_MM = MM_PER_INCH  # nothing coarser is a ruler for this work
MOST_MM = 1_000_000  # 1 km
VULGARS = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"  # fractions that are one character
