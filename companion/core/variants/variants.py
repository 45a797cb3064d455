"""The same piece made in other ways: knots in other places, one cord or two, another closure. Each variant is a design
of its own, and planned by the same planner as any other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import CardFigures, cord_of
from companion.core.plan.card_choice import with_estimate
from companion.core.plan.fit import choose_fit
from companion.core.plan.layout import expand, in_order
from companion.core.plan.plan import Plan, Warning
from companion.core.plan.planner import CannotPlan, compile_plan
from companion.core.values.design import Bead, Design, End, Knot, Strand
from companion.core.variants.knotting import Knotting, can_be_reknotted, reknotted, rerun, usual_knot
from companion.core.variants.refitting import RemadeMeasure

Axis = Literal["knots", "cord", "closure"]
AXES: tuple[Axis, ...] = ("knots", "cord", "closure")
EVERY = (1, 2, 3)
MOST_AROUND = 3  # kinds of bead that a variant has knots around


class Way(Struct, frozen=True):
    """What is done otherwise: the knots, the number of cords together, or the closure; none of them: as designed."""

    axis: Axis
    knotting: Knotting | None = None
    layers: int = 0
    closure: str = ""


class Variant(Struct, frozen=True):
    """A way, and its plan; None where it can't be made so, and `why_not`. `fit`: the count for every `fit`;
    `as_designed`: it is the design as it stands; `estimated`: what its knots take is an estimate, though the design or
    its card has figures; `new_warnings`: those that the design as it stands has not."""

    way: Way
    plan: Plan | None
    fit: int | None = None
    as_designed: bool = False
    estimated: bool = False
    new_warnings: tuple[Warning, ...] = ()
    why_not: str = ""


def variants(design: Design, card: CardFigures | None = None, risk: float | None = None) -> tuple[Variant, ...]:
    """The design as it stands and its variants, by what is done otherwise; on each of these it comes once. `card`,
    `risk`: as for `compile_plan`. Raises CannotPlan where the design itself can't be planned."""
    return tuple(_Comparison(design, card, risk).variants())


