"""Readings that later ones contradict are set aside. This is worked out anew from all readings each time, so it is the
same however often the piece was opened, and a reading that turns out to fit after all counts again by itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from math import fsum
from typing import TYPE_CHECKING

from msgspec.structs import replace

from companion.core.forecast.evidence import Evidence
from companion.core.forecast.observations import read_of
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan

if TYPE_CHECKING:
    from companion.core.forecast.faults.candidates import SizedFault
    from companion.core.forecast.faults.posterior import FaultPosterior
    from companion.core.forecast.faults.weighed import WeighedHypothesis

# Chance that a reading is wrong at which it is set aside: where one later reading speaks against it, and where more do.
SET_ASIDE_ABOVE, BY_MORE, NOTHING_LATER = 0.9, 0.5, 2.0  # our own choice; the last is never reached
NEVER = 1e-6  # chance below which a reading counts as right anyway
MOST_SET_ASIDE = 3  # one after another; with more than that it is not the ruler


def contradicted(plan: Plan, piece: Piece, evidence: Evidence) -> Measured | None:
    """The reading that later ones of its kind contradict most, None where all fit. `evidence`: all that is read of the
    piece. The latest of its kind never is: nothing later speaks against it."""
    if evidence.posterior is None:
        return None
    wrong = _misread_chances(evidence.posterior)
    found = [(p, number) for number, p in wrong.items() if p >= _enough(evidence.followers(number))]
    return read_of(plan, piece)[max(found)[1]] if found else None


def is_disbelieved(evidence: Evidence) -> bool:
    """Whether the latest reading is all but certainly wrong: no length rests on it then."""
    latest = len(evidence.observations) - 1
    return evidence.posterior is not None and _misread_chances(evidence.posterior).get(latest, 0.0) >= SET_ASIDE_ABOVE


def _enough(followers: int) -> float:
    """The chance that a reading is wrong at which it is set aside, by how many later ones speak against it."""
    return SET_ASIDE_ABOVE if followers == 1 else BY_MORE if followers else NOTHING_LATER


def _misread_chances(posterior: FaultPosterior) -> dict[int, float]:
    """The chance of each reading (from 0) that it is wrong; without those that have none."""
    wrong: dict[int, float] = defaultdict(float)
    for one in posterior.weighed:
        for number in _misread(one.candidate):
            wrong[number] += one.p
    return wrong


def _misread(candidate: SizedFault) -> Iterator[int]:
    """The readings (from 0) that are wrong if that is what went wrong."""
    for one in (candidate, candidate.first):
        if one is not None and one.prepared.hypothesis.reading is not None:
            yield one.prepared.hypothesis.reading


def taken_at_its_word(plan: Plan, piece: Piece, evidence: Evidence, entry: int) -> Evidence:
    """The same, with the latest free-cord reading of an entry held to be right where it says that less is left than
    was expected: until it is read again the worse of the two counts."""
    read = read_of(plan, piece)
    mine = [n for n, one in enumerate(read) if one.kind == "free" and plan.place(one.step)[0] == entry]
    if evidence.posterior is None or not mine:
        return evidence

    latest = mine[-1]

    def is_excused(one: SizedFault | None) -> bool:  # weighed as cord used: too much of it is too little left
        return one is not None and one.prepared.hypothesis.reading == latest and one.size >= 0

    def kept(one: WeighedHypothesis) -> bool:
        return not (is_excused(one.candidate) or is_excused(one.candidate.first))

    if fsum(one.p for one in evidence.posterior.weighed if not kept(one)) < NEVER:
        return evidence
    return replace(evidence, posterior=evidence.posterior.only(kept))
