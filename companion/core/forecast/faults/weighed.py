"""A fault hypothesis of one size with its chance after the readings."""

from __future__ import annotations

from msgspec import Struct

from companion.core.forecast.faults.candidates import SizedFault


class WeighedHypothesis(Struct, frozen=True):
    """One candidate with its chance after the readings. All of them and "nothing wrong" add up to 1."""

    candidate: SizedFault
    p: float