class _Comparison:
    """One design and what is made of it."""

    def __init__(self, design: Design, card: CardFigures | None, risk: float | None) -> None:
        self.design, self.card, self.risk = design, card, risk
        self.base = compile_plan(design, card, risk=risk)
        self.told = {(warning.code, warning.where) for warning in self.base.warnings}

    def variants(self) -> Iterator[Variant]:
        found: dict[Axis, Iterator[Variant]] = {
            "knots": self.knots(), "cord": self.cords(), "closure": self.closures(),
        }  # fmt: skip
        for axis, made in found.items():
            of_axis = list(made)
            if not any(one.as_designed for one in of_axis):
                of_axis.insert(0, self.as_designed(Way(axis)))
            yield from of_axis

    def as_designed(self, way: Way) -> Variant:
        return Variant(way, self.base, self.base.fit, as_designed=True)

    def planned(self, way: Way, design: Design, fit: int | None = None, estimated: bool = False) -> Variant:
        """A variant, by the planner."""
        try:
            plan = compile_plan(design, None if estimated else self.card, risk=self.risk)
        except CannotPlan as error:
            return Variant(way, None, why_not=str(error))
        new = tuple(one for one in plan.warnings if (one.code, one.where) not in self.told)
        return Variant(way, plan, plan.fit or fit, estimated=estimated, new_warnings=new)

    # -- knots --------------------------------------------------------------------------------------------------------

    def knots(self) -> Iterator[Variant]:
        """After every bead, every second, every third; around some only. Ways that give the same piece are left out."""
        count = self.base.fit or 1
        if not all(can_be_reknotted(expand(strand.layout, count)) for strand in self.design.strands):
            return
        seen: set[object] = set()
        for knotting in (*map(Knotting, EVERY), *(Knotting(around=key) for key in self.few_of())):
            way = Way("knots", knotting)
            found = self.reknotted(way, knotting)
            made = found and found.plan and tuple(strand.elements for strand in found.plan.strands)
            if found is None or made in seen:
                continue
            seen.add(made)
            same = made == tuple(strand.elements for strand in self.base.strands)
            yield self.as_designed(way) if same else found

    def few_of(self) -> list[str]:
        """The kinds of bead that a few knots could go around: there is more than one of them, but fewer than others."""
        beads = Counter[str]()
        for strand in self.base.strands:
            beads.update(dict(strand.beads))
        few = [kind.key for kind in self.base.beads if 1 < beads[kind.key] < beads.total() - beads[kind.key]]
        return few[:MOST_AROUND]

    def reknotted(self, way: Way, knotting: Knotting) -> Variant | None:
        """The design with its knots there, at the count that then fits; None where `fit` stands for knots alone."""
        runs = [rerun(strand.layout, knotting.every) if knotting.every else None for strand in self.design.strands]
        if all(runs):
            strands = zip(self.design.strands, runs, strict=True)
            return self.planned(way, self._with(replace(strand, layout=run or ()) for strand, run in strands))
        measure = RemadeMeasure(
            self.design, cord_of(self.design.cord, self.card), lambda count: self._written_out(count, knotting)
        )
        if measure.holds_fit and measure.beads_mm(2) <= measure.beads_mm(1):
            return None
        fit = choose_fit(measure)
        return self.planned(way, self._written_out(fit or 1, knotting), fit)

    def _written_out(self, count: int, knotting: Knotting) -> Design:
        return self._with(_reknotted_strand(strand, count, knotting) for strand in self.design.strands)

    def _with(self, strands: Iterator[Strand]) -> Design:
        return replace(self.design, strands=tuple(strands))

    # -- cord and closure ---------------------------------------------------------------------------------------------

    def cords(self) -> Iterator[Variant]:
        """One cord, two, and as many as the design has. Figures that were measured are of the design's own number."""
        measured = bool(self.design.cord.knots) or self.card is not None
        for layers in sorted({1, 2, self.design.cord.layers}):
            way = Way("cord", layers=layers)
            if layers == self.design.cord.layers:
                yield self.as_designed(way)
                continue
            guessed = with_estimate(self.design) if measured else self.design
            other = replace(guessed, cord=replace(guessed.cord, layers=layers))
            yield replace(self.planned(way, other, estimated=measured), estimated=measured)

    def closures(self) -> Iterator[Variant]:
        """Every closure, at both ends, with its usual figures."""
        ends = {(strand.start.closure, strand.end.closure) for strand in self.design.strands}
        for closure in CLOSURES:
            way = Way("closure", closure=closure)
            if ends == {(closure, closure)}:
                yield self.as_designed(way)
            else:
                yield self.planned(way, self._with(_closed_by(strand, closure) for strand in self.design.strands))


def _reknotted_strand(strand: Strand, count: int, knotting: Knotting) -> Strand:
    kind = usual_knot(expand(strand.layout, count))
    return replace(strand, layout=reknotted(strand.layout, count, knotting, kind))


def _closed_by(strand: Strand, closure: str) -> Strand:
    """The strand with that closure. Against French wire lies a bead: a knot outside the outermost one is left out."""
    closed = replace(strand, start=End(closure), end=End(closure))
    if closure != "French wire and clasp":
        return closed
    first = next((one for one in in_order(strand.layout) if not isinstance(one, Knot)), None)
    last = next((one for one in in_order(strand.layout, backward=True) if not isinstance(one, Knot)), None)
    layout = list(strand.layout)
    while isinstance(first, Bead) and len(layout) > 1 and isinstance(layout[0], Knot):
        del layout[0]
    while isinstance(last, Bead) and len(layout) > 1 and isinstance(layout[-1], Knot):
        del layout[-1]
    return replace(closed, layout=tuple(layout))
