"""A place on the picture of a design: what lies there, and what changes with it."""

from __future__ import annotations

from companion.core.draft.draft import Draft
from companion.core.draft.pattern import BareCord, Mirrored, Repeated, Typed
from companion.core.draft.places import AlsoChanged
from companion.core.values.design import Bead, BeadRun, Knot
from companion.core.values.text import plain, sentences

APART = "A lets this one stand apart."


def here_words(draft: Draft, item: Typed, number: int, of: int, reach: AlsoChanged) -> str:
    """What is under the cursor: "12 of 40: P, Pink glass. It stands in a repeat: …"."""
    return sentences(f"{number} of {of}: {_what(draft, item)}.", _stands(reach))


def _what(draft: Draft, item: Typed) -> str:
    names = {bead.letter: bead.name.strip() for bead in draft.beads}
    match item:
        case Bead(key=letter):
            return plain(f"{letter}, {names[letter]}" if names.get(letter) else letter, 60)
        case BeadRun(key=letter):
            return plain(f"in the run of {names.get(letter) or letter}", 60)
        case Knot(kind=kind):
            return f"a {kind} knot"
        case BareCord(typed=typed):
            return plain(f"{typed} of bare cord", 60)
        case Repeated() | Mirrored():
            raise TypeError(item)


def _stands(reach: AlsoChanged) -> str:
    if reach.run:
        return f"A change here changes the whole run. {APART}"
    if reach.repeats and reach.mirror:
        return f"A change here changes every repeat, on both sides of the mirror. {APART}"
    if reach.repeats:
        return f"A change here changes every repeat. {APART}"
    return "A change here changes both sides of the mirror." if reach.mirror else ""


def changed_words(reach: AlsoChanged) -> str:
    """What was changed."""
    if reach.run:
        return "Changed in the whole run. u undoes it."
    if reach.repeats and reach.mirror:
        return "Changed in every repeat, on both sides. u undoes it."
    if reach.repeats:
        return "Changed in every repeat. u undoes it."
    if reach.mirror:
        return "Changed on both sides of the mirror. u undoes it."
    return "Changed here alone. u undoes it."


def no_further(within: bool) -> str:
    """Why it can't be moved."""
    if within:
        return "It goes no further: the repeat, or the side of the mirror, ends here."
    return "It goes no further: the strand ends here, or a repeat begins."


def run_words(fitted: bool = False) -> str:
    """Why that can't be done within a run of beads; `fitted`: it has as many beads as fit."""
    if fitted:
        return "There are as many as fit. Let this place stand apart first (A)."
    return "Beads of a run are all alike, its knots too. Let this place stand apart first (A)."


def apart_asked(reach: AlsoChanged) -> str:
    """What letting it stand apart would do."""
    both = " on both sides of the mirror" if reach.mirror else ""
    if reach.run:
        return f"These beads would stand apart from their run{both}, and change alone. Press A again to do that."
    return f"This repeat would stand apart from the others{both}, and change alone. Press A again to do that."


def apart_words(within: bool) -> str:
    """What stands apart now; `within`: in another repeat, which has to stand apart as well."""
    if within:
        return "It stands apart, but still comes in another repeat. A lets that one stand apart too; u undoes it."
    return "It stands apart now: a change here changes it alone. u undoes it."


def apart_already() -> str:
    """Why nothing can stand apart there."""
    return "It is in no repeat and in no run: a change here changes it alone."
