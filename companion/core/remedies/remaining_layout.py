"""A strand from start to end, how much of it is done, and edits to the rest that keep a mirror a mirror."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.steps import cut_into_steps
from companion.core.values.design import Element

MIRROR_SHARE = 0.6  # a strand is a mirror design where so much of it reads alike from both its ends


class Edit(Struct, frozen=True):
    """Elements [start, stop) of an entry are replaced by others, in the order that the entry is worked."""

    entry: int
    start: int
    stop: int
    elements: tuple[Element, ...]


class RemainingSide(Struct, frozen=True):
    """One entry of a strand: its elements in the order they are worked, and how many of them are done.

    `open`: none of the steps that end it is done, so its rest can still be changed.
    """

    entry: int
    elements: tuple[Element, ...]
    made: int
    open: bool

    def steps_left(self, stop: int | None = None) -> list[tuple[int, int]]:
        """The string steps that are not done, up to the element `stop`: for each, its first element and the one after
        its last."""
        ends = cut_into_steps(self.elements)
        found = zip([0, *ends], ends, strict=False)
        last = len(self.elements) if stop is None else stop
        return [(begin, end) for begin, end in found if begin >= self.made and end <= last]


class RemainingLayout(Struct, frozen=True, dict=True):
    """One strand: its one side, or the first and the second side if it is worked from the middle. The first lies to the
    right."""

    sides: tuple[RemainingSide, ...]

    @classmethod
    def of(cls, plan: Plan, piece: Piece, entries: Sequence[int]) -> RemainingLayout:
        """The strand that these entries of a plan make up, with what is done of it."""
        return cls(tuple(_side(plan, piece, entry) for entry in entries))

    @cached_property
    def whole(self) -> tuple[Element, ...]:
        """All elements from start to end."""
        return self.after(())

    def after(self, edits: Iterable[Edit]) -> tuple[Element, ...]:
        """All elements from start to end, after these edits."""
        edits = tuple(edits)
        worked = [edited(side, edits) for side in self.sides]
        return (*reversed(worked[1]), *worked[0]) if len(worked) == 2 else worked[0]

    @cached_property
    def mirror(self) -> tuple[int, int] | None:
        """Where the mirrored part begins and ends; None if the strand was not designed as a mirror.

        A strand of the same few elements over and over reads the same from both ends too, but is not meant as a mirror.
        """
        begin, end = longest_palindrome(self.whole)
        if end - begin < max(5, MIRROR_SHARE * len(self.whole)):
            return None
        return None if _period(self.whole[begin:end]) <= (end - begin) / 3 else (begin, end)

    def still_mirrored(self, edits: Iterable[Edit]) -> bool:
        """Whether the mirrored part still reads the same from both ends after these edits. True if there is no mirrored
        part."""
        if self.mirror is None:
            return True
        begin, end = self.mirror
        new = self.after(edits)
        part = new[begin : len(new) - (len(self.whole) - end)]
        return part == part[::-1]

    def before_middle(self, side: RemainingSide) -> int | None:
        """How many elements of a side come before the middle of the mirror, if everything beyond the middle is still to
        come.

        None if there is no mirror, or if the work has passed its middle.
        """
        if self.mirror is None:
            return None
        begin, end = self.mirror
        if len(self.sides) == 1:
            middle = (begin + end) // 2
            return middle if side.made < middle else None
        first = self.sides[0]
        return len(side.elements) if side is first and first.open else None

    def workable(self) -> Iterator[tuple[RemainingSide, int | None]]:
        """Each side that can still be changed, with the element before which changes in pairs must end; None for no
        pairs.

        A side that changes only as the partner of the other is left out.
        """
        found = [(side, self.before_middle(side)) for side in self.sides if side.open]
        leading = [one for one in found if one[1] is not None]
        yield from leading or found

    def in_pairs(self, edits: Iterable[Edit]) -> tuple[Edit, ...] | None:
        """These edits together with their partners in the mirror; None if one of them has no partner."""
        found: list[Edit] = []
        for edit in edits:
            partner = self.mirrored(edit)
            if partner is None:
                return None
            found += [edit, partner]
        return tuple(found)

    def mirrored(self, edit: Edit) -> Edit | None:
        """The same edit on the other side of the mirror; None if it would change the middle or what is done."""
        assert self.mirror is not None
        begin, end = self.mirror
        split = len(self.sides[1].elements) if len(self.sides) == 2 else 0
        start, stop = begin + end - split - edit.stop, begin + end - split - edit.start
        if len(self.sides) == 1:
            partner, elements = self.sides[0], edit.elements[::-1]
            kept = edit.stop <= start
        else:  # from the split between them both sides count outward, the second one to the left
            partner, elements = self.sides[1], edit.elements
            start, stop = split - stop, split - start
            kept = True
        if not (kept and partner.made <= start and stop <= len(partner.elements)):
            return None
        return Edit(partner.entry, start, stop, elements)


def _side(plan: Plan, piece: Piece, entry: int) -> RemainingSide:
    strand = plan.strands[entry]
    number = min(max(piece.done - plan.piece_step(entry, 0), 0), len(strand.steps))
    made = strand.steps[number - 1].elements if number else 0
    ended = number > 0 and strand.steps[number - 1].kind == "end"
    return RemainingSide(entry, strand.elements, made, not ended)


def edited(side: RemainingSide, edits: Iterable[Edit]) -> tuple[Element, ...]:
    """A side's elements after these edits. Edits may not overlap; several at one place are made in order."""
    new: list[Element] = []
    at = 0
    for edit in sorted((one for one in edits if one.entry == side.entry), key=lambda one: (one.start, one.stop)):
        new += side.elements[at : edit.start]
        new += edit.elements
        at = edit.stop
    return (*new, *side.elements[at:])


def longest_palindrome(items: Sequence[Element]) -> tuple[int, int]:
    """Start and end of the longest part that reads the same from both ends; of several as long, the first (Manacher's
    algorithm)."""
    spread = 2 * len(items) + 1  # gaps count as places too, so that even and odd parts are one case
    reach = [0] * spread
    centre = right = best = 0
    for place in range(spread):
        if place < right:
            reach[place] = min(right - place, reach[2 * centre - place])
        low, high = place - reach[place] - 1, place + reach[place] + 1
        while low >= 0 and high < spread and (low % 2 == 0 or items[low // 2] == items[high // 2]):
            reach[place] += 1
            low, high = low - 1, high + 1
        if place + reach[place] > right:
            centre, right = place, place + reach[place]
        if reach[place] > reach[best]:
            best = place
    return (best - reach[best]) // 2, (best + reach[best]) // 2


def _period(items: Sequence[Element]) -> int:
    """The smallest shift that brings the items onto themselves, found by their failure function."""
    borders = [0] * len(items)
    for place in range(1, len(items)):
        border = borders[place - 1]
        while border and items[place] != items[border]:
            border = borders[border - 1]
        borders[place] = border + (items[place] == items[border])
    return len(items) - borders[-1] if items else 0
