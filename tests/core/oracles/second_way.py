"""A plan's figures worked out a second time, slowly and exactly: written apart from the planner, sharing only values.

Elements are written out as tokens, lengths are fractions, steps come from splitting the written-out text, `fit` is
found by trying every count in turn. What a closure comes to is written here a second time, in numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import pi

from companion.core.cord.cord import cord_of
from companion.core.values.design import Bead, BeadRun, Design, End, Knot, Mirror, Repeat, Space, Strand

Token = tuple[str, object]  # ("bead", key), ("knot", kind), ("bare", mm)


@dataclass
class Figures:
    """One entry's figures, mm, exact."""

    steps: list[list[Token]]
    strand_mm: Fraction
    take_up_mm: Fraction
    closure_mm: Fraction
    start_tail_mm: Fraction
    start_cord_mm: Fraction
    end_cord_mm: Fraction
    end_tail_mm: Fraction
    beads: dict[str, int] = field(default_factory=dict)
    knots: dict[str, int] = field(default_factory=dict)
    after_step: list[tuple[Fraction, Fraction]] = field(default_factory=list)  # strand and cord used, mm


def tokens(items, fit):
    """The layout written out, one token an element."""
    for item in items:
        if isinstance(item, Bead):
            yield ("bead", item.key)
        elif isinstance(item, Knot):
            yield ("knot", item.kind)
        elif isinstance(item, Space):
            yield ("bare", item.length_mm)
        elif isinstance(item, Repeat):
            for _ in range(item.count or fit):
                yield from tokens(item.of, fit)
        elif isinstance(item, Mirror):
            side = list(tokens(item.side, fit))
            yield from side
            yield from tokens(item.middle, fit)
            yield from side[::-1]
        elif isinstance(item, BeadRun):
            for number in range(1, (item.count or fit) + 1):
                yield ("bead", item.key)
                if item.knot_every and number % item.knot_every == 0:
                    yield ("knot", "single")


def split_into_steps(line):
    """Cut after each knot, then each stretch of over ten beads after its every tenth bead that another follows."""
    stretches, current = [], []
    for token in line:
        current.append(token)
        if token[0] == "knot":
            stretches.append(current)
            current = []
    if current:
        stretches.append(current)
    steps = []
    for stretch in stretches:
        places = [n for n, token in enumerate(stretch) if token[0] == "bead"]
        cuts = [places[n] + 1 for n in range(9, len(places) - 1, 10)]
        steps += [stretch[a:b] for a, b in zip([0, *cuts], [*cuts, len(stretch)], strict=True)]
    return steps


class SecondWay:
    def __init__(self, design: Design):
        self.design = design
        cord = cord_of(design.cord)
        self.length = {("knot", k): Fraction(cord.knot(k).length_mm) for k in ("single", "double", "triple")}
        self.length |= {("bead", b.key): Fraction(b.length_mm) for b in design.beads}
        self.swallow = {("knot", k): Fraction(cord.knot(k).take_up_mm) for k in ("single", "double", "triple")}

    def mm(self, line) -> Fraction:
        return sum((Fraction(t[1]) if t[0] == "bare" else self.length[t] for t in line), Fraction(0))

    def longest(self, fit):
        lines = [list(tokens(strand.layout, fit)) for strand in self.design.strands]
        sizes = [self.mm(line) for line in lines]
        number = max(range(len(lines)), key=lambda n: (sizes[n], -n))
        strand = self.design.strands[number]
        line = lines[number]
        start, end = (end_figures(strand, which, line, self.design) for which in ("start", "end"))
        return lines[number], sizes[number] + start[0] + end[0]

    def target_mm(self, fit) -> float | None:
        size = self.design.size
        if size is None:
            return None
        line, _ = self.longest(fit)
        around = Fraction(0)
        kinds = {kind.key: kind for kind in self.design.beads}
        beads = [kinds[t[1]] for t in line if t[0] == "bead"]
        if size.kind == "wrist" and beads:
            whole = sum(Fraction(b.length_mm) for b in beads)
            around = sum(Fraction(b.length_mm) * Fraction(b.diameter_mm) for b in beads) / whole
        return size.turns * (size.body_mm + size.ease_mm + pi * float(around))

    def fit(self) -> int:
        best, best_off, fit = 1, None, 0
        size = self.design.size
        most = size.turns * (size.body_mm + size.ease_mm + pi * max(b.diameter_mm for b in self.design.beads))
        while True:
            fit += 1
            _, finished = self.longest(fit)
            off = abs(float(finished) - self.target_mm(fit))
            if best_off is None or off < best_off - 1e-9:
                best, best_off = fit, off
            if float(finished) > most + best_off + 200:
                return best

    def entries(self, fit: int) -> list[Figures]:
        found = []
        for strand in self.design.strands:
            line = list(tokens(strand.layout, fit))
            start, end = (end_figures(strand, which, line, self.design) for which in ("start", "end"))
            nothing = (Fraction(0),) * 3
            if strand.work == "along":
                found.append(self.figures(line, start, end))
            else:
                half = len(line) // 2
                found.append(self.figures(line[half:], nothing, end))
                found.append(self.figures(line[:half][::-1], nothing, start))
        return found

    def figures(self, line, start, end) -> Figures:
        swallowed = sum((self.swallow.get(t, Fraction(0)) for t in line), Fraction(0))
        steps = split_into_steps(line)
        result = Figures(
            steps, self.mm(line), swallowed, start[0] + end[0], start[2], start[1], end[1], end[2],
        )  # fmt: skip
        for kind, value in line:
            if kind != "bare":
                counts = result.beads if kind == "bead" else result.knots
                counts[value] = counts.get(value, 0) + 1
        for n in range(len(steps)):
            made = [token for step in steps[: n + 1] for token in step] if len(steps) < 60 else None
            if made is None:
                before = result.after_step[-1] if n else (Fraction(0), result.start_tail_mm + result.start_cord_mm)
                strand = before[0] + self.mm(steps[n])
                used = before[1] + self.mm(steps[n]) + sum(self.swallow.get(t, Fraction(0)) for t in steps[n])
            else:
                strand = self.mm(made)
                used = result.start_tail_mm + result.start_cord_mm + strand
                used += sum(self.swallow.get(t, Fraction(0)) for t in made)
            result.after_step.append((strand, used))
        return result


