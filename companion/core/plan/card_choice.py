"""Choosing the cord card for a piece: the cards in order of fit, and the design with one of them."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from companion.core.cord.cards import CordCard, card_figures
from companion.core.cord.cord import CardFigures, Cord
from companion.core.plan.checks.warnings import card_warnings
from companion.core.values.design import Design


def by_fit(cards: Sequence[CordCard], cord: Cord) -> tuple[tuple[CordCard, bool], ...]:
    """Each card, and whether it was made with this cord and number of layers; those that were come first."""
    found = [(card, not card_warnings(cord, card_figures(card))) for card in cards]
    return tuple(sorted(found, key=lambda one: not one[1]))


def with_card(design: Design, card: CardFigures) -> Design:
    """The design with that card. The maker chose it, so its knots replace the design's own numbers."""
    tried = {kind for kind, _ in card.knots}
    own = tuple((kind, numbers) for kind, numbers in design.cord.knots if kind not in tried)
    return replace(design, cord=replace(design.cord, knots=own, card=card.name))


def with_estimate(design: Design) -> Design:
    """The design without any cord numbers: all of them are estimated from the diameter."""
    return replace(design, cord=replace(design.cord, knots=(), card=None))
