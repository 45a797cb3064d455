"""Whether the piece will come out at its length, in a few sentences with the number that matters, and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion.core.forecast.cord_budget import last_string_step
from companion.core.forecast.counting import miscount_chance, stretch_to_count, suspected_miscount
from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import NAMED_FROM
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.text import capitalised, sentences
from companion.core.words.measured.reason_words import (
    counted_words,
    course_words,
    is_on_length,
    is_over,
    is_worth_telling,
    known_reason,
    surprise_words,
    well_word,
)
from companion.core.words.notices import Notice

# What the maker can do about a verdict. Where a key does it, the sentence names the key in brackets.
# "question tells" is no key: the question that the count's key asks says where the hand finds the beads.
Answer = Literal[
    "question tells",
    "measure",
    "measure cord",
    "recount",
    "measure again",
    "measure cord again",
    "withdraw",
    "readings",
    "remedies",
    "jump",
]
Keys = Mapping[Answer, str]
NO_KEYS: Keys = {}  # of a command line

RARE_SDS = 3.0  # off by so many standard deviations a reading is to be taken again, the length being right; our own
BEAD = {"bead missed": "a bead may be missing", "bead too many": "there may be a bead too many"}


def verdict_line(
    plan: Plan, piece: Piece, outlook: Outlook, keys: Keys = NO_KEYS, of_the_piece: bool = False
) -> Notice:
    """What the forecast says of the length, and what to do about it; sentences name those of the `keys` that do it.
    `of_the_piece`: it is said right after a reading was judged, and says that it is of the piece as a whole."""
    closing = closing_begun(plan, piece)
    if outlook.verdict in ("recount", "measure again") and not (closing and is_on_length(plan, outlook)):
        return _fault_notice(plan, piece, outlook, keys)
    if closing:
        return _at_the_end(plan, piece, outlook, of_the_piece)
    suspect = suspected_miscount(plan, outlook)
    if outlook.verdict == "on plan" and _measured_whole(plan, outlook) and not (suspect and suspect.p >= NAMED_FROM):
        return _well(plan, piece, outlook, keys)
    if outlook.verdict in ("no target", "on plan"):
        if suspect:
            return _suspected(plan, piece, outlook, keys, suspect)
        return _surprised(plan, piece, outlook, keys) or _well(plan, piece, outlook, keys)
    return _off(plan, piece, outlook, keys, suspect, of_the_piece)


def _fault_notice(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> Notice:
    from companion.core.words.measured.fault_words import misread_notice, recount_notice  # few pieces need them

    misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
    again = in_brackets(keys, "measure cord again" if outlook.doubted == "free" else "measure again")
    if outlook.verdict == "measure again" and misread:
        return misread_notice(plan, outlook, misread, again)
    count = _count(plan, piece, outlook, keys)
    if miscount_chance(outlook) < NAMED_FROM:
        count = _count_and_ruler(plan, piece, outlook, keys, count)
    return recount_notice(outlook, count, _measured(plan, outlook), again)


def _measured(plan: Plan, outlook: Outlook) -> str:
    """What was measured last that was too much to be the ruler; else the latest reading; "" before the first."""
    unusual = next((check for check in reversed(outlook.checks) if not check.is_usual), outlook.newest)
    return surprise_words(plan, unusual) if unusual else ""


def _off(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys, suspect: Fault | None, of_the_piece: bool) -> Notice:
    """Of a length that is off, or that wants watching."""
    why = known_reason(plan, piece, outlook)
    count = _count(plan, piece, outlook, keys) if suspect else ""
    if suspect and suspect.p >= NAMED_FROM:
        bead = BEAD[suspect.kind]
        count = sentences(f"Or {bead}." if why else f"{capitalised(bead)}.", count)
    if outlook.verdict == "watch":
        return _watched(plan, piece, outlook, keys, count)
    detail = sentences(course_words(plan, outlook), why)
    too = _too(f"too {'long' if is_over(plan, outlook) else 'short'}", of_the_piece)
    key = "" if ruler_is_due(piece, outlook) else in_brackets(keys, "remedies")
    return Notice("off", f"{too}{key}.", detail, _count_and_ruler(plan, piece, outlook, keys, count))


def _watched(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys, count: str) -> Notice:
    """Of a length that may still turn out either way: where it is heading, and nothing to do for it but the next
    reading. `count`: the beads to count, "" for none."""
    course, counted = course_words(plan, outlook), counted_words(piece, is_over(plan, outlook))
    if count:
        return Notice("watch", course, counted, _count_and_ruler(plan, piece, outlook, keys, count))
    action = _ruler_action(plan, piece, outlook, keys)
    nearer = f"It can still be brought nearer{in_brackets(keys, 'remedies')}." if counted else ""
    return Notice("quiet", course, counted, sentences(action, nearer))


def _too(how: str, of_the_piece: bool) -> str:
    return f"The piece will be {how}" if of_the_piece else capitalised(how)


def _at_the_end(plan: Plan, piece: Piece, outlook: Outlook, of_the_piece: bool) -> Notice:
    """Once the closure is begun nothing can be put before it any more: how long it will be, and why."""
    if outlook.verdict in ("no target", "on plan") or is_on_length(plan, outlook):
        return _well(plan, piece, outlook, NO_KEYS)
    too, watch = "long" if is_over(plan, outlook) else "short", outlook.verdict == "watch"
    detail = sentences(course_words(plan, outlook), known_reason(plan, piece, outlook))
    how = _too(f"{'a little too' if watch else 'too'} {too}", of_the_piece)
    return Notice("watch" if watch else "off", f"{how}.", detail)


def _suspected(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys, suspect: Fault) -> Notice:
    """The length is right so far, but a reading was too much to be the ruler, and a bead would explain it."""
    so_far = "" if outlook.verdict == "no target" else f"{well_word(plan, outlook)} so far"
    bead = BEAD[suspect.kind] if suspect.p >= NAMED_FROM else "" if so_far else "one reading does not fit"
    action = _count_and_ruler(plan, piece, outlook, keys, _count(plan, piece, outlook, keys))
    headline = capitalised(", but ".join(filter(None, (so_far, bead))))
    return Notice("watch", f"{headline}.", _measured(plan, outlook), action)


def _surprised(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> Notice | None:
    """The same with no bead in doubt: knots, or the ruler. None where the latest reading is nothing rare: of eight
    readings of a piece that goes well one or the other is off by more than the ruler, and that asks for nothing."""
    newest = outlook.newest
    if newest is None or abs(newest.sds) < RARE_SDS:
        return None
    run = "looser" if newest.off_mm > 0 else "tighter"
    cause = f"Perhaps your knots have become {run}, or the ruler slipped."
    again = f"Measure again to be sure{in_brackets(keys, 'measure again')}."
    action = again if newest.reading.step == piece.done else _ruler_when(plan, piece, outlook, keys)
    so_far = "" if outlook.verdict == "no target" else f"{well_word(plan, outlook)} so far."
    return Notice("watch", so_far or cause, sentences(surprise_words(plan, newest), cause if so_far else ""), action)


def _well(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> Notice:
    action = _ruler_action(plan, piece, outlook, keys)
    if outlook.verdict == "no target":
        return Notice("quiet", "No length is set.", action=action)
    word, counted = well_word(plan, outlook), counted_words(piece, is_over(plan, outlook))
    learnt = bool(piece.readings) and word != "On length"
    if not (counted or learnt) or not is_worth_telling(plan, piece, outlook):
        return Notice("quiet", f"{word}.", action=action)
    if counted and not closing_begun(plan, piece):
        action = sentences(action, f"It can still be brought nearer{in_brackets(keys, 'remedies')}.")
    return Notice("quiet", f"{word}.", sentences(counted, course_words(plan, outlook)), action)


def _count_and_ruler(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys, count: str) -> str:
    """A count, and the ruler where it is due."""
    return sentences(count, _ruler_now(plan, piece, keys) if ruler_is_due(piece, outlook) else "")


def _count(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> str:
    from companion.core.words.measured.counting_words import please_count  # for a bead in doubt

    key, by_hand = in_brackets(keys, "recount"), "question tells" not in keys
    return please_count(plan, stretch_to_count(plan, piece, outlook), piece.done, key, by_hand)


def in_brackets(keys: Keys, answer: Answer, then: str = "") -> str:
    """The key that does it, in brackets, and what is typed after it; "" where there is none."""
    return f" ({keys[answer]}{then})" if answer in keys else ""


# -- the ruler --------------------------------------------------------------------------------------------------------


def ruler_is_due(piece: Piece, outlook: Outlook) -> bool:
    """Whether a reading is worth taking now."""
    return outlook.next_reading_step is not None and outlook.next_reading_step <= piece.done


def closing_begun(plan: Plan, piece: Piece) -> bool:
    """Whether a step of the closure is done: nothing can be put before it any more."""
    if piece.done == 0:
        return False
    entry, number = plan.place(piece.done)
    return plan.strands[entry].steps[number - 1].kind == "end" and entry == len(plan.strands) - 1


def _measured_whole(plan: Plan, outlook: Outlook) -> bool:
    """Whether the latest strand reading was taken when all was strung."""
    last = plan.piece_step(len(plan.strands) - 1, last_string_step(plan, len(plan.strands) - 1))
    return outlook.newest is not None and outlook.newest.reading.step >= last


def _ruler_now(plan: Plan, piece: Piece, keys: Keys) -> str:
    entry, number = plan.place(max(1, piece.done))
    before = ", before you close it" if number == last_string_step(plan, entry) else ""
    return f"Measure the strand now{in_brackets(keys, 'measure')}{before}."


def _ruler_when(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> str:
    """When to measure next, "" for no more."""
    if ruler_is_due(piece, outlook):
        return _ruler_now(plan, piece, keys)
    step = outlook.next_reading_step
    return "" if step is None else f"Measure the strand after step {step}."


def _ruler_action(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> str:
    """The same, and with the first reading the free cord: cords run out mostly because knots take more than the cord's
    figures say, and one early reading shows it. It stays asked for until it is measured, or the beads are on."""
    if _cord_checked(plan, piece):
        return _ruler_when(plan, piece, outlook, keys)
    if not ruler_is_due(piece, outlook):
        asked = _cord_is_asked_for(plan, piece)
        cord = f"Measure the leftover cord too{in_brackets(keys, 'measure cord')}, just this once." if asked else ""
        return sentences(cord, _ruler_when(plan, piece, outlook, keys))
    cord = f"the leftover cord{in_brackets(keys, 'measure cord')}"
    return f"Measure the strand now{in_brackets(keys, 'measure')}, and just this once {cord}."


def _cord_is_asked_for(plan: Plan, piece: Piece) -> bool:
    """Whether the strand in hand was measured, and so the cord asked for, with beads or knots still to come."""
    entry, number = plan.place(min(piece.done + 1, plan.total_steps))
    places = (plan.place(reading.step) for reading in piece.readings if reading.kind == "strand" and reading.step)
    return number <= last_string_step(plan, entry) and any(place == entry for place, _ in places)


def _cord_checked(plan: Plan, piece: Piece) -> bool:
    """Whether the free cord of the entry in hand was measured since its first element."""
    entry = plan.place(min(piece.done + 1, plan.total_steps))[0]
    places = (plan.place(reading.step) for reading in piece.readings if reading.kind == "free" and reading.step)
    return any(place == entry and plan.strands[entry].steps[number - 1].elements for place, number in places)