def end_figures(strand: Strand, which: str, line, design: Design) -> tuple[Fraction, Fraction, Fraction]:
    """Length, cord and tail of one end: as written, or the closure's own, worked out here from the trade's words."""
    end = getattr(strand, which)
    usual = usual_figures(end, which, strand.work, line, cord_of(design.cord))
    pairs = ((end.length_mm, usual[0]), (end.cord_mm, usual[1]), (end.tail_mm, usual[2]))
    return tuple(Fraction(own if own is not None else default) for own, default in pairs)


def usual_figures(end: End, which: str, work: str, line, cord) -> tuple[float, float, float]:
    start = which == "start"
    single, double = (cord.knot(kind).length_mm + cord.knot(kind).take_up_mm for kind in ("single", "double"))
    folded, d = cord.layers == 2 and work == "along", cord.diameter_mm  # worked from the middle, its ends are loose
    match end.closure:
        case "bead tip and clasp":
            return 12, max(15, double), 50 if start else 80
        case "French wire and clasp":
            own = 3 - knots_beside(line if start else line[::-1], 3 if start and work == "along" else 2)
            return 9.5 + own * cord.single.length_mm, 25 + own * single, 150 if start else 120
        case "knotted to the clasp":
            return 8, 30, 100
        case "cord end and clasp":
            return 12, 8, 20
        case "crimp and clasp":
            return 10, 14, 50 if start else 80
        case "loop and button" if start:
            across = end.size_mm or 12
            around = 1.05 * 2 * 1.25 * across + 2 * d  # a button edge on, a quarter as thick as it is wide
            return loop(around, cord.single.length_mm, single, folded)
        case "loop and button":
            return 8, 16 + double, 80
        case "loop and bead" if start:
            return loop(1.05 * pi * (end.size_mm or 10) + 2 * d, cord.single.length_mm, single, folded)
        case "loop and bead":
            across = end.size_mm or 10
            return across / 2 + cord.double.length_mm, 2 * across + double, 80
        case "sliding knot":
            return 0, 0, 120
        case "endless":
            return 0, 0 if start else max(20, double), 90
        case "plain tail":
            return 0, 0, 80
    raise AssertionError(end.closure)


def loop(around, knot_mm, in_knot, folded) -> tuple[float, float, float]:
    """A doubled cord's fold is the loop; a cord by itself goes round and back, and is knotted doubled."""
    return (around / 2 + knot_mm, around / 2 + in_knot, 0) if folded else (
        around / 2 + knot_mm, around + 2 * in_knot, 60,
    )  # fmt: skip


def knots_beside(line, places: int) -> int:
    """Behind how many of the first `places` beads a knot comes before the next bead."""
    text = "".join({"bead": "b", "knot": "k", "bare": ""}[kind] for kind, _ in line)
    parts = text.lstrip("k").split("b")[1:]
    return sum("k" in part for part in parts[:places])
