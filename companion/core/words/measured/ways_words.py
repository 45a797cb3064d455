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
    "bead missed": "If one is missing because a step was marked twice, answer that the screen is ahead.",
    "bead too many": "If there is one more because a step was not marked, answer that the screen is behind.",
}


def ways_lines(plan: Plan, piece: Piece, outlook: Outlook, found: bool, keys: Keys = NO_KEYS) -> Iterator[str]:
    """Sentences before the ways out: the cord, then the length. `found`: whether there are any ways; sentences name
    those of the `keys` that do what they ask for."""
    cord = cord_line(plan, outlook)
    if cord.level != "quiet":
        yield str(cord)
    if doubtful := doubtful_line(plan, piece, outlook, keys):
        yield str(doubtful)
    suspect = suspected_miscount(plan, outlook)
    if outlook.verdict == "measure again":
        yield _measure_first(piece, outlook, keys)
    elif suspect:
        count = please_count(plan, stretch_to_count(plan, piece, outlook), in_brackets(keys, "recount"))
        yield f"First make sure. {count} {IF_MISSING[suspect.kind]}"
    elif outlook.verdict == "on plan" and found and is_worth_telling(plan, piece, outlook):
        why = counted_words(piece, is_over(plan, outlook))
        told = " ".join(filter(None, (f"{well_word(plan, outlook)}.", why, course_words(plan, outlook))))
        yield f"{told} To bring it nearer:"
    elif outlook.verdict == "on plan":
        yield f"{well_word(plan, outlook)}: nothing needs doing for it."
    elif outlook.verdict != "no target" and not found:
        yield "Nothing is left to change that would bring the length nearer."


def _measure_first(piece: Piece, outlook: Outlook, keys: Keys) -> str:
    if outlook.doubted == "free":
        again = f"measure the leftover cord again{in_brackets(keys, 'measure cord again')}"
    else:
        again = f"measure the strand again{in_brackets(keys, 'measure again')}"
    out = taking_out(piece, outlook.doubtful, keys) if outlook.doubtful else "take it out"
    return f"First {again}. If the reading was a slip, {out}."
