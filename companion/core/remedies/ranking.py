"""Which remedies are listed, and in what order: by their chance, then by how little they change."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from companion.core.remedies.remedy import Remedy

MOST_LISTED = 6
LEAST_CHANCE = 0.2  # of tolerance: a remedy with less is listed only if nothing is better
TIE = 0.05  # scores nearer than this count as equal
FAR_WORSE = 0.25  # a remedy that scores less than this share of the best is not listed, unless it is for the cord
# What lowers a score: two sides that differ can be seen, and going back loses work that was done. Running out counts
# for half, because new cord can still be joined on afterwards.
UNEVEN_PENALTY, GOING_BACK_PENALTY, RUN_OUT_WEIGHT = 0.25, 0.25, 0.5
FIRST = ("fresh cut", "hold", "tension")  # what is tried first, in this order
KEPT = (*FIRST, "cord", "join")  # listed however much better others are
AT_THE_END = ("closure", "bare", "spacer")


def score(remedy: Remedy) -> float:
    """The chance that the piece ends within tolerance (1 without a target) and its cord reaches, minus what speaks
    against the remedy."""
    p = 1.0 if remedy.p_in_tolerance is None else remedy.p_in_tolerance
    reaches = 1 - RUN_OUT_WEIGHT * remedy.p_run_out
    return p * reaches - UNEVEN_PENALTY * remedy.uneven - GOING_BACK_PENALTY * (remedy.back_to is not None)


def ranked(found: Iterable[Remedy], most: int = MOST_LISTED) -> tuple[Remedy, ...]:
    """The best of each family by score; of those that score about the same, the ones that change less. A fresh cut
    comes first, while nothing is made; then a change of tension: makers try it first, and it costs nothing. A remedy
    that will hardly end within tolerance is left out if any other is likelier to."""
    once: dict[str, Remedy] = {}
    for one in found:
        once.setdefault(one.text, one)
    left = sorted(once.values(), key=lambda one: (-score(one), one.effort))
    ordered: list[Remedy] = []
    while left:
        tied = [one for one in left if score(one) > score(left[0]) - TIE]
        ordered += sorted(tied, key=lambda one: one.effort)
        left = left[len(tied) :]
    least = max((FAR_WORSE * score(one) for one in ordered), default=0.0)
    worthwhile = [one for one in ordered if one.family[0] in KEPT or score(one) >= least]
    likely = [one for one in worthwhile if one.cut or one.p_in_tolerance is None or one.p_in_tolerance >= LEAST_CHANCE]
    if any(not one.afresh for one in likely):
        worthwhile = [one for one in worthwhile if one in likely or one.family[0] in ("join", "hold")]
    worthwhile.sort(key=_place)
    kept = _one_a_family(worthwhile)
    afresh = [one for one in kept if one.afresh]  # the last way, and there however many come before it
    return (*[one for one in kept if not one.afresh][: most - len(afresh)], *afresh)


def _place(remedy: Remedy) -> int:
    """What is tried first comes first, and to begin again comes last."""
    if remedy.afresh:
        return len(FIRST) + 1
    return FIRST.index(remedy.family[0]) if remedy.family[0] in FIRST else len(FIRST)


def _one_a_family(ordered: Sequence[Remedy]) -> list[Remedy]:
    """The first of each family. Ways to make good a repeat at the end count as one family."""
    seen: set[tuple[str, ...]] = set()
    kept = []
    for remedy in ordered:
        main, *beside = remedy.family
        family = (main, *("at the end" if one in AT_THE_END else one for one in beside))
        if family not in seen:
            seen.add(family)
            kept.append(remedy)
    return kept
