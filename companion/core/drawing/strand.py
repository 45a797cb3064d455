"""A strand measured out in pixels: every part of a kind is as wide as every other, the ruler carries the rounding."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from functools import cached_property
from itertools import accumulate
from typing import Literal

from msgspec import Struct

from companion.core.drawing.bodies import BodyForm
from companion.core.drawing.own_knots import OwnKnots, own_knots
from companion.core.picture.marks import BeadMark, marks_of
from companion.core.plan.plan import Plan, PlannedStrand, element_mm
from companion.core.values.design import Bead, Element, Knot
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit

PartKind = Literal["bead", "knot", "bare", "finding", "loop"]

LEAST_BEAD_PIXELS = 2
SMALLEST_SCALE, LARGEST_SCALE = 0.05, 6.0  # pixels per mm
HALVINGS = 9
NEXT_SMALLER = 0.98
MOST_EVEN = 12  # rows that are made about as long as one another
LARGE_ENOUGH = 0.85  # of the largest scale, with fewer rows
LEAST_ROW_PIXELS = 5
KNOT_THICKNESSES = 2.4  # how wide a knot is across, in cord diameters; about what an overhand knot measures


class DrawnPart(Struct, frozen=True):
    """One kind of thing on the strand. `key`: the bead's, "" for anything else; sizes in pixels, heights odd, so that
    all lie on one middle line."""

    kind: PartKind
    form: BodyForm
    width: int
    height: int
    length_mm: float
    key: str = ""
    letter: str = ""


class DrawnStrand(Struct, frozen=True, dict=True):
    """An entry of a plan in pixels. `parts[order[i]]` is what element i is drawn as; `before` and `after` are its
    closures, which belong to no element, nor do the knots that a closure ties after some of them: each is drawn as
    `own_knot`, and the ruler, which measures what the strand's readings do, has no length for it."""

    parts: tuple[DrawnPart, ...]
    order: tuple[int, ...]
    before: DrawnPart | None
    after: DrawnPart | None
    cord_pixels: int
    pixels_per_mm: float
    unit: DisplayUnit
    own: OwnKnots = OwnKnots()
    own_knot: DrawnPart | None = None

    @cached_property
    def ends(self) -> tuple[int, ...]:
        """The first pixel after each element and the closure's own knot beside it, counted from the first element's."""
        widths = [self.parts[kind].width for kind in self.order]
        if self.own_knot is not None:
            for element in self.own.at_start | self.own.at_end:
                widths[element] += self.own_knot.width
        return tuple(accumulate(widths))

    @cached_property
    def ends_mm(self) -> tuple[float, ...]:
        """Where each element ends, mm from the first element's start."""
        return tuple(accumulate(self.parts[kind].length_mm for kind in self.order))

    @property
    def width(self) -> int:
        """Pixels of all its elements, the closures left out."""
        return self.ends[-1] if self.ends else 0

    @property
    def height(self) -> int:
        """Pixels of its thickest part; odd."""
        ends = [part for part in (self.before, self.after) if part]
        return max((part.height for part in (*self.parts, *ends)), default=1)

    def part(self, element: int) -> DrawnPart:
        """What element number `element` (from 0) is drawn as."""
        return self.parts[self.order[element]]

    def begin(self, element: int) -> int:
        """The first pixel of an element; for the number after the last one, the strand's end."""
        return self.ends[element - 1] if element else 0

    def element_at(self, pixel: int) -> int:
        """The element that has this pixel; the number after the last beyond the end."""
        return bisect_right(self.ends, pixel)

    def pixel_at_mm(self, place_mm: float) -> float:
        """Where on the picture a place of the real strand lies: the rounding of the parts is in the ruler."""
        element = min(bisect_right(self.ends_mm, place_mm), len(self.order) - 1)
        part = self.part(element)
        into = place_mm - (self.ends_mm[element] - part.length_mm)
        share = min(1.0, max(0.0, into / part.length_mm)) if part.length_mm else 0.0
        return self.begin(element) + share * part.width

    def rows(self, room: int) -> list[tuple[int, int]]:
        """The elements of each row (first, after the last) where a row has so many pixels. Rows break at knots; a run
        without a knot that is longer than a row breaks between two beads."""
        rows, first = [], 0
        while first < len(self.order):
            spare = room - (self.before.width if self.before and not first else 0)
            fits = self.element_at(self.begin(first) + spare)  # this one does not end within the row any more
            end = self._break(first, fits) if fits < len(self.order) else len(self.order)
            rows.append((first, end))
            first = end
        if rows and self.after:
            self._leave_room_for_the_end(rows, room)
        return rows or [(0, 0)]

    def even_rows(self, room: int) -> list[tuple[int, int]]:
        """The same in as many rows, all about as long: the last is no stub. Of very many rows none stands out."""
        rows = self.rows(room)
        low, high = 0, room  # in `high` pixels there are so many rows, in `low` more
        while 1 < len(rows) <= MOST_EVEN and high - low > 1:
            middle = (low + high) // 2
            tried = self.rows(middle)
            if len(tried) > len(rows):
                low = middle
                continue
            high = middle
            if self._longest(tried) <= self._longest(rows):  # what the ends take may leave a row longer, not shorter
                rows = tried
        return rows

    def _longest(self, rows: list[tuple[int, int]]) -> int:
        """Pixels of the elements in the longest of these rows."""
        return max(self.begin(end) - self.begin(first) for first, end in rows)

    def window(self, room: int, made: int) -> tuple[int, int]:
        """The elements (first, after the last) of the one row around the place where made ends. It begins after a knot
        and moves on by a quarter of the room at a time, so that it mostly stands still."""
        jump = max(1, room // 4)
        lead = self.before.width if self.before else 0
        wanted = max(0, (self.begin(made) + lead - jump) // jump * jump)
        if self.width + lead + (self.after.width if self.after else 0) <= room or wanted < lead + jump // 2:
            wanted = 0
        first = self.element_at(wanted - lead) if wanted else 0
        while 0 < first < made and self.part(first - 1).kind != "knot":
            first += 1
        spare = room - (lead if not first else 0)
        end = max(
            self.element_at(self.begin(first) + spare), made + 1
        )  # the place itself, however little room there is
        return first, min(len(self.order), end)

    def _break(self, first: int, fits: int) -> int:
        for end in range(fits, first, -1):
            if self.part(end - 1).kind == "knot":
                return end
        return max(fits, first + 1)

    def _leave_room_for_the_end(self, rows: list[tuple[int, int]], room: int) -> None:
        assert self.after is not None
        first, end = rows[-1]
        lead = self.before.width if self.before and not first else 0
        if lead + self.begin(end) - self.begin(first) + self.after.width <= room or end - first < 2:
            return
        middle = self._break(first, max(first + 1, end - 1))
        if middle < end:
            rows[-1:] = [(first, middle), (middle, end)]


def odd(pixels: float, least: int = 1) -> int:
    """The nearest odd number of pixels, at least `least`."""
    return max(least, 2 * round((pixels - 1) / 2) + 1)


def drawn_strand(plan: Plan, entry: int, pixels_per_mm: float) -> DrawnStrand:
    """One entry of a plan (from 0), drawn at a scale in pixels per mm; anything shorter than a pixel gets one."""
    strand = plan.strands[entry]
    marks = {mark.key: mark for mark in marks_of(plan.beads)}
    kinds = list(dict.fromkeys(strand.elements))
    numbers: Mapping[Element, int] = {kind: number for number, kind in enumerate(kinds)}
    parts = tuple(_part(plan, kind, marks, pixels_per_mm) for kind in kinds)
    cord = odd(plan.cord.diameter_mm * pixels_per_mm * (1 if plan.cord.layers == 1 else 1.5))
    before, after = _closures(strand, cord, pixels_per_mm)
    order = tuple(numbers[element] for element in strand.elements)
    own = own_knots(strand)
    knot = _part(plan, Knot("single"), marks, pixels_per_mm) if own.at_start or own.at_end else None
    return DrawnStrand(parts, order, before, after, cord, pixels_per_mm, display_unit(plan.unit), own, knot)


def _part(plan: Plan, element: Element, marks: Mapping[str, BeadMark], pixels_per_mm: float) -> DrawnPart:
    length_mm = element_mm(element, {kind.key: kind for kind in plan.beads}, plan.cord)
    width = round(length_mm * pixels_per_mm)
    match element:
        case Bead(key=key):
            mark = marks[key]
            height = odd(plan.bead(key).diameter_mm * pixels_per_mm)
            return DrawnPart(
                "bead", mark.outline.form, max(LEAST_BEAD_PIXELS, width), height, length_mm, key, mark.letter
            )
        case Knot():
            across = odd(KNOT_THICKNESSES * plan.cord.diameter_mm * pixels_per_mm)
            return DrawnPart("knot", "round", max(1, width), across, length_mm)
        case _:
            return DrawnPart("bare", "tube", max(1, width), 1, length_mm)


def _closures(strand: PlannedStrand, cord: int, pixels_per_mm: float) -> tuple[DrawnPart | None, DrawnPart | None]:
    """What stands at each end: metal, a loop, a button; a tail of bare cord where it is only tied."""

    def sized(kind: PartKind, form: BodyForm, length_mm: float, across_mm: float) -> DrawnPart:
        width = max(3, round(length_mm * pixels_per_mm))
        return DrawnPart(kind, form, width, odd(across_mm * pixels_per_mm, 3), length_mm)

    def end(closure: str, last: bool) -> DrawnPart | None:
        size_mm = strand.finding_mm or 10.0
        if closure in ("loop and button", "loop and bead"):
            form: BodyForm = "disc" if closure == "loop and button" else "round"
            return sized("finding", form, size_mm, size_mm) if last else sized("loop", "ring", size_mm, 0.8 * size_mm)
        if closure in ("sliding knot", "plain tail"):
            return DrawnPart("bare", "tube", max(3, round(15 * pixels_per_mm)), cord, 15.0)
        if closure == "endless":
            return None
        form = "coil" if closure == "French wire and clasp" else "ring"
        return sized("finding", form, 10.0, 6.0)

    return end(strand.start_closure, False), end(strand.end_closure, True)


def least_scale(plan: Plan, entry: int, pixels: float) -> float:
    """The pixels per mm at which the shortest bead of an entry has the given number of pixels."""
    return pixels / min(_bead_lengths_mm(plan, entry))


def largest_scale(plan: Plan, entry: int, pixels: float) -> float:
    """The pixels per mm at which the longest bead of an entry has the given number of pixels."""
    return pixels / max(_bead_lengths_mm(plan, entry))


def height_scale(plan: Plan, entry: int, pixels: int) -> float:
    """The largest pixels per mm, about, at which no part of an entry is taller than so many pixels."""
    scale = pixels * LARGEST_SCALE / drawn_strand(plan, entry, LARGEST_SCALE).height
    while drawn_strand(plan, entry, scale).height > pixels:
        scale *= NEXT_SMALLER
    return scale


def _bead_lengths_mm(plan: Plan, entry: int) -> list[float]:
    return [plan.bead(key).length_mm for key, count in plan.strands[entry].beads if count] or [1.0]


def folding_scale(plan: Plan, entry: int, room: int, height: int, between: int) -> float:
    """About the largest scale at which an entry folds into rows of `room` pixels that have room under one another in
    `height` pixels, `between` of them between two rows: no row more for a little more of it."""
    most = max(1, height // (between + LEAST_ROW_PIXELS))
    scales = [fitting_scale(plan, entry, room, rows, max(1, height // rows - between)) for rows in range(1, most + 1)]
    return next(scale for scale in scales if scale >= LARGE_ENOUGH * max(scales))


def fitting_scale(plan: Plan, entry: int, room: int, most_rows: int, most_height: int) -> float:
    """The largest scale at which an entry folds into so many rows of so many pixels, none taller than `most_height`;
    the smallest there is where even that is too large."""
    low, high = SMALLEST_SCALE, LARGEST_SCALE
    for _ in range(HALVINGS):
        middle = (low * high) ** 0.5
        strand = drawn_strand(plan, entry, middle)
        if strand.height <= most_height and len(strand.rows(room)) <= most_rows:
            low = middle
        else:
            high = middle
    return low
