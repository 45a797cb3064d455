"""Which remedies are listed, and in what order: by their chance, then by how little is changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from companion.core.remedies.remedy import Remedy

ALIKE = 0.05  # chances nearer than this count as equal
MOST_LISTED = 6
AT_THE_END = ("closure", "bare", "spacer")
FAR_WORSE = 0.25  # what has less than this share of the best one's chance is not listed, unless it is for the cord
# What makes a remedy worth less than its chance says: two sides that differ show; going back loses made work.
UNEVEN, GOING_BACK = 0.25, 0.25
RUNNING_OUT = 0.5  # new cord can still be joined on afterwards; a length that is made stays


def worth(remedy: Remedy) -> float:
    """The chance that the piece comes out: within tolerance, where it has a target, and the cord reaching, for what
    that counts; less what speaks against the remedy."""
    reaches = 1 - RUNNING_OUT * remedy.p_run_out
    p = (1.0 if remedy.p_in_tolerance is None else remedy.p_in_tolerance) * reaches
    return p - UNEVEN * remedy.uneven - GOING_BACK * (remedy.back_to is not None)


def ranked(found: Iterable[Remedy], most: int = MOST_LISTED) -> tuple[Remedy, ...]:
    """The best of each family, by chance; those about equally likely by how little they change."""
    once: dict[str, Remedy] = {}
    for one in found:
        once.setdefault(one.text, one)
    left = sorted(once.values(), key=lambda one: (-worth(one), one.effort))
    ordered: list[Remedy] = []
    while left:
        alike = [one for one in left if worth(one) > worth(left[0]) - ALIKE]
        ordered += sorted(alike, key=lambda one: one.effort)
        left = left[len(alike) :]
    least = max((FAR_WORSE * worth(one) for one in ordered), default=0.0)
    worthwhile = [one for one in ordered if one.join or one.family[0] == "cord" or worth(one) >= least]
    return tuple(_one_a_family(worthwhile)[:most])


def _one_a_family(ordered: Sequence[Remedy]) -> list[Remedy]:
    """The first of each family; repeats made good at the end are one, whichever way it is done."""
    seen: set[tuple[str, ...]] = set()
    kept = []
    for remedy in ordered:
        main, *beside = remedy.family
        family = (main, *("at the end" if one in AT_THE_END else one for one in beside))
        if family not in seen:
            seen.add(family)
            kept.append(remedy)
    return kept
