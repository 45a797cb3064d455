"""What is said before the ways out: what to look at first, and what there is to put right."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.forecast.counting import stretch_to_count, suspected_miscount
from companion.core.forecast.outlook import Outlook
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.counting_words import please_count
from companion.core.words.measured.reading_list_words import doubtful_line, taking_out
from companion.core.words.measured.reason_words import counted_words, course_words, is_over, is_worth_telling, well_word
from companion.core.words.measured.verdict_words import NO_KEYS, Keys, in_brackets

IF_MISSING = {
    "bead missed": "If one is missing because a step was marked twice, answer that the {what} is ahead.",
    "bead too many": "If there is one more because a step was not marked, answer that the {what} is behind.",
}
NOTHING_NEARER = "Nothing is left to change that would bring the length nearer."
FOR_THE_CORD = "Joining on lets the cord reach the end. It leaves the length as it is."


def ways_lines(
    plan: Plan,
    piece: Piece,
    outlook: Outlook,
    found: bool,
    keys: Keys = NO_KEYS,
    what: str = "screen",
    joins_alone: bool = False,
) -> Iterator[str]:
    """Sentences before the ways out: the cord, then the length. `found`: whether there are any ways, `joins_alone`:
    and none but joins; sentences name those of the `keys` that do what they ask for, and `what` says where the piece
    stands."""
    cord = cord_line(plan, outlook)
    if cord.level != "quiet":
        yield str(cord)
    if doubtful := doubtful_line(plan, piece, outlook, keys):
        yield str(doubtful)
    suspect = suspected_miscount(plan, outlook)
    if outlook.verdict == "measure again":
        yield _measure_first(piece, outlook, keys)
    elif suspect:
        count = please_count(plan, stretch_to_count(plan, piece, outlook), piece.done, in_brackets(keys, "recount"))
        yield f"First make sure. {count} {IF_MISSING[suspect.kind].format(what=what)}"
    elif outlook.verdict == "on plan" and found and is_worth_telling(plan, piece, outlook):
        yield f"{_within(plan, piece, outlook)} {FOR_THE_CORD if joins_alone else 'To bring it nearer:'}"
    elif outlook.verdict == "on plan":
        yield f"{well_word(plan, outlook)}. Nothing needs doing for the length."
    elif outlook.verdict != "no target" and (joins_alone or not found):
        yield f"{NOTHING_NEARER} {FOR_THE_CORD}" if joins_alone else NOTHING_NEARER


def _within(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """A length that is within what the maker allows, and how far it is from her target."""
    why = counted_words(piece, is_over(plan, outlook))
    return " ".join(filter(None, (f"{well_word(plan, outlook)}.", why, course_words(plan, outlook))))


def _measure_first(piece: Piece, outlook: Outlook, keys: Keys) -> str:
    if outlook.doubted == "free":
        again = f"measure the leftover cord again{in_brackets(keys, 'measure cord again')}"
    else:
        again = f"measure the strand again{in_brackets(keys, 'measure again')}"
    out = taking_out(piece, outlook.doubtful, keys) if outlook.doubtful else "take it out"
    return f"First {again}. If the reading was a slip, {out}."
