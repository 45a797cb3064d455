"""The knot drawings, followed along the cord: they must be the knots that they claim to be, over and under."""

from __future__ import annotations

from fractions import Fraction

import pytest
from rich.cells import cell_len

from companion.core.picture.knot_drawings import CROSSINGS, KNOT_DRAWINGS
from companion.core.values.design import KNOT_KINDS
from tests.core.outside.cords import DETERMINANTS
from tests.core.outside.outside import rows

# Where the cord enters and leaves each character, in half columns and half lines from its top left corner.
ARMS = {
    "─": ((0, 1), (2, 1)), "│": ((1, 0), (1, 2)), "╭": ((2, 1), (1, 2)), "╮": ((0, 1), (1, 2)),
    "╰": ((1, 0), (2, 1)), "╯": ((1, 0), (0, 1)), "╲": ((0, 0), (2, 2)), "╱": ((0, 2), (2, 0)),
}  # fmt: skip


def cord_cells(drawing):
    """Each cell of cord and its two ends, in half columns and half lines of the whole drawing."""
    return {
        (line, column): [(2 * column + x, 2 * line + y) for x, y in ARMS[char]]
        for line, text in enumerate(drawing)
        for column, char in enumerate(text)
        if char in ARMS
    }


def next_cell(cells, left, end):
    """The cell not yet visited that goes on from an end, the end it goes out by, and the cell that it dives under."""
    found = []
    for cell in left:
        for begin, out in (cells[cell], cells[cell][::-1]):
            across, down = abs(begin[0] - end[0]), abs(begin[1] - end[1])
            if (across, down) in ((0, 0), (0, 1)):  # corner to corner, or from mid-line into a slanting stroke
                found.append((down, cell, out, None))
            elif across == down == 2:  # a gap of one cell, corner to corner, with the other leg drawn through it
                middle = ((begin[1] + end[1]) // 4, (begin[0] + end[0]) // 4)
                if middle in cells and begin not in cells[middle] and end not in cells[middle]:
                    found.append((2, cell, out, middle))
    nearest = min(found, default=None)
    assert nearest is None or [entry[0] for entry in found].count(nearest[0]) == 1, "the cord forks"
    return nearest and nearest[1:]


def follow(drawing):
    """The crossings along the cord from its left end: (cell, "over" or "under"), each met twice."""
    cells = cord_cells(drawing)
    last_line = len(drawing) - 1
    start = min(cell for cell in cells if cell[0] == last_line)
    left = dict.fromkeys(cells)
    path, met = [start], []
    del left[start]
    end = cells[start][1]
    while step := next_cell(cells, left, end):
        cell, end, under = step
        if under:
            met.append((under, "under"))
        path.append(cell)
        met.append((cell, "over"))
        del left[cell]
    assert not left, "some of the cord is not reached"
    crossed = {cell for cell, side in met if side == "under"}
    return [(cell, side) for cell, side in met if side == "under" or cell in crossed], path


def determinant_of_knot(met):
    """The knot's determinant, from one equation 2 over = under + under a crossing. Source: R. H. Fox, "A quick trip
    through knot theory" (1962), colourings."""
    crossings = sorted({cell for cell, _ in met})
    equations = {cell: [0] * (len(crossings) + 1) for cell in crossings}
    arc = 0
    for cell, side in met:
        if side == "over":
            equations[cell][arc] += 2
        else:
            equations[cell][arc] -= 1
            arc += 1
            equations[cell][arc] -= 1
    # The last arc and the first are one when the ends are joined; one row and one column are then left out.
    rows = [[row[0] + row[-1], *row[1:-1]] for row in equations.values()]
    return abs(determinant([row[1:] for row in rows[1:]]))


def determinant(rows):
    rows, result = [[Fraction(value) for value in row] for row in rows], Fraction(1)
    for place in range(len(rows)):
        pivot = next((r for r in range(place, len(rows)) if rows[r][place]), None)
        if pivot is None:
            return 0
        if pivot != place:
            rows[place], rows[pivot], result = rows[pivot], rows[place], -result
        result *= rows[place][place]
        for r in range(place + 1, len(rows)):
            share = rows[r][place] / rows[place][place]
            rows[r] = [a - share * b for a, b in zip(rows[r], rows[place], strict=True)]
    return result


@pytest.mark.parametrize(("kind", "crossings"), [("single", 3), *rows(DETERMINANTS)])
def test_the_drawing_is_that_knot(kind, crossings):
    """An alternating drawing of n crossings and determinant n, n = 3, 5, 7, is the overhand knot, or it with its end
    passed through once or twice more (3_1, 5_1, 7_1). Source: D. Rolfsen, Knots and Links (1976), knot table."""
    met, path = follow(KNOT_DRAWINGS[kind])
    assert len({cell for cell, _ in met}) == CROSSINGS[kind] == crossings
    assert [side for _, side in met] == ["under", "over"] * crossings
    assert determinant_of_knot(met) == crossings
    assert path[-1] == (len(KNOT_DRAWINGS[kind]) - 1, len(KNOT_DRAWINGS[kind][-1]) - 1)


@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_one_crossing_turned_over_would_be_noticed(kind):
    """The check itself: with a crossing the other way round the drawing is no longer that knot."""
    met, _ = follow(KNOT_DRAWINGS[kind])
    turned = met[0][0]
    swapped = [(cell, {"over": "under", "under": "over"}[side] if cell == turned else side) for cell, side in met]
    assert determinant_of_knot(swapped) != CROSSINGS[kind]


@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_a_drawing_fits_beside_the_step(kind):
    drawing = KNOT_DRAWINGS[kind]
    assert len(drawing) <= 7
    assert all(len(line) == cell_len(line) <= 30 for line in drawing)
    assert all(line == line.rstrip() for line in drawing)
