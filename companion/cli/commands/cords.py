"""cords and cord: cord cards, and test knots entered a line at a time."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any, get_args

from companion.cli.arguments import Wrong
from companion.cli.printing import complain, say, say_json
from companion.cli.typed_lengths import length_mm, ruler_step_mm
from companion.core.cord.cards import (
    MOST_KNOTS,
    MOST_NAME,
    CardTest,
    CordCard,
    card_figures,
    card_test_doubt,
    half95_mm,
    impossible,
)
from companion.core.cord.cord import KnotFigures
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.values.design import KNOT_KINDS, MOST_LAYERS, KnotKind, Material, Tool
from companion.core.values.text import plain
from companion.core.words.card_words import (
    card_lines,
    card_test_words,
    cord_described,
    count_of_tests,
    kind_lines,
    narrowing_line,
)
from companion.workshop import Workshop


def declare_cords(command: argparse.ArgumentParser) -> None:
    """What `cords` takes."""
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def _one_of(words: Sequence[str]) -> str:
    """The words to choose from, the first of which stands where none is given."""
    first, *others = words
    return f"{first} (if left out), {', '.join(others)}"


def run_cords(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List the cards."""
    cards = workshop.cord_cards.all()
    if arguments.json:
        say_json([card_json(card) for card in cards])
    elif not cards:
        say("No cord cards yet. `tallycord cord NAME` makes one from a test knot.")
    else:
        say("\n".join(line for card in cards for line in _card_lines(card)))
    return 0


def declare_cord(command: argparse.ArgumentParser) -> None:
    """What `cord` takes."""
    command.add_argument("name", metavar="NAME", help=argparse.SUPPRESS)
    command.add_argument("--knots", metavar="N", type=int, help="how many knots were tied")
    command.add_argument("--before", metavar="LENGTH", help="the length before they were tied")
    command.add_argument("--after", metavar="LENGTH", help="the same cord's length after")
    command.add_argument("--row", metavar="LENGTH", help="the knots tied touching, measured along the cord")
    command.add_argument("--kind", metavar="KIND", choices=KNOT_KINDS, default="single", help=_one_of(KNOT_KINDS))
    ruler = "the ruler's smallest mark (as set, else 1 mm)"
    command.add_argument("--ruler", metavar="LENGTH", help=ruler)
    command.add_argument("--withdraw", action="store_true", help="take out the card's latest test")
    command.add_argument("--diameter", metavar="LENGTH", help="the cord's diameter; needed for a new card")
    command.add_argument("--layers", metavar="N", type=int, help="how many cords lie side by side (1)")
    command.add_argument("--material", choices=get_args(Material), metavar="M", help=", ".join(get_args(Material)))
    command.add_argument("--worked-with", metavar="TOOL", choices=get_args(Tool), help=_one_of(get_args(Tool)))


