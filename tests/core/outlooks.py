"""A piece's outlook in one call, with no fault hypotheses: the plain Gaussian."""

from __future__ import annotations

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL, Assumptions


def forecast(plan: Plan, piece: Piece, assumptions: Assumptions = USUAL) -> Outlook:
    """What is to be expected of a piece as it stands."""
    return Forecaster(plan, assumptions).outlook(piece)
