"""Where each element of a strand stands in the pattern, and the pattern changed there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from companion.core.draft.draft import Draft, strands_of, with_strand
from companion.core.draft.layout import AS_TYPED, layout_of
from companion.core.draft.pattern import Mirrored, PatternError, Repeated, Typed, typed_text
from companion.core.values.design import KNOT_KINDS, Bead, BeadRun, Knot

# The number of an item in the list that it stands in, from the outermost list to its own. Of a mirror the side's items
# come first, then the middle's.
Path = tuple[int, ...]
Edit = Callable[[tuple[Typed, ...], int], tuple[Typed, ...]]


class Place(Struct, frozen=True):
    """Where an element stands in the pattern. `backward`: on the far side of a mirror, where what is typed before it
    lies after it."""

    path: Path
    backward: bool = False

    def below(self, number: int, into: int = 0) -> Place:
        """The same place in an item of that number, its own first number so much higher."""
        return Place((number, self.path[0] + into, *self.path[1:]), self.backward)


def places_of(items: Sequence[Typed], fit: int = 1) -> list[Place]:
    """The place of each element, in the order in which they lie, with that count for every `fit`."""
    found: list[Place] = []
    for number, item in enumerate(items):
        match item:
            case Repeated(count=count, of=of):
                found += [place.below(number) for place in places_of(of, fit)] * (fit if count is None else count)
            case Mirrored(side=side, middle=middle):
                one_side = [place.below(number) for place in places_of(side, fit)]
                between = [place.below(number, len(side)) for place in places_of(middle, fit)]
                far_side = [Place(place.path, not place.backward) for place in reversed(one_side)]
                found += [*one_side, *between, *far_side]
            case BeadRun(count=count, knot_every=every):
                beads = fit if count is None else count
                found += [Place((number,))] * (beads + (beads // every if every else 0))
            case _:
                found.append(Place((number,)))
    return found


def item_at(items: Sequence[Typed], path: Path) -> Typed:
    """What stands there: a bead, a knot, bare cord or a run of beads."""
    item = items[path[0]]
    return item if len(path) == 1 else item_at(_within(item), path[1:])


class AlsoChanged(Struct, frozen=True):
    """What else changes with an element: the other repeats, the other side of a mirror, the whole run of beads."""

    repeats: bool
    mirror: bool
    run: bool = False


def reach_of(items: Sequence[Typed], path: Path) -> AlsoChanged:
    """What changes with the element that stands there."""
    repeats = mirror = False
    within = tuple(items)
    for number, below in pairwise(path):
        item = within[number]
        repeats = repeats or (isinstance(item, Repeated) and item.count != 1)
        mirror = mirror or (isinstance(item, Mirrored) and below < len(item.side))
        within = _within(item)
    return AlsoChanged(repeats, mirror, isinstance(item_at(items, path), BeadRun))


def edited(items: Sequence[Typed], path: Path, edit: Edit) -> tuple[Typed, ...]:
    """The items with the list in which that element stands changed; what is then empty goes."""
    items = tuple(items)
    number = path[0]
    if len(path) == 1:
        return edit(items, number)
    item, below = items[number], path[1:]
    put: tuple[Typed, ...]
    match item:
        case Repeated(of=of):
            of = edited(of, below, edit)
            put = (replace(item, of=of),) if of else ()
        case Mirrored(side=side, middle=middle) if below[0] < len(side):
            side = edited(side, below, edit)
            put = (replace(item, side=side),) if side else middle
        case Mirrored(side=side, middle=middle):
            put = (replace(item, middle=edited(middle, (below[0] - len(side), *below[1:]), edit)),)
        case _:
            raise TypeError(item)
    return (*items[:number], *put, *items[number + 1 :])


def _within(item: Typed) -> tuple[Typed, ...]:
    match item:
        case Repeated(of=of):
            return of
        case Mirrored(side=side, middle=middle):
            return (*side, *middle)
        case _:
            raise TypeError(item)


# -- what can be done at a place --------------------------------------------------------------------------------------


def put_before(new: Typed) -> Edit:
    """Another element before that one."""
    return lambda items, number: (*items[:number], new, *items[number:])


def put_after(new: Typed) -> Edit:
    """Another element after that one."""
    return lambda items, number: (*items[: number + 1], new, *items[number + 1 :])


def take_out(items: tuple[Typed, ...], number: int) -> tuple[Typed, ...]:
    """Without that one."""
    return items[:number] + items[number + 1 :]


def one_more_of_the_run(by: int) -> Edit:
    """A run of beads with so many more in it, or fewer (less than 0); one that would have none is taken out."""

    def edit(items: tuple[Typed, ...], number: int) -> tuple[Typed, ...]:
        run = items[number]
        if not isinstance(run, BeadRun) or run.count is None:
            return items
        return (
            take_out(items, number)
            if run.count + by < 1
            else put_in_place(replace(run, count=run.count + by))(items, number)
        )

    return edit


def put_in_place(new: Typed) -> Edit:
    """Another element in place of that one."""
    return lambda items, number: (*items[:number], new, *items[number + 1 :])


def move_by(by: int) -> Edit:
    """That element moved past its neighbour (by 1 or -1); at the edge of its list it stays."""

    def edit(items: tuple[Typed, ...], number: int) -> tuple[Typed, ...]:
        other = number + by
        if not 0 <= other < len(items):
            return items
        moved = list(items)
        moved[number], moved[other] = moved[other], moved[number]
        return tuple(moved)

    return edit


def next_kind(item: Typed, letters: Sequence[str]) -> Typed | None:
    """A knot of the next kind, or the next kind of bead, of a run all of them; None for what has no other."""
    match item:
        case Knot(kind=kind):
            return Knot(KNOT_KINDS[(KNOT_KINDS.index(kind) + 1) % len(KNOT_KINDS)])
        case Bead(key=letter) | BeadRun(key=letter) if len(letters) > 1:
            return replace(item, key=letters[(letters.index(letter) + 1) % len(letters)])
        case _:
            return None


def rewritten(draft: Draft, number: int, items: Sequence[Typed]) -> Draft | None:
    """The draft with a strand's pattern written out from its items: repeats and mirrors in brackets, each knot as it
    stands. None where they are no pattern: nothing is left, or brackets lie too deep."""
    strand = replace(strands_of(draft)[number], pattern=typed_text(items), knots=AS_TYPED, times="1", middle="")
    written = with_strand(draft, number, strand)
    try:
        layout_of(written, number)
    except PatternError:
        return None
    return written
