"""A whole piece as it lies when it is closed: its links along a curve, each exactly as long as the plan says.

Nothing is rounded to pixels: every link of a kind has the very same length, whichever way round it lies.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate, pairwise
from math import atan2, cos, hypot, pi, sin

from msgspec import Struct

from companion.core.drawing.links import Chain, Link

LARGEST_SCALE = 3.0  # pixels per mm
EDGE = 1.0  # pixels left free around the piece
_POINTS = 720  # of the curve
_ROUNDEST, _SQUAREST = 2.0, 3.2  # powers of the curve: a circle, and a long box with round ends
_FITS = 6  # rounds in which scale and curve find each other
_TRIES, _NEAR = 24, 0.02  # to close a chain: at most so many, to so many pixels
_SMALLEST = 8  # pixels: a box that is made no smaller
_LESS, _DEPTH = 0.93, 1.6  # a smaller box; how deep a way is at the least, in longest links
_MOST_TIMES = 50.0  # as long as the shortest of several strands may the longest be, to be drawn around it
_LEAST_SHARE = 0.7  # of the scale at which links that bend with the curve would close
Point = tuple[float, float]


class Laid(Struct, frozen=True):
    """A link where it lies: its middle, in pixels from the picture's upper left corner, and how far its hole is turned
    clockwise, radians. `order`: how many beads of the piece are on before it is."""

    link: Link
    x: float
    y: float
    turn: float
    order: int = 0


class Closed(Struct, frozen=True):
    """A closed piece in a picture of so many pixels. `strands`: of each its links in their order, and last what lies
    over its closure; the longest strand first."""

    width: int
    height: int
    pixels_per_mm: float
    strands: tuple[tuple[Laid, ...], ...]
    cord_mm: float


class Curve:
    """A closed way, from the middle of its upper side on clockwise: a circle where it is as wide as high, straighter
    above and below where it is longer."""

    def __init__(self, points: Sequence[Point]) -> None:
        self.points = points
        self.ends = list(accumulate(hypot(x - x0, y - y0) for (x0, y0), (x, y) in pairwise(points)))

    @property
    def length(self) -> float:
        """Once round, pixels."""
        return self.ends[-1]

    def at(self, way: float) -> Point:
        """The place after so many pixels of the way."""
        way %= self.length
        number = min(bisect_right(self.ends, way), len(self.ends) - 1)
        begin = self.ends[number - 1] if number else 0.0
        share = (way - begin) / (self.ends[number] - begin)
        (x0, y0), (x, y) = self.points[number], self.points[number + 1]
        return x0 + (x - x0) * share, y0 + (y - y0) * share

    def after(self, way: float, length: float) -> float:
        """The way at the end of something straight of that length that begins at `way`: where the curve is first so
        far away. Once round where it never is."""
        x0, y0 = self.at(way)
        rounds, place = divmod(way, self.length)
        number, begin, near = bisect_right(self.ends, place), place, 0.0
        for _ in range(_POINTS):
            if number == len(self.ends):
                number, rounds, begin = 0, rounds + 1, 0.0
            x, y = self.points[number + 1]
            far = hypot(x - x0, y - y0)
            if far >= length:
                return rounds * self.length + begin + (self.ends[number] - begin) * (length - near) / (far - near)
            number, begin, near = number + 1, self.ends[number], far
        return way + self.length

    def shrunk(self, share: float) -> Curve:
        """So much of it, hung from the same middle of its upper side."""
        x0, y0 = self.points[0]
        return Curve([(x0 + (x - x0) * share, y0 + (y - y0) * share) for x, y in self.points])


def curve_in(width: float, height: float, inset: float, within: float = 0.0) -> Curve:
    """The curve that leaves so much free of a box at each side, and so much more at its sides and below (`within`)."""
    half_width = max(1.0, width / 2 - inset - within)
    half_height = max(1.0, (height - within) / 2 - inset)
    power = min(_SQUAREST, max(_ROUNDEST, _ROUNDEST * (half_width / half_height) ** 0.5))

    def point(angle: float) -> Point:
        right, up = sin(angle), cos(angle)
        x, y = (abs(part) ** (2 / power) * (1 if part >= 0 else -1) for part in (right, up))
        return width / 2 + half_width * x, inset + half_height * (1 - y)

    return Curve([point(2 * pi * number / _POINTS) for number in range(_POINTS + 1)])


def closed_piece(chains: Sequence[Chain], width: int, height: int) -> Closed:
    """These chains (one at least, each of some length) closed, as large as fits into so many pixels. Shorter ones hang
    within the longest, at its scale, from the same clasp."""
    longest, *others = sorted(chains, key=lambda chain: -chain.length_mm)
    width, height = _roomy(chains, longest, width, height)
    inset = _inset(longest, width, height)
    curve = curve_in(width, height, inset)
    scale = _closing_scale(longest, curve)
    strands = [_laid(longest, curve, scale)]
    for chain in others:
        own = _hung(chain, scale, lambda within: curve_in(width, height, inset, within), min(width, height) / 4)
        strands.append(_laid(chain, own, scale))
    return Closed(width, height, scale, tuple(tuple(strand) for strand in strands), longest.cord_mm)


def _roomy(chains: Sequence[Chain], longest: Chain, width: int, height: int) -> tuple[int, int]:
    """So much of a box that no scale beyond the largest comes of it, nor a way so flat that its longest links could not
    turn at its ends."""
    longest_link_mm = max(link.length_mm for chain in chains for link in chain.links)
    while True:
        curve = curve_in(width, height, _inset(longest, width, height))
        scale = curve.length / longest.length_mm
        depth = min(max(places) - min(places) for places in zip(*curve.points, strict=True))
        if scale > LARGEST_SCALE and min(width, height) > _SMALLEST:
            width, height = int(width * _LESS), int(height * _LESS)
        elif depth < _DEPTH * longest_link_mm * scale and width > height:
            width = int(width * _LESS)
        elif depth < _DEPTH * longest_link_mm * scale and height > width:
            height = int(height * _LESS)
        else:
            return width, height


def _inset(chain: Chain, width: int, height: int) -> float:
    """What the way leaves free at each side of such a box: half the thickest link, and an edge."""
    inset = EDGE
    for _ in range(_FITS):
        scale = curve_in(width, height, inset).length / chain.length_mm
        inset = chain.across_mm * scale / 2 + EDGE
    return inset


def _closing_scale(chain: Chain, curve: Curve) -> float:
    """The scale at which a chain goes once round that curve. Straight links cut its corners, so a little less of them
    goes round than along it."""
    along = curve.length / chain.length_mm
    return _root(lambda scale: _way(chain, curve, scale) - curve.length, along * _LEAST_SHARE, along)


def _hung(chain: Chain, scale: float, curve: Callable[[float], Curve], most: float) -> Curve:
    """The way of a shorter chain at that scale: so far within the outermost one, `most` pixels at the most (or a
    little without it, as stiff as it may be); what is shorter still hangs in a smaller one of the same shape."""

    def left_over(own: Curve) -> float:
        return _way(chain, own, scale) - own.length

    innermost = curve(most)
    if left_over(innermost) >= 0:
        return curve(_root(lambda within: left_over(curve(within)), -EDGE, most))
    return innermost.shrunk(1 / _root(lambda times: left_over(innermost.shrunk(1 / times)), 1.0, _MOST_TIMES))


def _root(rising: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that rises is nought, to so many pixels, or the nearest that is found; by regula falsi, each end
    that stays counting half (the Illinois rule)."""
    under, over = rising(low), rising(high)
    best, least = (high, abs(over)) if abs(over) < abs(under) else (low, abs(under))
    for _ in range(_TRIES):
        if least < _NEAR or not under < 0 < over:
            break
        place = high - over * (high - low) / (over - under)
        value = rising(place)
        if abs(value) < least:
            best, least = place, abs(value)
        if value > 0:
            high, over, under = place, value, under / 2
        else:
            low, under, over = place, value, over / 2
    return best


def _ways(chain: Chain, curve: Curve, scale: float) -> Iterator[tuple[float, float]]:
    """Where on the way each link begins and ends."""
    way = 0.0
    for link in chain.links:
        begin, way = way, curve.after(way, link.length_mm * scale)
        yield begin, way


def _way(chain: Chain, curve: Curve, scale: float) -> float:
    """How far round the chain reaches."""
    return max(end for _, end in _ways(chain, curve, scale))


def _laid(chain: Chain, curve: Curve, scale: float) -> Iterator[Laid]:
    for link, order, (begin, end) in zip(chain.links, chain.order, _ways(chain, curve, scale), strict=True):
        (x0, y0), (x, y) = curve.at(begin), curve.at(end)
        yield Laid(link, (x0 + x) / 2, (y0 + y) / 2, atan2(y - y0, x - x0), order)
    x, y = curve.at(0.0)
    yield from (Laid(link, x, y, 0.0, max(chain.order, default=0)) for link in chain.clasp)
