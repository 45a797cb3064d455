"""Readings that later ones contradict are set aside. This is worked out anew from all readings each time, so it is the
same however often the piece was opened, and a reading that turns out to fit after all counts again by itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import fsum
from typing import TYPE_CHECKING

from msgspec.structs import replace

from companion.core.forecast.evidence import Evidence
from companion.core.forecast.observations import elements_read, read_of
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan

if TYPE_CHECKING:
    from companion.core.forecast.faults.candidates import Candidate
    from companion.core.forecast.faults.posterior import WeighedHypothesis

SET_ASIDE_ABOVE = 0.9  # chance that a reading is wrong at which it is set aside; our own choice
NEVER = 1e-6  # chance below which a reading counts as right anyway
MOST_SET_ASIDE = 3  # one after another; with more than that it is not the ruler


def contradicted(plan: Plan, piece: Piece, evidence: Evidence) -> Measured | None:
    """The reading that later ones of its kind contradict most, None where all fit. `evidence`: all that is read of the
    piece. The latest of its kind never is: nothing later speaks against it."""
    if evidence.posterior is None:
        return None
    read = read_of(plan, piece)
    wrong: dict[int, float] = defaultdict(float)
    for one in evidence.posterior.weighed:
        for number in _misread(one.candidate):
            wrong[number] += one.p
    found = [(p, number) for number, p in wrong.items() if p >= SET_ASIDE_ABOVE and _is_followed(plan, read, number)]
    return read[max(found)[1]] if found else None


def _misread(candidate: Candidate) -> Iterator[int]:
    """The readings (from 0) that are wrong if that is what went wrong."""
    for one in (candidate, candidate.first):
        if one is not None and one.prepared.hypothesis.reading is not None:
            yield one.prepared.hypothesis.reading


def _is_followed(plan: Plan, read: Sequence[Measured], number: int) -> bool:
    """Whether a later reading is of the same kind and entry, with as much strung or more."""
    one = read[number]
    entry, strung = plan.place(one.step)[0], elements_read(plan, one)
    later = (other for other in read[number + 1 :] if other.kind == one.kind and plan.place(other.step)[0] == entry)
    return any(elements_read(plan, other) >= strung for other in later)


def taken_at_its_word(plan: Plan, piece: Piece, evidence: Evidence, entry: int) -> Evidence:
    """The same, with the latest free-cord reading of an entry held to be right where it says that less is left than
    was expected: until it is read again the worse of the two counts."""
    read = read_of(plan, piece)
    mine = [n for n, one in enumerate(read) if one.kind == "free" and plan.place(one.step)[0] == entry]
    if evidence.posterior is None or not mine:
        return evidence

    def kept(one: WeighedHypothesis) -> bool:  # weighed as cord used: too much of it is too little left
        candidates = (one.candidate, one.candidate.first) if one.candidate.first else (one.candidate,)
        return not any(c.prepared.hypothesis.reading == mine[-1] and c.size >= 0 for c in candidates)

    if fsum(one.p for one in evidence.posterior.weighed if not kept(one)) < NEVER:
        return evidence
    return replace(evidence, posterior=evidence.posterior.only(kept))
