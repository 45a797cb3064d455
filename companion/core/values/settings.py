"""What the maker has set: how each is named and typed is said in `setting_list`."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.values.assumptions import USUAL
from companion.core.values.colour_sets import COLOUR_SETS
from companion.core.values.measures.show_lengths import DisplayUnit

LEAST_RISK, MOST_RISK = 0.0001, 0.5  # rarer than any maker can know of; oftener than not
LEAST_SCRAP_MM = 150.0  # long enough for a row of test knots; common practice, no source
BOUNCE_SECONDS = 0.25  # a held key repeats some thirty times a second; two meant presses lie further apart
OwnUnit = DisplayUnit | Literal[""]  # "": as the design says


class Settings(Struct, frozen=True):
    """All that can be set. None, or "", means not set: then the design, the unit or a survey's figure decides."""

    unit: OwnUnit = ""
    ruler_mm: float | None = None
    arm_mm: float | None = None
    risk: float = USUAL.run_out_risk
    scrap_mm: float = LEAST_SCRAP_MM
    bounce_seconds: float = BOUNCE_SECONDS
    hand: str = "right"
    colours: str = COLOUR_SETS[0]