def run_cord(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Take a test, and say what the card knows now."""
    name = plain(arguments.name, MOST_NAME).strip()
    if not name:
        raise Wrong("Found no name; expected the cord card's name, such as waxed linen.")
    if arguments.withdraw:
        return _withdraw(arguments, workshop, name)
    test = _test(arguments, workshop.settings.ruler_mm or 1.0)
    card = _card(arguments, name, workshop.cord_cards.named(name))
    question = card_test_doubt(test, card.diameter_mm)
    if test.row and impossible(test.row):
        raise Wrong(f"{question} Nothing was saved.")
    card = workshop.cord_cards.add_tests(card, test)
    if question:
        complain(f"{question} Saved anyway.")
    say(
        "\n".join(
            (
                f"{plain(card.name)}, {test.kind} knot: {count_of_tests(len(card.tests))} on the card.",
                *_told(card, test.kind),
            )
        )
    )
    return 0


def _withdraw(arguments: argparse.Namespace, workshop: Workshop, name: str) -> int:
    if any(value is not None for value in (arguments.knots, arguments.before, arguments.after, arguments.row)):
        raise Wrong("Found --withdraw and a test; expected one of them.")
    card = workshop.cord_cards.named(name)
    if card is None:
        raise Wrong(f"There is no cord card named {name}.")
    if not card.tests:
        complain(f"The card {plain(card.name)} has no test to take out.")
        return 1
    last = card_test_words(card.tests[-1])
    card = workshop.cord_cards.withdraw_test(card)
    say("\n".join((f"Taken out: {last}.", *_card_lines(card))))
    return 0


def _card(arguments: argparse.Namespace, name: str, there: CordCard | None) -> CordCard:
    """The card that is there, or a new one as typed. Raises Wrong where what is typed is not the card that is there."""
    typed: dict[str, Any] = {
        "diameter_mm": length_mm(arguments.diameter, above_zero=True) if arguments.diameter is not None else None,
        "layers": arguments.layers,
        "material": arguments.material,
        "worked_with": arguments.worked_with,
    }
    typed = {key: value for key, value in typed.items() if value is not None}
    if not 1 <= typed.get("layers", 1) <= MOST_LAYERS:
        raise Wrong(f"Found {typed['layers']} cords side by side; expected 1 to {MOST_LAYERS}.")
    if there is None:
        if "diameter_mm" not in typed:
            raise Wrong(f"There is no cord card named {name} yet: a new one needs --diameter, such as 0.6 mm.")
        return CordCard(name, **typed)
    if any(getattr(there, key) != value for key, value in typed.items()):
        raise Wrong(
            f"The card {there.name} is for another cord ({cord_described(there)}): give this one a name of its own."
        )
    return there


def _test(arguments: argparse.Namespace, usual_ruler_mm: float) -> CardTest:
    if arguments.knots is None:
        raise Wrong("Found no --knots; expected how many knots were tied.")
    if not 1 <= arguments.knots <= MOST_KNOTS:
        raise Wrong(f"Found {arguments.knots} knots; expected 1 to {MOST_KNOTS}.")
    if (arguments.before is None) != (arguments.after is None):
        raise Wrong("Found one of --before and --after; expected both.")
    if arguments.before is None and arguments.row is None:
        raise Wrong("Found no length; expected --before and --after, or --row.")
    ruler_mm = usual_ruler_mm if arguments.ruler is None else ruler_step_mm(arguments.ruler)
    row = touching = None
    if arguments.before is not None:
        before_mm = length_mm(arguments.before, above_zero=True)
        row = KnotTest(before_mm, length_mm(arguments.after, above_zero=True), arguments.knots, ruler_mm)
    if arguments.row is not None:
        touching = TouchingRow(length_mm(arguments.row, above_zero=True), arguments.knots, ruler_mm)
    typed = [text for text in (arguments.before, arguments.after, arguments.row) if text is not None]
    return CardTest(arguments.kind, row, touching, plain("; ".join(typed), 120))


def _told(card: CordCard, kind: KnotKind) -> list[str]:
    """What one kind of knot takes, and what more tests would do for it."""
    lines = (*kind_lines(card, kind), narrowing_line(card, kind))
    return [f"  {line}" for line in lines if line]


def _card_lines(card: CordCard) -> list[str]:
    first = f"{plain(card.name)}: {cord_described(card)}, {count_of_tests(len(card.tests))}"
    return [first, *(f"  {line}" for line in card_lines(card))]


def card_json(card: CordCard) -> dict[str, Any]:
    """A card as plain values; keys may be added, never renamed."""
    return {
        "name": card.name,
        "diameter_mm": card.diameter_mm,
        "layers": card.layers,
        "material": card.material,
        "worked_with": card.worked_with,
        "tests": len(card.tests),
        "pieces": len({lesson.piece for lesson in card.lessons}),
        "knots": {kind: _figures_json(found) for kind, found in card_figures(card).knots},
    }


def _figures_json(found: KnotFigures) -> dict[str, float]:
    return {
        "take_up_mm": found.take_up_mm,
        "take_up_half95_mm": half95_mm(found.take_up_sd_mm, found.degrees),
        "length_mm": found.length_mm,
        "length_half95_mm": half95_mm(found.length_sd_mm, found.degrees),
    }
