"""How soon a key counts again after its last press."""

from __future__ import annotations

import os


def bounce_seconds(usual: float) -> float:
    """For how long after its last press a key does not count again: TALLYCORD_KEY_BOUNCE, in seconds, where it is set
    (a script that types wants 0), else `usual`."""
    try:
        return max(0.0, float(os.environ.get("TALLYCORD_KEY_BOUNCE", "")))
    except ValueError:
        return usual
